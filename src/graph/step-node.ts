import type { Estimate } from '../core/estimate/index.ts';
import { checkDimensions, unknownNameMend } from '../core/formula/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import {
  coherentUnit, describeDimension, parseUnit, sameDimension, type Dimension, type Unit,
} from '../core/units/index.ts';
import type { CellBlock, CellSlip, StepCell } from '../sheet/types.ts';
import { definedSymbols, parseRemembered, readsOf, type Names } from './names.ts';
import type { PlanContext, PlanNode } from './plan.ts';
import { slipProblem, slipWarnings } from './slips/slip-problems.ts';
import { blockedBy, evaluateStep, type Estimates, type ParsedText, type RangeCondition, type ReadyStep } from './step.ts';
import { temperatureQuestions } from './temperatures.ts';
import type { CellState, RangeWord, SymbolState } from './types.ts';

const RANGE_WORDS: readonly RangeWord[] = ['below limit', 'low cycle', 'beyond data'];

/** The texts of a step parsed: formula in force, ranges, validity, unit; what failed is among the problems. */
export interface StepFormulas {
  readonly source: string;
  readonly formula?: ParsedText;
  readonly unit?: Unit;
  readonly ranges: readonly RangeCondition[];
  readonly validIf?: ParsedText;
  readonly problems: readonly Problem[];
  readonly reads: readonly string[];
  /** Dimension of the result: the unit's, else what the formula gives once those of its symbols are known. */
  readonly dimension: (known: ReadonlyMap<string, Dimension>) => Dimension | undefined;
}

/** Finds and parses what defines a step: its own formula, or the one that the chosen option sets. */
export function stepFormulas(cell: StepCell, names: Names): StepFormulas {
  const problems: Problem[] = [];
  const take = (text: string | undefined, key: string): ParsedText | undefined => {
    if (text === undefined) return undefined;
    const parsed = parseRemembered(text);
    if (parsed.ok) return { text, expression: parsed.value };
    problems.push({ ...parsed.problem, key });
    return undefined;
  };
  const source = formulaText(cell, names);
  if (!source.ok) problems.push(source.problem);
  const formula = source.ok ? take(source.value, slipOf(cell, names) === undefined ? 'formula' : 'slips') : undefined;
  const unit = cell.unit === undefined ? undefined : parseUnit(cell.unit);
  if (unit?.ok === false) problems.push({ ...unit.problem, key: 'unit' });
  const ranges: RangeCondition[] = [];
  for (const [word, text] of rangeTexts(cell, names)) {
    const known = RANGE_WORDS.find((candidate) => candidate === word);
    if (known === undefined) problems.push(unknownRange(word));
    const condition = take(text, 'ranges');
    if (known !== undefined && condition !== undefined) ranges.push({ word: known, condition });
  }
  const validIf = take(cell.validIf, 'valid_if');
  const all = [formula, validIf, ...ranges.map(({ condition }) => condition)].flatMap((part) => part?.expression ?? []);
  return {
    source: JSON.stringify([source.ok ? source.value : '', cell.unit, ranges.map(({ word }) => word), [...rangeTexts(cell, names)]]),
    ...(formula === undefined ? {} : { formula }),
    ...(unit?.ok === true ? { unit: unit.value } : {}),
    ranges,
    ...(validIf === undefined ? {} : { validIf }),
    problems,
    reads: readsOf(all),
    dimension: (known) => {
      if (unit?.ok === true) return unit.value.dimension;
      if (formula === undefined) return undefined;
      const found = checkDimensions(formula.expression, (name) => known.get(name));
      return found.ok && found.value !== 'truth' ? found.value : undefined;
    },
  };
}

/** The slip that stands in place of a step's formula. */
function slipOf(cell: StepCell, { slips }: Names): CellSlip | undefined {
  const offered = slips.get(cell.symbol);
  return offered?.cell === cell ? offered.slip : undefined;
}

function formulaText(cell: StepCell, names: Names): Result<string> {
  const slip = slipOf(cell, names);
  if (slip !== undefined) return { ok: true, value: slip.formula };
  if (cell.formula !== undefined) return { ok: true, value: cell.formula };
  const filling = names.fillings.get(cell.symbol);
  if (filling !== undefined) return { ok: true, value: filling.text };
  const option = cell.by === undefined ? undefined : names.chosen.get(cell.by);
  const problem: Problem =
    option?.missing !== undefined
      ? { code: 'option-missing', what: option.missing, mend: 'Until then another option can be chosen.' }
      : cell.by !== undefined
        ? {
            code: 'formula-not-set',
            what: `The choice “${cell.by}” sets no formula for ${cell.symbol}.`,
            mend: 'Choose another option, or give this step a formula of its own.',
          }
        : { code: 'formula-empty', what: `${cell.symbol} has no formula yet.`, mend: 'Write one, for example pi*d^4/64.' };
  return { ok: false, problem: { ...problem, key: cell.by === undefined ? 'formula' : 'by' } };
}

