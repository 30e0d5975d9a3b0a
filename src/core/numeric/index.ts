/**
 * Numbers by themselves: distributions, seeded random numbers, order statistics, factors of matrices.
 *
 * Nouns: a *density* at x, a *cumulative* probability up to x, a *quantile* below which a share p lies; *degrees of
 * freedom* are positive and need not be whole; a *random* source is fixed by its seed.
 * Invariants: pure functions; plain doubles without units; arguments outside a function's domain give NaN, never an
 * exception; nothing here knows of estimates or of the sheet.
 */
export { erf, erfc } from './error-function.ts';
export { logGamma } from './gamma.ts';
export { incompleteBeta, incompleteGamma } from './incomplete.ts';
export { normalCumulative, normalDensity, normalQuantile } from './normal.ts';
export { orderStatistic } from './order-statistic.ts';
export { createRandom, type Random } from './random.ts';
export {
  chiSquareCumulative,
  chiSquareQuantile,
  fisherCumulative,
  fisherQuantile,
  studentCumulative,
  studentQuantile,
} from './sampling-distributions.ts';
export { factorSemidefinite } from './semidefinite.ts';
