import { fisherCumulative, type LinearFit } from '../numeric/index.ts';
import type { Sample } from './specimens.ts';
import type { LackOfFit } from './types.ts';

/**
 * F test whether the line follows the means of the levels: mean square of the levels' means about the line over mean
 * square within levels, with l − p and n − l degrees of freedom. Where stresses within a nominal level differ a little, the
 * line's value of a level is the mean of its fitted values.
 * @returns null without replicates, with no more levels than parameters, or with replicates that agree exactly
 * @source ASTM E739, 8.3 (equation 18 in the 1991 edition; from memory).
 */
export function lackOfFit(linear: LinearFit, { log10Cycles, levels, levelCount }: Sample, parameters: number): LackOfFit | null {
  const n = log10Cycles.length;
  const df1 = levelCount - parameters;
  const df2 = n - levelCount;
  if (df1 < 1 || df2 < 1) return null;
  const sizes = new Float64Array(levelCount);
  const lives = new Float64Array(levelCount);
  const strays = new Float64Array(levelCount);
  for (let i = 0; i < n; i++) {
    const level = levels[i] ?? 0;
    sizes[level] = (sizes[level] ?? 0) + 1;
    lives[level] = (lives[level] ?? 0) + (log10Cycles[i] ?? 0);
    strays[level] = (strays[level] ?? 0) + (linear.residuals[i] ?? 0);
  }
  let lack = 0;
  for (let level = 0; level < levelCount; level++) lack += (strays[level] ?? 0) ** 2 / (sizes[level] ?? 1);
  let pure = 0;
  for (let i = 0; i < n; i++) {
    const level = levels[i] ?? 0;
    pure += ((log10Cycles[i] ?? 0) - (lives[level] ?? 0) / (sizes[level] ?? 1)) ** 2;
  }
  if (!(pure > 0)) return null;
  const F = lack / df1 / (pure / df2);
  // The upper tail of F is the lower tail of 1/F with the degrees of freedom exchanged: its digits are kept.
  const p = fisherCumulative(1 / F, df2, df1);
  return Object.freeze({ F, df1, df2, p, sumOfSquaresLack: lack, sumOfSquaresPure: pure });
}
