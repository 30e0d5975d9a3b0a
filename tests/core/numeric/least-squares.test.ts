import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leastSquares, polynomialLeastSquares, type LinearFit } from '../../../src/core/numeric/index.ts';
import further from '../../tables/nist-further.json' with { type: 'json' };
import table from '../../tables/sn-regression.json' with { type: 'json' };
import { caseOf, column } from '../fatigue/table.ts';

// Certified values of the NIST Statistical Reference Datasets; nine significant digits are asked for, of every value.

const NINE_DIGITS = 1e-9;

function must(fit: LinearFit | undefined): LinearFit {
  if (fit === undefined) throw new Error('no fit');
  return fit;
}
const scatter = (fit: LinearFit): number => Math.sqrt(fit.residualSumOfSquares / fit.degreesOfFreedom);
const errors = (fit: LinearFit): readonly number[] => fit.unscaledCovariance.map((row, i) => scatter(fit) * Math.sqrt(row[i] ?? 0));
const close = (got: readonly number[], certified: readonly number[], relative = NINE_DIGITS): readonly number[] =>
  certified.filter((value, i) => !(Math.abs((got[i] ?? Number.NaN) - value) <= relative * Math.abs(value)));
const meanOf = (y: readonly number[]): number => y.reduce((sum, value) => sum + value, 0) / y.length;
function explained(y: readonly number[], fit: LinearFit, mean = meanOf(y)): { regression: number; rSquared: number } {
  const total = y.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { regression: total - fit.residualSumOfSquares, rSquared: 1 - fit.residualSumOfSquares / total };
}

describe('certified regressions', () => {
  it('Norris: a straight line', () => {
    const y = column(table, 'nist-norris', 'y');
    const fit = must(polynomialLeastSquares(column(table, 'nist-norris', 'x'), y, 1));
    const norris = caseOf(table, 'sn-nist-norris');
    const { regression, rSquared } = explained(y, fit);
    const computed = {
      B0: fit.coefficients[0] ?? 0, B1: fit.coefficients[1] ?? 0, seB0: errors(fit)[0] ?? 0, seB1: errors(fit)[1] ?? 0, s: scatter(fit),
      R2: rSquared, F: regression / scatter(fit) ** 2, SS_regression: regression, SS_residual: fit.residualSumOfSquares,
    };
    expect(Object.entries(computed).flatMap(([name, value]) => norris.missed(name, value))).toEqual([]);
  });
  it('Pontius: a quadratic in a badly scaled variable', () => {
    const y = column(table, 'nist-pontius', 'y');
    const fit = must(polynomialLeastSquares(column(table, 'nist-pontius', 'x'), y, 2));
    expect(close(fit.coefficients, [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14])).toEqual([]);
    expect(close(errors(fit), [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16])).toEqual([]);
    expect(close([scatter(fit), fit.residualSumOfSquares], [0.205177424076185e-3, 0.155761768796992e-5])).toEqual([]);
    expect(caseOf(table, 'sn-nist-pontius').missed('R2', explained(y, fit).rSquared)).toEqual([]);
  });
  it('Longley: six collinear columns', () => {
    const y = column(table, 'nist-longley', 'y');
    const columns = [y.map(() => 1), ...['x1', 'x2', 'x3', 'x4', 'x5', 'x6'].map((name) => column(table, 'nist-longley', name))];
    const fit = must(leastSquares(columns, y));
    const longley = caseOf(table, 'sn-nist-longley');
    expect(close(fit.coefficients, [
      -3482258.63459582, 15.0618722713733, -0.0358191792925910, -2.02022980381683, -1.03322686717359, -0.0511041056535807, 1829.15146461355,
    ])).toEqual([]);
    expect(longley.missed('se', errors(fit))).toEqual([]);
    expect(longley.missed('s', scatter(fit))).toEqual([]);
    const { regression, rSquared } = explained(y, fit);
    expect(longley.missed('R2', rSquared)).toEqual([]);
    expect(longley.missed('F', regression / 6 / scatter(fit) ** 2)).toEqual([]);
  });
  it.each(further.sets)('$name', ({ x, y, degree, coefficients, se, s, rSquared, regressionSumOfSquares, residualSumOfSquares, F }) => {
    const fit = must(degree === undefined ? leastSquares([x], y) : polynomialLeastSquares(x, y, degree));
    expect(close(fit.coefficients, coefficients)).toEqual([]);
    // Where the polynomial fits exactly, the certified errors are nought; what is left is the rounding of values near 10⁶.
    const allowed = s > 0 ? 0 : 1e-8;
    const apart = [...errors(fit), scatter(fit)].filter((value, i) => Math.abs(value - ([...se, s][i] ?? 0)) > NINE_DIGITS * value + allowed);
    expect(apart).toEqual([]);
    // Without a constant, the certified R² and sums of squares are about zero.
    const { regression, rSquared: own } = degree === undefined ? explained(y, fit, 0) : explained(y, fit);
    expect(close([own, regression], [rSquared, regressionSumOfSquares])).toEqual([]);
    expect(Math.abs(fit.residualSumOfSquares - residualSumOfSquares)).toBeLessThanOrEqual(NINE_DIGITS * residualSumOfSquares + allowed ** 2);
    const terms = Math.max(1, coefficients.length - 1);
    // F is not certified where the scatter is nought.
    expect(close(F === undefined ? [] : [regression / terms / scatter(fit) ** 2], [F ?? []].flat())).toEqual([]);
  });
});

describe('least squares', () => {
  it('has residuals at right angles to every column, and leverages that sum to their number', () => {
    fc.assert(fc.property(
      fc.array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.double({ min: -9, max: 9, noNaN: true })), { minLength: 6, maxLength: 30 }),
      (rows) => {
        const x = rows.map(([value], i) => value + i * 1000);
        const y = rows.map(([, value]) => value);
        const columns = [x.map(() => 1), x];
        const fit = must(leastSquares(columns, y));
        const largest = Math.max(...y.map(Math.abs), 1);
        for (const one of columns) {
          const along = one.reduce((sum, value, i) => sum + value * (fit.residuals[i] ?? 0), 0);
          expect(Math.abs(along)).toBeLessThan(1e-10 * largest * Math.hypot(...one) * rows.length);
        }
        expect(fit.leverages.reduce((sum, h) => sum + h, 0)).toBeCloseTo(2, 10);
      },
    ), { seed: 3, numRuns: 60 });
  });
  it('refuses too few rows and columns that are combinations of each other', () => {
    expect(leastSquares([[1, 1], [1, 2], [3, 5]], [1, 2])).toBeUndefined();
    expect(leastSquares([[1, 1, 1], [2, 2, 2]], [1, 2, 3])).toBeUndefined();
    expect(leastSquares([[1, 1, 1, 1], [1, 2, 3, 4], [2, 4, 6, 8]], [1, 2, 3, 5])).toBeUndefined();
    expect(polynomialLeastSquares([4, 4, 4], [1, 2, 3], 1)).toBeUndefined();
  });
});
