import { standardUncertainty } from '../../core/estimate/index.ts';
import { checkDimensions, readsUncertainty, referencedSymbols } from '../../core/formula/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import { coherentUnit, describeDimension, DIMENSIONLESS, parseUnit, sameDimension, type Dimension, type Unit } from '../../core/units/index.ts';
import type { CellBlock, StepCell } from '../../sheet/types.ts';
import { parseBounds } from '../bounds.ts';
import { ownSymbol, type Form, type NodeOfForm } from '../form.ts';
import { resolveInputs, toldAt, valuesOf } from '../inputs.ts';
import type { CompileContext } from '../compiled-types.ts';
import { slipProblem, slipWarnings } from '../slips/slip-problems.ts';
import { blockedBy, evaluateStep, openState, type ParsedText, type ReadyStep } from '../step.ts';
import { temperatureQuestions } from '../temperatures.ts';
import type { CellState, SymbolState } from '../types.ts';
import { slipOf, stepFormulas, type StepFormulas } from './step-formulas.ts';

/** A step: one symbol by a formula of others. */
export const stepForm: Form<StepCell> = {
  symbols: ownSymbol,
  reads: (cell, _symbol, names) => stepFormulas(cell, names).reads,
  dimension: (cell, _symbol, names, known) => stepFormulas(cell, names).dimension(known),
  node: stepNode,
  leavesOthers: (before, after) => definingText(before) === definingText(after),
};

/** All of a step that another node may hang on: what it reads and what that makes of its dimension. */
function definingText({ symbol, formula, by, unit, validIf, ranges, slips }: StepCell): string {
  return JSON.stringify([symbol, formula, by, unit, validIf, [...(ranges ?? [])], slips]);
}

/** Everything that can be known without numbers is settled here, the arithmetic is left. */
function stepNode(block: CellBlock, cell: StepCell, context: CompileContext): NodeOfForm {
  const formulas = stepFormulas(cell, context.names);
  const { inputs, problems: names } = resolveInputs(formulas.reads, context, block.id, 'formula');
  const fixed = context.problems.get(block.id) ?? [];
  const early = [...cell.problems, ...formulas.problems, ...names, ...fixed];
  const settled = early.length > 0 ? undefined : settle(cell, formulas, context);
  const slip = slipOf(cell, context.names);
  const slipped = slip === undefined || settled?.ok !== true ? undefined : slipProblem(slip, rightDimension(cell, formulas, context), context);
  const problems = toldAt(block.id, [...early, ...(settled?.ok === false ? [settled.problem] : []), ...(slipped === undefined ? [] : [slipped])]);
  const warnings = toldAt(block.id, [...slipWarnings(cell, slip, rightDimension(cell, formulas, context), context), ...wantedWarnings(cell, formulas, context)]);
  const ready = settled?.ok === true && problems.length === 0 ? settled.value : undefined;
  const base = {
    cellId: block.id,
    symbol: cell.symbol,
    reads: formulas.reads,
    warnings,
    ...(formulas.formula === undefined ? {} : { expression: formulas.formula.expression }),
  };
  const compute = (states: ReadonlyMap<string, SymbolState>): CellState => {
    const [trouble] = problems;
    if (trouble !== undefined) {
      const unit = formulas.unit === undefined ? {} : { unit: formulas.unit };
      return Object.freeze({ ...base, problems, result: { status: 'problem' as const, problem: trouble, ...unit } });
    }
    if (formulas.waitsFor !== undefined) return Object.freeze({ ...base, problems, result: openState(formulas.unit ?? coherentUnit(DIMENSIONLESS), formulas.waitsFor) });
    const blocked = blockedBy(formulas.reads, states, ready?.unit ?? formulas.unit);
    // Without trouble of its own, a step fails to get ready only where the dimension of something it reads is unknown.
    const result = blocked ?? (ready === undefined ? undefined : evaluateStep(ready, valuesOf(formulas.reads, states)));
    if (result === undefined) throw new Error(`${cell.symbol}: neither ready nor blocked`);
    const own = result.status === 'problem' && result.origin === undefined ? [result.problem] : [];
    const asked = ready === undefined ? [] : temperatureQuestions(ready.formula.expression, states, 'formula', ready.unit);
    return Object.freeze({
      ...base, result: Object.freeze(isOfUncertainties(result, ready, states) ? { ...result, isOfUncertainties: true as const } : result), problems: own,
      ...(asked.length === 0 ? {} : { warnings: [...warnings, ...toldAt(block.id, asked)] }),
    });
  };
  return {
    // A cell on a loop reads nobody: the runtime never sees the loop, and the message names all of it.
    inputs: problems.length > 0 ? [] : inputs,
    signature: JSON.stringify(['step', cell.symbol, formulas.source, cell.validIf, cell.otherwise, inputs, problems, warnings]),
    compute,
    ...(ready === undefined ? {} : { ready }),
  };
}

