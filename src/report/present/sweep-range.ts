import { standardUncertainty } from '../../core/estimate/index.ts';
import { fromSI, parseQuantity, toSI } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { plausibleReach, possibleReach, stateAsRead, typedText, unitOfGiven } from '../../graph/index.ts';
import type { AskedStates } from '../../graph/types.ts';
import type { GivenCell } from '../../sheet/types.ts';

/** Between which values of a given something is asked. SI. */
export interface SweepRange {
  readonly from: number;
  readonly to: number;
}

const SHARE = 0.2;
const UNCERTAINTIES = 5;
/** A proposed range is rounded to some such number of steps. */
const ROUND_STEPS = 15;
const MOST_PLACES = 120;
const FIGURES = 9;

/** A fifth of the value to either side, or five standard uncertainties where that is more; the usual range where there is no value. */
export function proposedRange(given: GivenCell, states: AskedStates): SweepRange | undefined {
  const unit = unitOfGiven(given, states);
  if (unit === undefined) return undefined;
  const state = stateAsRead(given.symbol, states);
  const estimate = state?.status === 'value' ? state.estimate : undefined;
  const half = estimate === undefined ? 0 : Math.max(SHARE * Math.abs(estimate.value), UNCERTAINTIES * standardUncertainty(estimate));
  const usual = plausibleReach(given, unit);
  if (estimate === undefined || !(half > 0) || !Number.isFinite(half)) {
    return usual === undefined || !(usual.high > usual.low) ? undefined : { from: usual.low, to: usual.high };
  }
  const step = niceStep((2 * fromInterval(half, unit)) / ROUND_STEPS);
  const [low, high] = [fromSI(estimate.value - half, unit), fromSI(estimate.value + half, unit)];
  return within(given, unit, {
    from: toSI(tidy(Math.floor(low / step + 1e-9) * step), unit), to: toSI(tidy(Math.ceil(high / step - 1e-9) * step), unit),
  });
}

/** Where an answer is looked for unless told otherwise: the usual values, else from a tenth of the value to its tenfold. */
export function searchRange(given: GivenCell, states: AskedStates): SweepRange | undefined {
  const unit = unitOfGiven(given, states);
  if (unit === undefined) return undefined;
  const usual = plausibleReach(given, unit);
  if (usual !== undefined && usual.high > usual.low) return within(given, unit, { from: usual.low, to: usual.high });
  const state = stateAsRead(given.symbol, states);
  const value = state?.status === 'value' ? state.estimate.value : 0;
  if (value === 0) return proposedRange(given, states);
  return within(given, unit, value > 0 ? { from: value / 10, to: value * 10 } : { from: value * 10, to: value / 10 });
}

/** What the given can't be is left out, where a whole range is left of what it can. */
function within(given: GivenCell, unit: Unit, { from, to }: SweepRange): SweepRange {
  const { low, high } = possibleReach(given, unit);
  const clamped = { from: Math.max(from, low), to: Math.min(to, high) };
  return clamped.to > clamped.from ? clamped : { from, to };
}

/** Places between two values, round in the unit they are shown in, so that round values can be read; both ends among them. */
export function roundPlaces({ from, to }: SweepRange, unit: Unit): readonly number[] {
  const [low, high] = [fromSI(from, unit), fromSI(to, unit)];
  const step = niceStep((high - low) / MOST_PLACES);
  const inner: number[] = [];
  for (let k = Math.floor(low / step + 1e-6) + 1; k * step < high - 1e-6 * step && inner.length <= MOST_PLACES; k++) inner.push(toSI(tidy(k * step), unit));
  return [from, ...inner.filter((x) => x > from && x < to), to];
}

/** Text of a range's end, to be typed over. */
export function rangeText(value: number, unit: Unit): string {
  return typedText(value, unit, FIGURES);
}

/** Reads the ends of a range as typed; undefined where one can't be read. An empty text stands for the proposed end. */
export function readRange(texts: { readonly from: string; readonly to: string }, proposed: SweepRange | undefined, unit: Unit): SweepRange | undefined {
  const end = (text: string, usual: number | undefined): number | undefined => {
    if (text.trim() === '') return usual;
    const read = parseQuantity(text, unit);
    return read.ok ? read.value.value : undefined;
  };
  const [from, to] = [end(texts.from, proposed?.from), end(texts.to, proposed?.to)];
  return from === undefined || to === undefined || from === to || !Number.isFinite(to - from) ? undefined : { from: Math.min(from, to), to: Math.max(from, to) };
}

function fromInterval(half: number, unit: Unit): number {
  return fromSI(half + unit.offset, unit);
}

/** The next of 1, 2 and 5 times a power of ten that is not smaller. */
function niceStep(rough: number): number {
  const power = 10 ** Math.floor(Math.log10(rough));
  return tidy(([1, 2, 5, 10].find((factor) => factor * power >= rough * (1 - 1e-9)) ?? 10) * power);
}

/** Without the last digits that multiplying left. */
function tidy(value: number): number {
  return Number(value.toPrecision(12));
}
