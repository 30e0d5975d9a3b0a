import { standardUncertainty } from '../../core/estimate/index.ts';
import { composed, isolated, type Problem } from '../../core/problem/index.ts';
import { counterpart, fromSI, inDimensionOf, intervalToSI, readQuantity, type Quantity } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { rightStates, statesWithSlips } from '../../graph/index.ts';
import { slipsOffered } from '../../sheet/index.ts';
import type { StepCell } from '../../sheet/types.ts';
import { withoutSlips } from './slips.ts';
import { asked, sameWords } from './asked.ts';
import { unitOfStep } from './hidden.ts';
import { figures, plainFigures, unitText, withUnit } from './number.ts';
import type { PresentContext, WholeContext, PresentedAnswer } from './types.ts';

/** Working by hand with rounded numbers is good to about this. However few digits are typed, it is never more. */
const HAND_WORKING = 0.01;
/** What is said before the first try: what counts as right, and that any entry brings the sheet's result to light. */
export const ANSWER_RULE = `Right within ${100 * HAND_WORKING} %. Once yours is entered, right or wrong, the sheet’s shows.`;
/** A value smaller than this part of its uncertainty is zero but for rounding, as of x − y. */
const ROUNDING = 1e-9;

/** The reader's own result beside the sheet's; undefined where they have entered none. */
export function presentAnswer(step: StepCell, context: PresentContext): PresentedAnswer | undefined {
  const typed = step.answer?.trim() ?? '';
  if (typed === '') return undefined;
  const unit = unitOfStep(step, context.states);
  if (unit === undefined) return { typed };
  const answer = readAnswer(typed, unit);
  if ('problem' in answer) return { typed, problem: { ...answer.problem, cell: step.id, key: 'answer' } };
  // A slip that is switched on to show what it does is no measure for the reader's own result.
  const state = withoutSlips(context).states.symbol(step.symbol);
  if (state?.status === 'range') {
    if (state.word === 'open') return { typed, sentence: 'The sheet has no number here yet.' };
    return { typed, sentence: 'The sheet gives no number here, because the stress lies outside the range of its line.' };
  }
  if (state?.status !== 'value') return { typed };
  const { value: ours } = state.estimate;
  const yours = answer.quantity.value;
  const agrees = Math.abs(ours) <= ROUNDING * standardUncertainty(state.estimate) ? yours === 0 : isWithinHandWorking(yours, ours);
  if (agrees) return { typed, verdict: 'agrees', sentence: 'Yours agrees with the sheet’s.' };
  if (yours === 0) return { typed, verdict: 'differs', sentence: 'Yours is zero, and the sheet’s is not.' };
  if (isWithin(answer.halfLastPlace, yours, ours)) return { typed, verdict: 'too few digits', sentence: 'More digits, please: what is typed could be the sheet’s, rounded too far.' };
  const comesOf = asked(context, slipsBehind, { symbol: step.symbol, quantity: answer.quantity }, sameWords);
  return { typed, verdict: 'differs', sentence: differenceSentence(answer.quantity, ours), ...(comesOf.length === 0 ? {} : { comesOf }) };
}

function isWithinHandWorking(yours: number, right: number): boolean {
  return isWithin(HAND_WORKING * Math.abs(right), yours, right);
}

/** The subtraction itself may be off by a few units of the last binary digit. */
function isWithin(allowed: number, a: number, b: number): boolean {
  return Math.abs(a - b) <= allowed * (1 + 1e-9);
}

/** More than these would say nothing. */
const MOST_SLIPS = 3;

/** The slips of the sheet of which, each alone, just this result comes: those of the step itself first, then those nearest. */
function slipsBehind({ document, states }: WholeContext, { symbol, quantity }: { readonly symbol: string; readonly quantity: Quantity }): readonly string[] {
  const right = rightStates(document, states).symbol(symbol);
  const found = slipsOffered(document).flatMap(({ id, cell, slip }) => {
    const there = statesWithSlips(document, states, [id]).symbol(symbol);
    if (there === right || there?.status !== 'value') return [];
    const { value } = there.estimate;
    const away = Math.abs(value - quantity.value);
    if (!isWithinHandWorking(quantity.value, value)) return [];
    return [{ away, isHere: cell.symbol === symbol, words: cell.symbol === symbol ? isolated(slip.label) : composed`${slip.label} (at ${cell.label ?? cell.symbol})` }];
  });
  return found.toSorted((a, b) => Number(b.isHere) - Number(a.isHere) || a.away - b.away).slice(0, MOST_SLIPS).map(({ words }) => words);
}

interface ReadAnswer {
  readonly quantity: Quantity;
  /** Half a unit of the last place shown, SI: 0.05 N for `31.2 N`, 500 N for `31.2e4 N`; 0 for a fraction. */
  readonly halfLastPlace: number;
}

function readAnswer(typed: string, unit: Unit): ReadAnswer | { readonly problem: Problem } {
  const read = readQuantity(typed, 'ask');
  if (!read.ok) return read;
  const quantity = inDimensionOf(read.value, unit);
  if (!quantity.ok) return quantity;
  return { quantity: quantity.value, halfLastPlace: intervalToSI(read.value.lastPlace / 2, quantity.value.unit) };
}

/** The ratio, since it tells which slip was made; the difference where a ratio means nothing. */
function differenceSentence({ value, unit }: Quantity, ours: number): string {
  if (ours !== 0 && unit.offset === 0) return `Yours is ${ratioWords(value / ours, unit)}`;
  return `Yours is ${withUnit(figures(fromSI(value, unit) - fromSI(ours, unit), 3), unitText(unit))} away from the sheet’s.`;
}

/** A ratio that comes of a unit or a power of ten says so. */
function ratioWords(ratio: number, unit: Unit): string {
  if (isWithinHandWorking(ratio, -1)) return 'the sheet’s with the other sign.';
  const power = Math.round(Math.log10(Math.abs(ratio)));
  const mend = isPlainNumber(unit) ? 'look at the power of ten' : 'look at the unit and the power of ten';
  if (ratio > 0 && power !== 0 && isWithinHandWorking(ratio, 10 ** power)) {
    return power > 0 ? `${plainFigures(10 ** power, 1)} times the sheet’s: ${mend}.` : `the sheet’s divided by ${plainFigures(10 ** -power, 1)}: ${mend}.`;
  }
  const other = otherSystem(unit);
  const factor = other.factor / unit.factor;
  const isConversion = other.name !== unit.name && [factor, 1 / factor].some((one) => Math.abs(one - 1) > 2 * HAND_WORKING && isWithinHandWorking(ratio, one));
  return `${figures(ratio, 3)} times the sheet’s${isConversion ? `, as ${unitText(unit)} to ${unitText(other)}: look at the unit` : ''}.`;
}

function isPlainNumber({ dimension }: Unit): boolean {
  return dimension.every((exponent) => exponent === 0);
}

/** The unit that the same is measured in where the other system of units is used. */
function otherSystem(unit: Unit): Unit {
  const us = counterpart(unit, 'US customary');
  return us.name === unit.name ? counterpart(unit, 'SI') : us;
}
