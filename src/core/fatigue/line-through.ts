import { congruent, leastSquares, longPolynomial, polynomialLeastSquares, powersOfShifted, spanOf, type Points, type TotalledFit } from '../numeric/index.ts';
import { onScale } from './line.ts';
import { isLong, merged, type Observed } from './specimens.ts';
import type { StressScale } from './types.ts';

/**
 * Least squares of log10 life on a polynomial of the stress on its scale; undefined where the stresses are too close. A long
 * table of few stresses is taken stress by stress, each mean with the weight of its number: the same line, and the squares
 * about the means are added to those of the means about the line. One of many stresses goes by orthogonal polynomials.
 */
export function lineThrough(observed: Observed, stress: StressScale, degree: 1 | 2): TotalledFit | undefined {
  const means = isLong(observed) ? merged(observed, 'lognormal') : observed;
  if (means !== observed) return throughMeans(observed, means, stress, degree);
  if (isLong(observed)) return longPolynomial(pointsOn(observed, stress), degree);
  const y = observed.log10Cycles;
  const fit = polynomialLeastSquares(observed.stressMpa.map((value) => onScale(value, stress)), y, degree);
  return fit === undefined ? undefined : { ...fit, ...aboutMean(y, y.map(() => 1)) };
}

function aboutMean(y: Float64Array, weights: Float64Array, within = 0): Pick<TotalledFit, 'mean' | 'totalSumOfSquares'> {
  let [count, mean, squares] = [0, 0, 0];
  for (let i = 0; i < y.length; i++) count += weights[i] as number;
  for (let i = 0; i < y.length; i++) mean += ((weights[i] as number) / count) * (y[i] as number);
  for (let i = 0; i < y.length; i++) squares += (weights[i] as number) * ((y[i] as number) - mean) ** 2;
  return { mean, totalSumOfSquares: squares + within };
}

/** Logarithms are taken where they are summed, natural ones, which the machine has in half the time of decimal ones. */
function pointsOn(observed: Observed, stress: StressScale): Points {
  const { stressMpa, cycles, tested: { stressMpa: [low, high] } } = observed;
  return {
    length: cycles.length,
    range: [onScale(low, stress), onScale(high, stress)],
    read: stress === 'log'
      ? (from, to, x, y) => {
        for (let i = from; i < to; i++) x[i - from] = Math.log(stressMpa[i] as number) * Math.LOG10E;
        for (let i = from; i < to; i++) y[i - from] = Math.log(cycles[i] as number) * Math.LOG10E;
      }
      : (from, to, x, y) => {
        for (let i = from; i < to; i++) x[i - from] = stressMpa[i] as number;
        for (let i = from; i < to; i++) y[i - from] = Math.log(cycles[i] as number) * Math.LOG10E;
      },
  };
}

function throughMeans(observed: Observed, means: Observed, stress: StressScale, degree: 1 | 2): TotalledFit | undefined {
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
  const residuals = new Float64Array(observed.cycles.length);
  const leverages = new Float64Array(observed.cycles.length);
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
    degreesOfFreedom: observed.cycles.length - degree - 1,
    ...aboutMean(means.log10Cycles, means.weights ?? means.log10Cycles.map(() => 1), means.within),
  };
}
