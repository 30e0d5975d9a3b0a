import { describe, expect, it } from 'vitest';
import { bilinear, cholesky, congruent, findPeak, findRoot, integrate, invertSymmetric, maximise, solveFactored, type Expansion } from '../../../src/core/numeric/index.ts';
import table from '../../tables/censored-regression.json' with { type: 'json' };
import { caseOf, column } from '../fatigue/table.ts';

describe('findRoot', () => {
  it('finds zeros to the last digits', () => {
    expect(findRoot((x) => x * x - 2, 0, 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(findRoot((x) => Math.exp(x) - 1e-8, -50, 5)).toBeCloseTo(Math.log(1e-8), 12);
    expect(findRoot((x) => x ** 9, -1, 1.7)).toBeCloseTo(0, 1);
    expect(findRoot((x) => (x > 1 / 3 ? 1 : -1), 0, 1)).toBeCloseTo(1 / 3, 14);
  });
  it('says where there is no change of sign', () => {
    expect(findRoot((x) => x * x + 1, -1, 1)).toBeUndefined();
    expect(findRoot(() => Number.NaN, -1, 1)).toBeUndefined();
  });
});

describe('findPeak', () => {
  it('finds the top of a curve, at its edge too', () => {
    expect(findPeak((x) => -((x - 0.3) ** 2), -1, 2, 1e-9).at).toBeCloseTo(0.3, 7);
    expect(findPeak((x) => x, 0, 1, 1e-9).at).toBeCloseTo(1, 7);
  });
});

describe('integrate', () => {
  it('is exact for polynomials below twice its points and fits together at the breaks', () => {
    expect(integrate((x) => 8 * x ** 7, [0, 1], 4)).toBeCloseTo(1, 14);
    expect(integrate(Math.abs, [-1, 0, 3])).toBeCloseTo(5, 13);
  });
});

describe('symmetric matrices', () => {
  const matrix = [[4e8, 2e3, 10], [2e3, 5, 0.01], [10, 0.01, 3e-3]];
  it('inverse times matrix is one, sizes as different as they may be', () => {
    const inverse = invertSymmetric(matrix) ?? [];
    matrix.forEach((_, i) => matrix.forEach((_row, j) => {
      const product = matrix.reduce((sum, row, k) => sum + (inverse[i]?.[k] ?? 0) * (row[j] ?? 0), 0);
      const size = Math.sqrt((inverse[i]?.[i] ?? 0) * (matrix[j]?.[j] ?? 0));
      expect(Math.abs(product - (i === j ? 1 : 0))).toBeLessThan(1e-12 * Math.max(1, size));
    }));
  });
  it('solves, and knows a matrix that is not positive definite', () => {
    const factor = cholesky([[2, 1], [1, 3]]) ?? [];
    expect(solveFactored(factor, [4, 7]).map((value) => Math.round(value * 1e12) / 1e12)).toEqual([1, 2]);
    expect(cholesky([[1, 2], [2, 1]])).toBeUndefined();
    expect(invertSymmetric([[0, 0], [0, 1]])).toBeUndefined();
  });
  it('carries a covariance through linear combinations', () => {
    const covariance = [[2, 0.5], [0.5, 1]];
    expect(bilinear([1, -1], covariance, [1, -1])).toBe(2);
    expect(congruent([[1, 1], [1, -1]], covariance)).toEqual([[4, 1], [1, 2]]);
  });
});

describe('maximise', () => {
  it('climbs out of a place where the function curves upwards', () => {
    // Top of cos x + cos y at the origin; at the start both second derivatives are positive.
    const top = maximise(([x = 0, y = 0]) => ({
      value: Math.cos(x) + Math.cos(y), gradient: [-Math.sin(x), -Math.sin(y)], hessian: [[-Math.cos(x), 0], [0, -Math.cos(y)]],
    }), [2, -2.5]);
    expect(top.converged).toBe(true);
    expect(top.value).toBeCloseTo(2, 14);
  });
  it('says that a function without a top has none', () => {
    const top = maximise(([x = 1]) => ({ value: Math.log(x), gradient: [1 / x], hessian: [[-1 / (x * x)]] }), [1]);
    expect(top.converged).toBe(false);
  });

  const stress = column(table, 'superalloy', 'pseudo_stress_ksi');
  const lives = column(table, 'superalloy', 'kilocycles');
  const failed = column(table, 'superalloy', 'failed');
  /** Weibull life, location quadratic in ln S and ln of the scale linear in it, both centred at 100 ksi. */
  function changingScatter([b0 = 0, b1 = 0, b2 = 0, g0 = 0, g1 = 0]: readonly number[]): Expansion {
    let value = 0;
    const gradient = [0, 0, 0, 0, 0];
    const hessian = gradient.map(() => [0, 0, 0, 0, 0]);
    stress.forEach((level, i) => {
      const x = Math.log(level / 100);
      const s = Math.exp(g0 + g1 * x);
      const z = (Math.log(lives[i] ?? 1) - b0 - b1 * x - b2 * x * x) / s;
      const broken = failed[i] === 1 ? 1 : 0;
      value += broken * (z - g0 - g1 * x - Math.log(lives[i] ?? 1)) - Math.exp(z);
      const slope = broken - Math.exp(z);
      const dz = [-1 / s, -x / s, (-x * x) / s, -z, -z * x];
      const own = [0, 0, 0, 1, x];
      dz.forEach((di, j) => {
        gradient[j] = (gradient[j] ?? 0) + slope * di - broken * (own[j] ?? 0);
        dz.forEach((dk, k) => {
          const second = -(own[k] ?? 0) * di - (j > 2 && k <= 2 ? dk * (own[j] ?? 0) : 0);
          const row = hessian[j];
          if (row !== undefined) row[k] = (row[k] ?? 0) - Math.exp(z) * di * dk + slope * second;
        });
      });
    });
    return { value, gradient, hessian };
  }
  it('finds the published fit with changing scatter (Meeker and Escobar 1998, superalloy)', () => {
    const top = maximise(changingScatter, [4, -5, 0, -1, 0]);
    const [b0 = 0, b1 = 0, b2 = 0, g0 = 0, g1 = 0] = top.point;
    const m = Math.log(100);
    const raw = [b0 - b1 * m + b2 * m * m, b1 - 2 * b2 * m, b2, g0 - g1 * m, g1];
    expect(top.converged).toBe(true);
    expect(caseOf(table, 'cens-superalloy-weibull-quadratic-nonconstant').missed('estimates', raw)).toEqual([]);
    const second = caseOf(table, 'cens-superalloy-nonconstant-second-source');
    expect(second.missed('estimates', raw)).toEqual([]);
    expect(second.missed('loglik_time', top.value)).toEqual([]);
    const fitted = caseOf(table, 'cens-superalloy-nonconstant-fitted');
    expect(fitted.missed('mu', stress.slice(0, 5).map((level) => b0 + b1 * Math.log(level / 100) + b2 * Math.log(level / 100) ** 2))).toEqual([]);
  });
});