function rangeTexts(cell: StepCell, names: Names): ReadonlyMap<string, string> {
  const texts = new Map(cell.ranges ?? []);
  for (const option of names.chosen.values()) {
    for (const [word, text] of option.ranges?.get(cell.symbol) ?? []) texts.set(word, text);
  }
  return texts;
}

function unknownRange(word: string): Problem {
  return {
    code: 'range-unknown',
    what: `“${word}” is no range word.`,
    mend: `Use one of: ${RANGE_WORDS.join(', ')}.`,
    key: 'ranges',
  };
}

/** A step as a node: everything that can be known without numbers is settled here, the arithmetic is left. */
export function stepNode(block: CellBlock, cell: StepCell, formulas: StepFormulas, context: PlanContext): PlanNode {
  const { inputs, problems: names } = resolveInputs(formulas.reads, context, block.id, 'formula');
  const fixed = context.problems.get(block.id) ?? [];
  const early = [...cell.problems, ...formulas.problems, ...names, ...fixed];
  const settled = early.length > 0 ? undefined : settle(cell, formulas, context);
  const slip = slipOf(cell, context.names);
  const slipped = slip === undefined || settled?.ok !== true ? undefined : slipProblem(slip, rightDimension(cell, formulas, context), context);
  const problems = [...early, ...(settled?.ok === false ? [settled.problem] : []), ...(slipped === undefined ? [] : [slipped])].map((problem) => ({
    ...problem,
    cell: block.id,
  }));
  const warnings = slipWarnings(cell, slip, rightDimension(cell, formulas, context), context).map((problem) => ({ ...problem, cell: block.id }));
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
    const blocked = blockedBy(formulas.reads, states, ready?.unit ?? formulas.unit);
    // Without trouble of its own, a step fails to get ready only where the dimension of something it reads is unknown.
    const result = blocked ?? (ready === undefined ? undefined : evaluateStep(ready, valuesOf(formulas.reads, states)));
    if (result === undefined) throw new Error(`${cell.symbol}: neither ready nor blocked`);
    const own = result.status === 'problem' && result.origin === undefined ? [result.problem] : [];
    const asked = ready === undefined ? [] : temperatureQuestions(ready.formula.expression, states, 'formula', ready.unit);
    return Object.freeze({
      ...base, result: Object.freeze(result), problems: own,
      ...(asked.length === 0 ? {} : { warnings: [...warnings, ...asked.map((problem) => ({ ...problem, cell: block.id }))] }),
    });
  };
  return {
    cellId: block.id,
    symbols: definedSymbols(cell),
    // A cell on a loop reads nobody: the runtime never sees the loop, and the message names all of it.
    inputs: problems.length > 0 ? [] : inputs,
    signature: JSON.stringify(['step', cell.symbol, formulas.source, cell.validIf, cell.otherwise, inputs, problems, warnings]),
    compute,
    ...(ready === undefined ? {} : { ready }),
  };
}

/** What the result has to be, whatever stands in the formula's place: the unit's, else what the right formula gives. */
function rightDimension(cell: StepCell, { unit, dimension }: StepFormulas, context: PlanContext): Dimension | undefined {
  if (cell.slips === undefined) return undefined;
  if (unit !== undefined || !context.names.slips.has(cell.symbol)) return dimension(context.dimensions);
  const names = { ...context.names, slips: new Map() };
  return stepFormulas(cell, names).dimension(context.dimensions);
}

function settle(cell: StepCell, formulas: StepFormulas, context: PlanContext): Result<ReadyStep> | undefined {
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
    code: 'unit-too-large',
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

/** Cells that define the symbols read; a name nobody defines is a problem that offers near ones. */
export function resolveInputs(
  symbols: readonly string[],
  context: PlanContext,
  cellId: string,
  key: string,
): { readonly inputs: PlanNode['inputs']; readonly problems: readonly Problem[] } {
  const { definitions } = context.names;
  const inputs: { symbol: string; cellId: string }[] = [];
  const problems: Problem[] = [];
  for (const symbol of symbols) {
    const definition = definitions.get(symbol);
    if (definition !== undefined) inputs.push({ symbol, cellId: definition.block.id });
    else problems.push(unknownName(symbol, [...definitions.keys()], cellId, key));
  }
  return { inputs, problems };
}

function unknownName(symbol: string, known: readonly string[], cellId: string, key: string): Problem {
  return {
    code: 'unknown-name',
    what: `Nothing in this sheet is called ${symbol}.`,
    mend: unknownNameMend(symbol, known),
    cell: cellId,
    key,
  };
}

/** The estimates among the states of some symbols. */
export function valuesOf(symbols: readonly string[], states: ReadonlyMap<string, SymbolState>): Estimates {
  const estimates = new Map<string, Estimate>();
  for (const symbol of symbols) {
    const state = states.get(symbol);
    if (state?.status === 'value') estimates.set(symbol, state.estimate);
  }
  return estimates;
}
