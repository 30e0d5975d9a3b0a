import { findPeak } from '../numeric/index.ts';

/** Shares of the lowest stress that broke a specimen at which a limit is looked for; dense near it, where it mostly lies. */
const SHARES = [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 0.9, 0.925, 0.95, 0.97, 0.98, 0.99, 0.995, 0.999, 0.9999];

/**
 * The fatigue limit with the greatest likelihood, the other parameters at their best for each: a scan from zero to the
 * lowest stress that broke a specimen, then golden sections about the best.
 * @param valueAt log likelihood with the limit fixed, −∞ where it has none
 * @returns 0 where a line down to zero stress is best
 */
export function bestLimit(valueAt: (limitMpa: number) => number, lowestBrokenMpa: number): { readonly at: number; readonly value: number } {
  const limits = SHARES.map((share) => share * lowestBrokenMpa);
  const values = limits.map(valueAt);
  const best = values.reduce((top, value, i) => (value > (values[top] ?? -Infinity) ? i : top), 0);
  const low = limits[Math.max(0, best - 1)] ?? 0;
  const high = limits[best + 1] ?? lowestBrokenMpa;
  const peak = findPeak(valueAt, low, high, 1e-5 * (high - low));
  const zero = values[0] ?? -Infinity;
  // Within rounding of the line down to zero, the limit is not seen.
  if (peak.value <= zero + 1e-9 * (1 + Math.abs(zero))) return { at: 0, value: zero };
  const own = values[best] ?? -Infinity;
  return peak.value >= own ? peak : { at: limits[best] ?? 0, value: own };
}
