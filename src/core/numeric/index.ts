/**
 * Numbers by themselves: distributions, seeded random numbers, order statistics, matrices, least squares,
 * the top and the zeros of functions.
 *
 * Nouns: a *density* at x, a *cumulative* probability up to x, a *quantile* below which a share p lies; *degrees of
 * freedom* are positive and need not be whole; a *random* source is fixed by its seed.
 * Invariants: pure functions; plain doubles without units; arguments outside a function's domain give NaN, never an
 * exception; nothing here knows of estimates or of the sheet.
 */
export { isCalculable } from './calculable.ts';
export { endValues } from './end-values.ts';
export { findCrossings, type Crossings } from './crossings.ts';
export { erf, erfc } from './error-function.ts';
export { logGamma } from './gamma.ts';
export { incompleteBeta, incompleteGamma } from './incomplete.ts';
export { leastSquares, polynomialLeastSquares, type LinearFit } from './least-squares.ts';
export { longPolynomial, pointsOf, type Points, type TotalledFit } from './long-polynomial.ts';
export { scaledErfc } from './scaled-complement.ts';
export { maximise, type Expansion, type Maximum } from './maximise.ts';
export { noncentralStudentCumulative, noncentralStudentQuantile } from './noncentral-student.ts';
export { normalCumulative, normalDensity, normalQuantile } from './normal.ts';
export { integrate, legendreRule, weighedPoints } from './quadrature.ts';
export { createRandom, randomStreams, type Random } from './random.ts';
export { findPeak, findRoot } from './root.ts';
export {
  chiSquareCumulative,
  chiSquareDensity,
  chiSquareQuantile,
  fisherCumulative,
  fisherDensity,
  fisherQuantile,
  studentCumulative,
  studentDensity,
  studentQuantile,
} from './sampling-distributions.ts';
export { seedOfText } from './seed.ts';
export { select, sortNumbers } from './sort-numbers.ts';
export { scaledChiDensity, scaledChiRange } from './scaled-chi.ts';
export { factorSemidefinite } from './semidefinite.ts';
export { powersOfShifted, spanOf } from './shifted-polynomial.ts';
export { bilinear, cholesky, congruent, dot, invertSymmetric, solveFactored, type Matrix } from './symmetric.ts';
