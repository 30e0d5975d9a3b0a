import { checkDimensions } from '../../core/formula/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { CellBlock, QuestionCell } from '../../sheet/types.ts';
import type { CompileContext } from '../compiled-types.ts';
import type { Form, NodeOfForm } from '../form.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import { resolveInputs, toldAt } from '../inputs.ts';
import { liveSymbols } from '../showing-node.ts';
import type { CellState } from '../types.ts';

/** A question defines nothing; what is right of it is judged where its answer is (`marking`), and its own text is checked here. */
export const questionForm: Form<QuestionCell> = { symbols: () => [], node: questionNode };

function questionNode(block: CellBlock, cell: QuestionCell, context: CompileContext): NodeOfForm {
  const parsed = cell.formula === undefined ? undefined : parseRemembered(cell.formula);
  const expression = parsed?.ok === true ? parsed.value : undefined;
  const reads = [...new Set([...(expression === undefined ? [] : readsOf([expression])), ...(cell.in ?? [])])];
  const { inputs, problems: names } = resolveInputs([...new Set([...reads, ...liveSymbols(cell.why ?? '')])], context, block.id, 'formula');
  const own: Problem[] = [...cell.problems, ...(context.problems.get(block.id) ?? []), ...names];
  if (parsed?.ok === false) own.push({ ...parsed.problem, text: cell.formula ?? '', key: 'formula' });
  if (expression !== undefined && own.length === 0) {
    const dimension = checkDimensions(expression, (name) => context.dimensions.get(name));
    if (!dimension.ok && dimension.problem.code !== 'unknown-name') own.push({ ...dimension.problem, text: cell.formula ?? '', key: 'formula' });
  }
  const state: CellState = Object.freeze({ cellId: block.id, reads, warnings: [], problems: toldAt(block.id, own), ...(expression === undefined ? {} : { expression }) });
  return { inputs, signature: JSON.stringify(['question', block.body, inputs, state.problems]), compute: () => state };
}
