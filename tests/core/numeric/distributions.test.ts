import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  chiSquareCumulative, chiSquareDensity, chiSquareQuantile, fisherCumulative, fisherDensity, fisherQuantile, incompleteBeta, incompleteGamma, logGamma,
  normalCumulative, normalQuantile, studentCumulative, studentQuantile,
} from '../../../src/core/numeric/index.ts';

const probability = fc.double({ min: 1e-12, max: 1 - 1e-12, noNaN: true });
/** Degrees of freedom over many powers of ten. */
const degreesOfFreedom = fc.double({ min: -0.5, max: 6, noNaN: true }).map((power) => 10 ** power);

function relative(got: number, expected: number): number {
  return Math.abs(got - expected) / Math.abs(expected);
}

describe('quantile and cumulative probability undo each other', () => {
  it('normal', () => {
    fc.assert(fc.property(probability, (p) => {
      expect(relative(normalCumulative(normalQuantile(p)), p)).toBeLessThan(1e-13);
    }));
  });
  it('t, also by the complement', () => {
    fc.assert(fc.property(probability, degreesOfFreedom, (p, dof) => {
      const t = studentQuantile(p, dof);
      expect(relative(studentCumulative(t, dof), p)).toBeLessThan(1e-11);
      expect(relative(studentCumulative(-t, dof), 1 - p)).toBeLessThan(1e-3 * 1e-8 / Math.min(p, 1 - p) + 1e-11);
    }));
  });
  it('chi-square and F', () => {
    fc.assert(fc.property(probability, degreesOfFreedom, degreesOfFreedom, (p, above, below) => {
      expect(relative(chiSquareCumulative(chiSquareQuantile(p, above), above), p)).toBeLessThan(1e-9);
      expect(relative(fisherCumulative(fisherQuantile(p, above, below), above, below), p)).toBeLessThan(1e-9);
    }));
  });
});

describe('closed forms', () => {
  it('t with 1 degree of freedom is a Cauchy distribution, with 2 an algebraic one', () => {
    fc.assert(fc.property(fc.double({ min: -50, max: 50, noNaN: true }), (t) => {
      expect(studentCumulative(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 14);
      expect(studentCumulative(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 14);
    }));
  });
  it('chi-square with 2 degrees of freedom is exponential', () => {
    fc.assert(fc.property(fc.double({ min: 1e-6, max: 60, noNaN: true }), (x) => {
      expect(relative(chiSquareCumulative(x, 2), -Math.expm1(-x / 2))).toBeLessThan(1e-13);
    }));
  });
  it('t² is F with 1 degree of freedom above the line', () => {
    fc.assert(fc.property(fc.double({ min: 0.51, max: 0.999, noNaN: true }), degreesOfFreedom, (p, dof) => {
      expect(relative(studentQuantile(p, dof) ** 2, fisherQuantile(2 * p - 1, 1, dof))).toBeLessThan(1e-11);
    }));
  });
  it('the incomplete beta function is symmetric, I_x(a, b) = 1 − I_{1−x}(b, a)', () => {
    const parameter = fc.double({ min: -2, max: 4, noNaN: true }).map((power) => 10 ** power);
    fc.assert(fc.property(fc.double({ min: 0.01, max: 0.99, noNaN: true }), parameter, parameter, (x, a, b) => {
      expect(Math.abs(incompleteBeta(x, a, b) + incompleteBeta(1 - x, b, a) - 1)).toBeLessThan(1e-11);
    }));
  });
  it('Γ(x + 1) = x Γ(x)', () => {
    fc.assert(fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (x) => {
      const [next, own] = [logGamma(x + 1), logGamma(x)];
      expect(Math.abs(next - own - Math.log(x))).toBeLessThan(1e-14 * (10 + Math.abs(next)));
    }));
  });
});

describe('at the edges', () => {
  it('t tends to the normal distribution, without a step where it takes over', () => {
    for (const p of [1e-12, 1e-4, 0.3, 0.975, 0.9999]) {
      expect(studentQuantile(p, Infinity)).toBe(normalQuantile(p));
      expect(relative(studentQuantile(p, 1.0001e10), studentQuantile(p, 0.9999e10))).toBeLessThan(1e-11);
      expect(relative(studentCumulative(-3, 1.0001e10), studentCumulative(-3, 0.9999e10))).toBeLessThan(1e-11);
      expect(studentQuantile(p, 1e300)).toBe(normalQuantile(p));
    }
  });
  it('F with exactly known sides is chi-square over its degrees of freedom', () => {
    expect(relative(fisherQuantile(0.95, 7, Infinity), chiSquareQuantile(0.95, 7) / 7)).toBeLessThan(1e-14);
    expect(relative(fisherQuantile(0.95, Infinity, 7), 7 / chiSquareQuantile(0.05, 7))).toBeLessThan(1e-14);
    expect(relative(fisherCumulative(2, 7, Infinity), chiSquareCumulative(14, 7))).toBeLessThan(1e-14);
    expect(fisherQuantile(0.95, Infinity, Infinity)).toBe(1);
  });
  it('certain and impossible, and arguments outside the domain', () => {
    expect([normalQuantile(0), normalQuantile(1), studentQuantile(0, 3), studentQuantile(1, 3), studentQuantile(0.5, 3)])
      .toEqual([-Infinity, Infinity, -Infinity, Infinity, 0]);
    expect([chiSquareQuantile(0, 3), chiSquareQuantile(1, 3), fisherQuantile(0, 2, 3), fisherQuantile(1, 2, 3)]).toEqual([0, Infinity, 0, Infinity]);
    expect([-Infinity, Infinity].map(normalCumulative)).toEqual([0, 1]);
    expect([-Infinity, Infinity].map((t) => studentCumulative(t, 3))).toEqual([0, 1]);
    expect([incompleteBeta(0, 2, 3), incompleteBeta(1, 2, 3), incompleteGamma(2, 0), incompleteGamma(2, Infinity)]).toEqual([0, 1, 0, 1]);
    expect([chiSquareCumulative(-1, 3), fisherCumulative(-1, 3, 3)]).toEqual([0, 0]);
    const outside = [
      normalQuantile(-0.1), normalQuantile(1.1), normalQuantile(Number.NaN), studentQuantile(0.9, 0), studentQuantile(2, 3),
      studentCumulative(1, -1), chiSquareQuantile(-1, 3), chiSquareQuantile(0.5, 0), chiSquareCumulative(1, 0), fisherQuantile(0.5, 0, 1),
      fisherCumulative(1, 1, Number.NaN), logGamma(-1), studentCumulative(Number.NaN, 3), chiSquareCumulative(Number.NaN, 3), fisherCumulative(Number.NaN, 3, 3),
      chiSquareDensity(-1, 3), fisherDensity(1, 0, 3),
    ];
    expect(outside.every(Number.isNaN)).toBe(true);
    expect(logGamma(0)).toBe(Infinity);
  });
});
