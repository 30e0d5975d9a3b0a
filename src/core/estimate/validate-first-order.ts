import { numericalTolerance, type Digits } from './stability.ts';

/** An interval's two ends. */
interface Ends {
  readonly low: number;
  readonly high: number;
}

/** How an interval by first order compares with the one by samples. */
export interface Validation {
  /** |low end by first order − low end of the samples|, and of the high ends. */
  readonly lowApart: number;
  readonly highApart: number;
  readonly tolerance: number;
  /** Both are within the tolerance: the first-order interval may be used. */
  readonly holds: boolean;
}

/**
 * Whether an interval by the law of propagation of uncertainty may be used in place of the one that the samples give.
 * @param tolerance numerical tolerance of u, see `numericalTolerance`
 * @source JCGM 101:2008, 8.1.3: d_low and d_high, both no larger than δ.
 */
export function validateFirstOrder(firstOrder: Ends, sampled: Ends, tolerance: number): Validation {
  const lowApart = Math.abs(firstOrder.low - sampled.low);
  const highApart = Math.abs(firstOrder.high - sampled.high);
  return { lowApart, highApart, tolerance, holds: lowApart <= tolerance && highApart <= tolerance };
}

/**
 * The same for an interval as a factor, which is a ± of the logarithm; the tolerance is that of a quarter of the sampled interval.
 * Undefined where some samples are zero or below.
 */
export function validateFactor(firstOrder: Ends, sampled: Ends, digits: Digits): Validation | undefined {
  if (!(sampled.low > 0)) return undefined;
  const log = ({ low, high }: Ends): Ends => ({ low: Math.log(low), high: Math.log(high) });
  const { low, high } = log(sampled);
  return validateFirstOrder(log(firstOrder), { low, high }, numericalTolerance((high - low) / 4, digits));
}
