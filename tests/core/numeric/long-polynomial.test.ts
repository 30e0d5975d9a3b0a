import { describe, expect, it } from 'vitest';
import { createRandom, longPolynomial, pointsOf, polynomialLeastSquares, scaledErfc } from '../../../src/core/numeric/index.ts';
import { erfc, exponentialOfSquare } from '../../../src/core/numeric/error-function.ts';

describe('least squares by orthogonal polynomials', () => {
  it.each([1, 2] as const)('of degree %s is what the factorisation finds, with its covariance, residuals and leverages', (degree) => {
    const random = createRandom(7);
    const x = Float64Array.from({ length: 3000 }, () => 2.4 + 0.3 * random.uniform());
    const y = x.map((value) => 32 - 10 * value + 0.4 * value * value + 0.2 * random.normal());
    const [long, factored] = [longPolynomial(pointsOf(x, y), degree), polynomialLeastSquares(x, y, degree)];
    if (long === undefined || factored === undefined) throw new Error('both find a line');
    const relative = (a: readonly number[], b: readonly number[]): number => Math.max(...a.map((value, i) => Math.abs(value / (b[i] ?? Number.NaN) - 1)));
    expect(relative(long.coefficients, factored.coefficients)).toBeLessThan(1e-11);
    expect(relative(long.unscaledCovariance.flat(), factored.unscaledCovariance.flat())).toBeLessThan(1e-9);
    expect(Math.abs(long.residualSumOfSquares / factored.residualSumOfSquares - 1)).toBeLessThan(1e-13);
    expect(long.degreesOfFreedom).toBe(factored.degreesOfFreedom);
    const apart = (a: Float64Array, b: Float64Array): number => a.reduce((most, value, i) => Math.max(most, Math.abs(value - (b[i] ?? Number.NaN))), 0);
    expect(apart(long.residuals, factored.residuals)).toBeLessThan(1e-12);
    expect(apart(long.leverages, factored.leverages)).toBeLessThan(1e-13);
  });

  // Every eighth point, of which the first look at 8192 points consists, lies at one place, or they rise by themselves.
  it.each([1, 2] as const)('of degree %s is the same where points here and there tell little of the others', (degree) => {
    const random = createRandom(8);
    for (const one of [(): number => 2.5, (i: number): number => 2.5 + 1e-6 * i]) {
      const x = Float64Array.from({ length: 8192 }, (_, i) => (i % 8 === 0 ? one(i) : 2.4 + 0.3 * random.uniform()));
      const y = x.map((value, i) => (i % 8 === 0 ? 1e4 * (value - 2.5) : 32 - 10 * value + 0.2 * random.normal()));
      const [long, factored] = [longPolynomial(pointsOf(x, y), degree), polynomialLeastSquares(x, y, degree)];
      if (long === undefined || factored === undefined) throw new Error('both find a line');
      for (const [i, value] of long.coefficients.entries()) expect(Math.abs(value / (factored.coefficients[i] ?? 0) - 1)).toBeLessThan(1e-11);
      expect(Math.abs(long.residualSumOfSquares / factored.residualSumOfSquares - 1)).toBeLessThan(1e-13);
      const mean = y.reduce((sum, value) => sum + value, 0) / y.length;
      expect(Math.abs(long.totalSumOfSquares / y.reduce((sum, value) => sum + (value - mean) ** 2, 0) - 1)).toBeLessThan(1e-12);
    }
  });

  // A line that is known: y = 3 − 2·i at x = 10⁶ + i/1024, whole numbers and eighths of a double, has no rounding in its data.
  it('finds a line far from zero, and leaves nothing over', () => {
    const x = Float64Array.from({ length: 4096 }, (_, i) => 1e6 + i / 1024);
    const y = Float64Array.from(x, (_, i) => 3 - 2 * i);
    const { coefficients = [], residualSumOfSquares = 1 } = longPolynomial(pointsOf(x, y), 1) ?? {};
    expect(Math.abs((coefficients[1] ?? 0) / -2048 - 1)).toBeLessThan(1e-14);
    expect(Math.abs((coefficients[0] ?? 0) / (3 + 2048e6) - 1)).toBeLessThan(1e-14);
    expect(residualSumOfSquares).toBeLessThan(1e-18);
  });

  it('has none where all points lie at one place, or fewer than coefficients', () => {
    expect(longPolynomial(pointsOf(new Float64Array(2000).fill(2), new Float64Array(2000)), 1)).toBeUndefined();
    expect(longPolynomial(pointsOf(Float64Array.of(1, 2), Float64Array.of(1, 2)), 2)).toBeUndefined();
    const two = Float64Array.from({ length: 2000 }, (_, i) => i % 2);
    expect(longPolynomial(pointsOf(two, two), 2)).toBeUndefined();
  });
});

describe('exp(x²)·erfc(x)', () => {
  it('is the series and the continued fraction of erfc over its whole range', () => {
    let most = 0;
    for (let x = 0; x < 26; x += 0.00317) {
      // Below 1.5 the other one is 1 − erf, which loses what erfc is smaller than 1.
      const allowed = x < 1.5 ? (4 * Number.EPSILON) / erfc(x) : 2e-15;
      most = Math.max(most, Math.abs((scaledErfc(x) * exponentialOfSquare(x, -1)) / erfc(x) - 1) / allowed);
    }
    expect(most).toBeLessThan(1);
  });

  // Abramowitz and Stegun, table 7.1 and 7.3 (erfc 1 = 0.15729 92070 50285, erfc 2 = 0.00467 77349 81047 27); from memory.
  it('has the published values at 1 and 2', () => {
    expect(Math.abs(scaledErfc(1) / Math.E - 0.157299207050285)).toBeLessThan(1e-15);
    expect(Math.abs(scaledErfc(2) / Math.exp(4) - 0.00467773498104727)).toBeLessThan(1e-16);
  });

  it('goes to 1/(x√π) far out', () => expect(Math.abs(scaledErfc(1e8) * 1e8 * Math.sqrt(Math.PI) - 1)).toBeLessThan(1e-15));
});
