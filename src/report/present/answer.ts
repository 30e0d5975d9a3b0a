import { diagnose } from '../../core/diagnosis/index.ts';
import { standardUncertainty } from '../../core/estimate/index.ts';
import { composed, type Problem } from '../../core/problem/index.ts';
import { fromSI, inDimensionOf, intervalToSI, readQuantity, type Quantity } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { rightStates, valueFrom, workingOf } from '../../graph/index.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { StepCell } from '../../sheet/types.ts';
import { withoutSlips } from './slips.ts';
import { asked, sameWords } from './asked.ts';
import { unitOfStep } from './hidden.ts';
import { figures, unitText, withUnit } from './number.ts';
import { explanationWords } from './slip-words.ts';
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
  const wrong = { step, value: yours, halfLastPlace: answer.halfLastDigit };
  const earlier = asked(context, carriedFrom, wrong, sameWords);
  if (earlier.length > 0) return { typed, verdict: 'carried', sentence: composed`Right for what you had before, though that is not the sheet’s: ${earlier.join(', ')}.` };
  const comesOf = asked(context, whatWentWrong, wrong, sameWords);
  return { typed, verdict: 'differs', sentence: differenceSentence(answer.quantity, ours), ...(comesOf.length === 0 ? {} : { comesOf }) };
}

function isWithinHandWorking(yours: number, right: number): boolean {
  return isWithin(HAND_WORKING * Math.abs(right), yours, right);
}

/** The subtraction itself may be off by a few units of the last binary digit. */
function isWithin(allowed: number, a: number, b: number): boolean {
  return Math.abs(a - b) <= allowed * (1 + 1e-9);
}

/** A result of the reader's that is not the sheet's. */
interface WrongAnswer {
  readonly step: StepCell;
  readonly value: number;
  readonly halfLastPlace: number;
}

/** The reader's own results by symbol, SI, as far as they can be read. */
function ownResults({ document, states }: WholeContext): ReadonlyMap<string, number> {
  return new Map(cellsOf(document, 'step').flatMap((step): [string, number][] => {
    const unit = (step.answer?.trim() ?? '') === '' ? undefined : unitOfStep(step, states);
    const read = unit === undefined ? undefined : readAnswer(step.answer ?? '', unit);
    return read === undefined || 'problem' in read ? [] : [[step.symbol, read.quantity.value]];
  }));
}

/** Symbols of the reader's earlier results, with which theirs is right; none where it is not. */
function carriedFrom(context: WholeContext, { step, value }: WrongAnswer): readonly string[] {
  const right = rightStates(context.document, context.states);
  const carried = valueFrom(ownResults(context), step.symbol, right);
  return carried !== undefined && isWithinHandWorking(value, carried.value) ? carried.used : [];
}

/** More than these would say nothing. */
const MOST_WORDS = 2;

/** What slip theirs comes of, the simplest first, and what is the same thing in other words. */
function whatWentWrong(context: WholeContext, { step, value, halfLastPlace }: WrongAnswer): readonly string[] {
  const { document, states } = context;
  const own = ownResults(context);
  const working = workingOf(step, document, rightStates(document, states), (symbol) => own.has(symbol));
  const explained = working && diagnose(working, { value, halfLastPlace });
  const [simplest, ...same] = explained?.explanations ?? [];
  if (simplest === undefined) return [];
  return [simplest, ...same.filter(({ tier }) => Math.floor(tier) === Math.floor(simplest.tier))].slice(0, MOST_WORDS).map((one) => explanationWords(one, step.symbol, context));
}

interface ReadAnswer {
  readonly quantity: Quantity;
  /** Half a unit of the last place shown, SI: 0.05 N for `31.2 N`, 500 N for `31.2e4 N`; 0 for a fraction. */
  readonly halfLastPlace: number;
  /** The same where zeros at the end of a whole number, as of `3180`, may stand for digits that were rounded. */
  readonly halfLastDigit: number;
}

function readAnswer(typed: string, unit: Unit): ReadAnswer | { readonly problem: Problem } {
  const read = readQuantity(typed, 'ask');
  if (!read.ok) return read;
  const quantity = inDimensionOf(read.value, unit);
  if (!quantity.ok) return quantity;
  const halfLastPlace = intervalToSI(read.value.lastPlace / 2, quantity.value.unit);
  const zeros = /^[^.,eE]*?[1-9](0+)$/.exec(read.value.typedNumber)?.[1]?.length ?? 0;
  return { quantity: quantity.value, halfLastPlace, halfLastDigit: halfLastPlace * 10 ** zeros };
}

/** The ratio, since it tells how far off it is; the difference where a ratio means nothing. */
function differenceSentence({ value, unit }: Quantity, ours: number): string {
  if (ours !== 0 && unit.offset === 0) return `Yours is ${figures(value / ours, 3)} times the sheet’s.`;
  return `Yours is ${withUnit(figures(fromSI(value, unit) - fromSI(ours, unit), 3), unitText(unit))} away from the sheet’s.`;
}
