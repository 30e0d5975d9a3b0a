import { congruent, leastSquares, longPolynomial, polynomialLeastSquares, powersOfShifted, spanOf, type LinearFit } from '../numeric/index.ts';
import { onScale } from './line.ts';
import { isLong, merged, type Observed } from './specimens.ts';
import type { StressScale } from './types.ts';

/**
 * Least squares of log10 life on a polynomial of the stress on its scale; undefined where the stresses are too close. A long
 * table of few stresses is taken stress by stress, each mean with the weight of its number: the same line, and the squares
 * about the means are added to those of the means about the line. One of many stresses goes by orthogonal polynomials.
 */
export function lineThrough(observed: Observed, stress: StressScale, degree: 1 | 2): LinearFit | undefined {
  const means = isLong(observed) ? merged(observed, 'lognormal') : observed;
  if (means !== observed) return throughMeans(observed, means, stress, degree);
  const x = new Float64Array(observed.stressMpa.length);
  for (let i = 0; i < x.length; i++) x[i] = onScale(observed.stressMpa[i] as number, stress);
  return isLong(observed) ? longPolynomial(x, observed.log10Cycles, degree) : polynomialLeastSquares(x, observed.log10Cycles, degree);
}

function throughMeans(observed: Observed, means: Observed, stress: StressScale, degree: 1 | 2): LinearFit | undefined {
  const x = means.stressMpa.map((value) => onScale(value, stress));
  const { centre, scale } = spanOf(x);
  if (!(scale > 0)) return undefined;
  const root = (means.weights ?? x.map(() => 1)).map(Math.sqrt);
  const weighed = (column: Float64Array): Float64Array => column.map((value, i) => value * (root[i] ?? 1));
  const columns = Array.from({ length: degree + 1 }, (_, power) => weighed(x.map((value) => ((value - centre) / scale) ** power)));
  const fit = leastSquares(columns, weighed(means.log10Cycles));
  if (fit === undefined) return undefined;
  const back = powersOfShifted(degree, centre, scale);
  const entries = new Map(Array.from(means.stressMpa, (value, entry): [number, number] => [value, entry]));
  const residuals = new Float64Array(observed.rows.length);
  const leverages = new Float64Array(observed.rows.length);
  for (let i = 0; i < residuals.length; i++) {
    const entry = entries.get(observed.stressMpa[i] ?? 0) ?? 0;
    const own = root[entry] ?? 1;
    const fitted = (means.log10Cycles[entry] ?? 0) - (fit.residuals[entry] ?? 0) / own;
    residuals[i] = (observed.log10Cycles[i] ?? 0) - fitted;
    leverages[i] = (fit.leverages[entry] ?? 0) / (own * own);
  }
  return {
    coefficients: back.map((row) => row.reduce((sum, value, j) => sum + value * (fit.coefficients[j] ?? 0), 0)),
    unscaledCovariance: congruent(back, fit.unscaledCovariance),
    residuals,
    leverages,
    residualSumOfSquares: fit.residualSumOfSquares + (means.within ?? 0),
    degreesOfFreedom: observed.rows.length - degree - 1,
  };
}
