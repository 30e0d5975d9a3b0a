import { fisherCumulative, type LinearFit } from '../numeric/index.ts';
import { levelsOf, type Observed } from './specimens.ts';
import type { LackOfFit } from './types.ts';

/**
 * F test whether the line follows the means of the levels: mean square of the levels' means about the line over mean
 * square within levels, with l − p and n − l degrees of freedom. Where stresses within a nominal level differ a little, the
 * line's value of a level is the mean of its fitted values.
 * @returns null without replicates, with no more levels than parameters, or with replicates that agree exactly
 * @source ASTM E739, 8.3 (equation 18 in the 1991 edition; from memory).
 */
export function lackOfFit(linear: LinearFit, observed: Observed, parameters: number): LackOfFit | null {
  const { log10Cycles } = observed;
  const { numbers, count: levelCount } = levelsOf(observed);
  const n = log10Cycles.length;
  const df1 = levelCount - parameters;
  const df2 = n - levelCount;
  if (df1 < 1 || df2 < 1) return null;
  const [sizes, lives, strays] = [new Float64Array(levelCount), new Float64Array(levelCount), new Float64Array(levelCount)];
  let pure = 0;
  // Mean and squares about it value by value (Welford): they stay exact where lives are large beside their scatter.
  for (let i = 0; i < n; i++) {
    const level = numbers[i] as number;
    const size = (sizes[level] as number) + 1;
    sizes[level] = size;
    const from = (log10Cycles[i] as number) - (lives[level] as number);
    lives[level] = (lives[level] as number) + from / size;
    pure += from * ((log10Cycles[i] as number) - (lives[level] as number));
    strays[level] = (strays[level] as number) + ((linear.residuals[i] as number) - (strays[level] as number)) / size;
  }
  const lack = strays.reduce((sum, stray, level) => sum + (sizes[level] ?? 0) * stray ** 2, 0);
  if (!(pure > 0)) return null;
  const F = lack / df1 / (pure / df2);
  // The upper tail of F is the lower tail of 1/F with the degrees of freedom exchanged: its digits are kept.
  const p = fisherCumulative(1 / F, df2, df1);
  return Object.freeze({ F, df1, df2, p, sumOfSquaresLack: lack, sumOfSquaresPure: pure });
}
