import { standardUncertainty } from '../../core/estimate/index.ts';
import { fromSI, intervalToSI } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import type { StepCell, Tolerance } from '../../sheet/index.ts';
import type { SymbolState } from '../types.ts';

/** How far off an own result may be, for one result of the sheet. */
export type Allowance =
  | { readonly kind: 'share'; readonly share: number }
  | { readonly kind: 'factor'; readonly factor: number }
  /** @property half SI */
  | { readonly kind: 'interval'; readonly half: number; readonly figures?: number; readonly uncertainties?: number };

/** Where a sheet says nothing: the result's own standard uncertainty, within these. Working by hand is good to about the one; with more a wrong result could pass. */
const [LEAST_SHARE, MOST_SHARE] = [0.005, 0.02];
const [LEAST_FACTOR, MOST_FACTOR] = [1.05, 1.2];
/** A value smaller than this part of its uncertainty is zero but for rounding, as of x − y. */
const ROUNDING = 1e-9;

type Value = SymbolState & { readonly status: 'value' };

/** Whether a result is zero but for rounding. */
export function isZero({ estimate }: Value): boolean {
  return Math.abs(estimate.value) <= ROUNDING * standardUncertainty(estimate);
}

/** How far off it may be. @param step of the result: a life that is shown with a factor is judged by one */
export function allowanceOf(tolerance: Tolerance | undefined, step: Pick<StepCell, 'spread'>, state: Value): Allowance {
  if (tolerance === undefined) return usualAllowance(step, state);
  if (tolerance.kind === 'share' || tolerance.kind === 'factor') return tolerance;
  if (tolerance.kind === 'uncertainties') return { kind: 'interval', half: tolerance.times * standardUncertainty(state.estimate), uncertainties: tolerance.times };
  return { kind: 'interval', half: halfOfLast(tolerance.figures, state.estimate.value, state.unit), figures: tolerance.figures };
}

function usualAllowance({ spread }: Pick<StepCell, 'spread'>, { estimate }: Value): Allowance {
  const relative = estimate.value === 0 ? 0 : standardUncertainty(estimate) / Math.abs(estimate.value);
  if (spread === 'factor') return { kind: 'factor', factor: Number(within(LEAST_FACTOR, Math.exp(relative), MOST_FACTOR).toFixed(2)) };
  // As it is told: the percentage that the reader sees is the one that counts.
  return { kind: 'share', share: Number(within(LEAST_SHARE, relative, MOST_SHARE).toPrecision(2)) };
}

function within(least: number, value: number, most: number): number {
  return Number.isFinite(value) ? Math.min(Math.max(value, least), most) : most;
}

/** Half a unit of the last of so many significant figures of a value in a unit, SI. */
function halfOfLast(figures: number, value: number, unit: Unit): number {
  const number = Math.abs(fromSI(value, unit));
  return number === 0 ? 0 : intervalToSI(0.5 * 10 ** (Math.floor(Math.log10(number)) - figures + 1), unit);
}

/** Whether a value may stand for a right one. Zero is right for zero alone. */
export function isAllowed(yours: number, right: number, allowance: Allowance): boolean {
  if (yours === 0 || right === 0) return yours === right || (right === 0 && allowance.kind === 'interval' && isWithin(allowance.half, yours, right));
  if (allowance.kind === 'interval') return isWithin(allowance.half, yours, right);
  if (allowance.kind === 'share') return isWithin(allowance.share * Math.abs(right), yours, right);
  const ratio = yours / right;
  return ratio > 0 && Math.max(ratio, 1 / ratio) <= allowance.factor * (1 + LAST_DIGITS);
}

/** The subtraction itself may be off by a few units of the last binary digit. */
const LAST_DIGITS = 1e-9;

/** Whether two values are no further apart than that. */
export function isWithin(allowed: number, a: number, b: number): boolean {
  return Math.abs(a - b) <= allowed * (1 + LAST_DIGITS);
}