/** A share, a factor or a part that is worked out from uncertainties, itself or through others, and has none. */
function isOfUncertainties(result: SymbolState, ready: ReadyStep | undefined, states: ReadonlyMap<string, SymbolState>): boolean {
  if (result.status !== 'value' || ready === undefined || standardUncertainty(result.estimate) > 0) return false;
  const { expression } = ready.formula;
  return readsUncertainty(expression) || referencedSymbols(expression).some((symbol) => {
    const state = states.get(symbol);
    return state?.status === 'value' && state.isOfUncertainties === true;
  });
}

/** What teams' numbers are held to is no part of the result. */
function wantedWarnings({ wanted }: StepCell, { unit, dimension }: StepFormulas, context: CompileContext): readonly Problem[] {
  if (wanted === undefined) return [];
  const own = unit ?? coherentUnit(dimension(context.dimensions) ?? DIMENSIONLESS);
  const bounds = parseBounds(wanted, own);
  return bounds.ok ? [] : [{ ...bounds.problem, key: 'wanted' }];
}

/** What the result has to be, whatever stands in the formula's place: the unit's, else what the right formula gives. */
function rightDimension(cell: StepCell, { unit, dimension }: StepFormulas, context: CompileContext): Dimension | undefined {
  if (cell.slips === undefined) return undefined;
  if (unit !== undefined || !context.names.slips.has(cell.symbol)) return dimension(context.dimensions);
  const names = { ...context.names, slips: new Map() };
  return stepFormulas(cell, names).dimension(context.dimensions);
}

function settle(cell: StepCell, formulas: StepFormulas, context: CompileContext): Result<ReadyStep> | undefined {
  const { formula } = formulas;
  if (formula === undefined) return undefined;
  const of = (name: string): Dimension | undefined => context.dimensions.get(name);
  // A symbol in trouble upstream has no dimension: then there is nothing to compare yet.
  const unknown = formulas.reads.some((symbol) => of(symbol) === undefined);
  if (!unknown) {
    const dimension = checkDimensions(formula.expression, of);
    if (!dimension.ok) return { ok: false, problem: { ...dimension.problem, text: formula.text, key: 'formula' } };
    const clash = unitClash(cell.symbol, dimension.value, formulas.unit);
    if (clash !== undefined) return { ok: false, problem: clash };
    for (const [key, { text, expression }] of conditionsOf(formulas)) {
      const truth = checkDimensions(expression, of);
      if (!truth.ok) return { ok: false, problem: { ...truth.problem, text, key } };
      if (truth.value !== 'truth') return { ok: false, problem: notTruth(key) };
    }
  }
  const dimension = formulas.dimension(context.dimensions);
  const unit = formulas.unit ?? (dimension === undefined ? undefined : coherentUnit(dimension));
  if (unit === undefined) return undefined;
  if (!parseUnit(unit.name).ok) return { ok: false, problem: unitOutOfRange(unit) };
  const { ranges, validIf } = formulas;
  const otherwise = cell.otherwise ?? 'The formula does not hold for these values.';
  return {
    ok: true,
    value: { cellId: cell.id, formula, unit, ranges, otherwise, ...(validIf === undefined ? {} : { validIf }) },
  };
}

function conditionsOf({ ranges, validIf }: StepFormulas): readonly (readonly [string, ParsedText])[] {
  const conditions = ranges.map(({ condition }) => ['ranges', condition] as const);
  return validIf === undefined ? conditions : [...conditions, ['valid_if', validIf] as const];
}

function notTruth(key: string): Problem {
  return {
    code: 'not-a-condition',
    what: 'This needs a statement that holds or does not hold; it is a number.',
    mend: 'Compare two values, for example x_s <= L.',
    key,
  };
}

function unitOutOfRange({ name }: Unit): Problem {
  return {
    code: 'step-unit-too-large',
    what: `The formula gives a quantity in ${name}; powers of a unit go up to 12.`,
    mend: 'Look at the exponents in the formula and in what it reads.',
    key: 'formula',
  };
}

function unitClash(symbol: string, found: Dimension | 'truth', unit: Unit | undefined): Problem | undefined {
  if (found === 'truth') {
    return {
      code: 'truth-as-value',
      what: `${symbol} would be true or false, not a quantity.`,
      mend: 'Put the comparison into if(condition, value, other value), or make it a check.',
      key: 'formula',
    };
  }
  if (unit === undefined || sameDimension(found, unit.dimension)) return undefined;
  return {
    code: 'unit-clash',
    what:
      `The formula gives ${describeDimension(found)}, but ${symbol} is to be shown in ${unit.name}, ` +
      `which is ${describeDimension(unit.dimension)}.`,
    mend: `Choose a unit such as ${coherentUnit(found).name}, or look at the formula.`,
    key: 'unit',
  };
}
