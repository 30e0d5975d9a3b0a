import { checkDimensions } from '../../core/formula/index.ts';
import { didYouMean, type Problem, type Result } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { parseUnit, type Dimension, type Unit } from '../../core/units/index.ts';
import type { CellSlip, StepCell } from '../../sheet/types.ts';
import { parseRemembered, readsOf } from '../formulas.ts';
import type { Names } from '../compiled-types.ts';
import type { ParsedText, RangeCondition } from '../step.ts';
import type { RangeWord } from '../types.ts';

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
  /** The choice that has to be made before there is a formula. */
  readonly waitsFor?: string;
  /** Dimension of the result: the unit's, else what the formula gives once those of its symbols are known. */
  readonly dimension: (known: ReadonlyMap<string, Dimension>) => Dimension | undefined;
}

/** Finds and parses what defines a step: its own formula, or the one that the chosen option sets. Once for a cell and names. */
export function stepFormulas(cell: StepCell, names: Names): StepFormulas {
  return formulasIn(names)(cell);
}

const formulasIn = remembered((names: Names) => remembered((cell: StepCell) => read(cell, names)));

function read(cell: StepCell, names: Names): StepFormulas {
  const problems: Problem[] = [];
  const take = (text: string | undefined, key: string): ParsedText | undefined => {
    if (text === undefined) return undefined;
    const parsed = parseRemembered(text);
    if (parsed.ok) return { text, expression: parsed.value };
    problems.push({ ...parsed.problem, key });
    return undefined;
  };
  const source = formulaText(cell, names);
  const waitsFor = choiceOpen(cell, names);
  if (!source.ok && waitsFor === undefined) problems.push(source.problem);
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
    source: JSON.stringify([source.ok ? source.value : '', waitsFor, cell.unit, ranges.map(({ word }) => word), [...rangeTexts(cell, names)]]),
    ...(formula === undefined ? {} : { formula }),
    ...(unit?.ok === true ? { unit: unit.value } : {}),
    ranges,
    ...(validIf === undefined ? {} : { validIf }),
    problems,
    reads: readsOf(all),
    ...(waitsFor === undefined ? {} : { waitsFor }),
    dimension: (known) => {
      if (unit?.ok === true) return unit.value.dimension;
      if (formula === undefined) return undefined;
      const found = checkDimensions(formula.expression, (name) => known.get(name));
      return found.ok && found.value !== 'truth' ? found.value : undefined;
    },
  };
}

/** The slip that stands in place of a step's formula. */
export function slipOf(cell: StepCell, { slips }: Names): CellSlip | undefined {
  const offered = slips.get(cell.symbol);
  return offered?.cell === cell ? offered.slip : undefined;
}

/** The choice that is to set the formula, by the name that the reader knows it by, where nothing is chosen there yet. */
function choiceOpen({ formula, by, symbol }: StepCell, { otherKeys, fillings, slips }: Names): string | undefined {
  const open = by === undefined ? undefined : otherKeys.get(by);
  return open?.typed !== '' || formula !== undefined || fillings.has(symbol) || slips.has(symbol) ? undefined : open.label;
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
        : { code: 'step-formula-missing', what: `${cell.symbol} has no formula yet.`, mend: 'Write one, for example pi*d^4/64.' };
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
    mend: `${didYouMean(word, RANGE_WORDS)}Use one of: ${RANGE_WORDS.join(', ')}.`,
    key: 'ranges',
  };
}
