import type { Tails } from './incomplete.ts';

/** A distribution of a positive quantity, as the search for its quantiles needs it. */
export interface PositiveDistribution {
  tails(x: number): Tails;
  /** x times the density: the slope of the probability over ln x. */
  slope(x: number): number;
  /** Where the search begins; any positive number near the middle. */
  readonly start: number;
}

/** Longest step of the search, in ln x: keeps Newton's method from leaping into underflow. */
const LONGEST_STEP = 2;
const MOST_STEPS = 400;

/**
 * The x > 0 with the given probability below it (`lower`) or above it (`upper`), to about 1e-13 relative.
 * Newton's method on the logarithm of the probability over ln x, where tails of every kind are nearly straight, held
 * between bounds that only close in.
 * @param probability 0 < probability < 1, best the smaller of the two tails
 */
export function positiveQuantile(
  distribution: PositiveDistribution,
  side: 'lower' | 'upper',
  probability: number,
): number {
  const direction = side === 'lower' ? 1 : -1;
  let low = 0;
  let high = Infinity;
  let x = distribution.start;
  for (let step = 0; step < MOST_STEPS; step++) {
    const reached = distribution.tails(x)[side];
    const gap = Math.log(probability / reached);
    if (gap === 0) return x;
    if (gap * direction > 0) low = x;
    else high = x;
    const newton = (gap * direction * reached) / distribution.slope(x);
    const clipped = Number.isFinite(newton)
      ? Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, newton))
      : LONGEST_STEP * Math.sign(gap * direction);
    let next = x * Math.exp(clipped);
    if (next <= low || next >= high) next = between(low, high, x);
    if (Math.abs(next - x) <= 2 * Number.EPSILON * x) return next;
    x = next;
  }
  return x;
}

/** Geometric middle of the bounds; away from a bound that is still open, one long step. */
function between(low: number, high: number, x: number): number {
  if (low === 0) return Math.min(x, high) * Math.exp(-LONGEST_STEP);
  if (high === Infinity) return Math.max(x, low) * Math.exp(LONGEST_STEP);
  return low * Math.sqrt(high / low);
}
