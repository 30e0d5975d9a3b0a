import { checkDimensions, symbolInWords } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { CellBlock, CheckCell } from '../../sheet/types.ts';
import type { Form, NodeOfForm } from '../form.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import { resolveInputs, toldAt, valuesOf } from '../inputs.ts';
import type { CompileContext } from '../compiled-types.ts';
import { liveSymbols } from '../showing-node.ts';
import { someNames } from '../waits.ts';
import { blockedBy, evaluateCheck } from '../step.ts';
import { temperatureQuestions } from '../temperatures.ts';
import type { CellState } from '../types.ts';

/** A check: its condition must be a statement about values, not a number. */
export const checkForm: Form<CheckCell> = {
  symbols: () => [],
  node: checkNode,
};

function checkNode(block: CellBlock, cell: CheckCell, context: CompileContext): NodeOfForm {
  const parsed = parseRemembered(cell.condition);
  const expression = parsed.ok ? parsed.value : undefined;
  const reads = expression === undefined ? [] : readsOf([expression]);
  const shown = [...new Set([...reads, ...liveSymbols(cell.holds), ...liveSymbols(cell.otherwise)])];
  const { inputs, problems: names } = resolveInputs(shown, context, block.id, 'condition');
  const own: Problem[] = [...cell.problems, ...(context.problems.get(block.id) ?? []), ...names];
  own.push(...concernProblems(cell, context));
  if (cell.condition !== '' && !parsed.ok) own.push({ ...parsed.problem, key: 'condition' });
  if (expression !== undefined && own.length === 0) own.push(...conditionProblems(cell.condition, expression, context));
  const problems = toldAt(block.id, own);
  const base = { cellId: block.id, reads, warnings: [], ...(expression === undefined ? {} : { expression }) };
  return {
    inputs,
    signature: JSON.stringify(['check', block.body, inputs, problems]),
    compute: (states): CellState => {
      const untold = { holds: undefined, message: '' };
      if (problems.length > 0 || expression === undefined) return Object.freeze({ ...base, problems, check: untold });
      const blocked = blockedBy(reads, states, undefined);
      if (blocked !== undefined) return Object.freeze({ ...base, problems, check: { holds: undefined, message: waiting(blocked) } });
      const told = evaluateCheck(expression, cell, valuesOf(reads, states));
      const warnings = toldAt(block.id, temperatureQuestions(expression, states, 'condition'));
      return told.ok
        ? Object.freeze({ ...base, problems, warnings, check: told.value })
        : Object.freeze({ ...base, problems: [{ ...told.problem, text: cell.condition, cell: block.id, key: 'condition' }], check: untold });
    },
  };
}

function concernProblems({ concerns = [] }: CheckCell, { names }: CompileContext): readonly Problem[] {
  return concerns.filter((symbol) => names.definitions.get(symbol)?.block.cell.kind !== 'given').map((symbol) => ({
    code: 'concerns-no-given',
    what: `No given has the symbol ${symbolInWords(symbol)}, so nothing can be said at its blank.`,
    mend: 'Name givens of this sheet under `concerns`, with commas between.',
    key: 'concerns',
  }));
}

function waiting(blocked: NonNullable<ReturnType<typeof blockedBy>>): string {
  if (blocked.status === 'problem') return blocked.problem.what;
  const open = blocked.status === 'range' ? blocked.waitsFor : undefined;
  return open === undefined ? 'This cannot be told while the life has no value.' : `Waits for ${someNames(open)}.`;
}

function conditionProblems(text: string, expression: Expression, context: CompileContext): readonly Problem[] {
  const dimension = checkDimensions(expression, (name) => context.dimensions.get(name));
  if (!dimension.ok) return dimension.problem.code === 'unknown-name' ? [] : [{ ...dimension.problem, text, key: 'condition' }];
  if (dimension.value === 'truth') return [];
  return [
    {
      code: 'check-not-a-condition',
      what: 'A check needs a statement that holds or does not hold; this is a number.',
      mend: 'Compare two values, for example x <= 2*u(x).',
      key: 'condition',
    },
  ];
}
