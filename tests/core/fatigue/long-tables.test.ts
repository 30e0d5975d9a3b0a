/** Long tables of few stresses are taken stress by stress: that has to give what the specimens one by one give. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLeastSquares, fitMaximumLikelihood, fitOneStress, profileLimits, type Outcome } from '../../../src/core/fatigue/index.ts';
import { createRandom, polynomialLeastSquares } from '../../../src/core/numeric/index.ts';

interface Specimens {
  readonly stressMpa: Float64Array;
  readonly cycles: Float64Array;
  readonly outcomes: readonly Outcome[];
}

function specimens(n: number, seed: number, end = 1e7, stresses = [300, 340, 380, 420, 460]): Specimens {
  const random = createRandom(seed);
  const lives = Array.from({ length: n }, (_, i) => {
    const stress = stresses[i % stresses.length] ?? 0;
    return [stress, 10 ** (5 - 12 * Math.log10(stress / 420) + 0.15 * random.normal())] as const;
  });
  return {
    stressMpa: Float64Array.from(lives, ([stress]) => stress),
    cycles: Float64Array.from(lives, ([, life]) => Math.min(life, end)),
    outcomes: lives.map(([, life]) => (life > end ? 'runout' : 'fracture')),
  };
}

/** ln L of lives N under N = A + B log10 S, lognormal or Weibull about it, written here anew from the densities. */
function logLikelihood(rows: Specimens, life: 'lognormal' | 'weibull', [a = 0, b = 0]: readonly number[], s: number): number {
  return rows.outcomes.reduce((sum, outcome, i) => {
    const N = rows.cycles[i] ?? 0;
    const z = (Math.log10(N) - a - b * Math.log10(rows.stressMpa[i] ?? 0)) / s;
    if (outcome === 'fracture') {
      const density = life === 'lognormal' ? -0.5 * z * z - 0.5 * Math.log(2 * Math.PI) : z - Math.exp(z);
      return sum + density - Math.log(s * N * Math.LN10);
    }
    return sum + (life === 'lognormal' ? Math.log(0.5 * complement(z / Math.SQRT2)) : -Math.exp(z));
  }, 0);
}

/** erfc by its continued fraction and its series; Abramowitz and Stegun 7.1.5 and 7.1.14. */
function complement(x: number): number {
  if (x < 2.5) {
    let [term, sum] = [x, x];
    for (let k = 1; k < 200; k++) {
      term *= -(x * x) / k;
      sum += term / (2 * k + 1);
    }
    return 1 - (2 / Math.sqrt(Math.PI)) * sum;
  }
  let fraction = x;
  for (let k = 200; k > 0; k--) fraction = x + k / 2 / fraction;
  return Math.exp(-x * x) / Math.sqrt(Math.PI) / fraction;
}

const close = (value: number, expected: number, relative: number): void =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(relative * Math.max(1, Math.abs(expected)));

describe('least squares of a long table', () => {
  it.each([1, 2])('gives the line, scatter, leverages and residuals of its specimens one by one, degree %i', (degree) => {
    const rows = specimens(1500, 3, Infinity);
    const fitted = fitLeastSquares(rows, { model: degree === 1 ? 'linear' : 'quadratic' });
    if (!fitted.ok) throw new Error(fitted.problem.what);
    const single = polynomialLeastSquares(rows.stressMpa.map(Math.log10), rows.cycles.map(Math.log10), degree);
    if (single === undefined) throw new Error('no line');
    fitted.value.parameters.forEach(({ value }, i) => close(value, single.coefficients[i] ?? 0, 1e-9));
    close(fitted.value.s, Math.sqrt(single.residualSumOfSquares / single.degreesOfFreedom), 1e-12);
    for (const [i, one] of fitted.value.residuals.entries()) {
      close(one.residual, single.residuals[i] ?? 0, 1e-10);
      close(one.leverage, single.leverages[i] ?? 0, 1e-12);
    }
    expect(fitted.value.residuals.filter(({ influential }) => influential).map(({ row }) => row)).toEqual(fitted.value.influential);
  });
});

describe('maximum likelihood of merged specimens', () => {
  // Some of the 12 000 are looked at first, and their failures are summed once.
  const apart = Array.from({ length: 12_000 }, (_, i) => 300 + 160 * ((i * 0.6180339887498949) % 1));
  it.each([
    ['lognormal', 'few', undefined, 400], ['weibull', 'few', undefined, 400], ['lognormal', '12 000', apart, 12_000], ['weibull', '12 000', apart, 12_000],
  ] as const)('has the likelihood of the specimens one by one, %s, %s stresses, and no better one beside it', (life, _few, stresses, n) => {
    const rows = specimens(n, 5, 1.2e6, stresses === undefined ? undefined : [...stresses]);
    expect(rows.outcomes.filter((outcome) => outcome === 'runout').length).toBeGreaterThan(50);
    const fitted = fitMaximumLikelihood(rows, { life });
    if (!fitted.ok) throw new Error(fitted.problem.what);
    const { parameters, s, logLikelihood: told } = fitted.value;
    const point = parameters.map(({ value }) => value);
    close(told, logLikelihood(rows, life, point, s), 1e-12);
    for (const [a, b, c] of [[1e-3, 0, 0], [-1e-3, 0, 0], [0, 1e-3, 0], [0, -1e-3, 0], [0, 0, 1e-3], [0, 0, -1e-3]]) {
      expect(logLikelihood(rows, life, [(point[0] ?? 0) + (a ?? 0), (point[1] ?? 0) + (b ?? 0)], s + (c ?? 0))).toBeLessThan(told);
    }
  });

  // With B given, lives times (S/420 MPa)^−B are lives at one stress: what is left to fit is their distribution. χ² of one degree of freedom: 3.841458820694124
  // at 95 % (NIST/SEMATECH e-Handbook, 1.3.6.7.4, prints 3.841).
  it.each([['lognormal', 30], ['weibull', 30], ['lognormal', 12_000], ['weibull', 12_000]] as const)('loses half of χ² of log likelihood at profiled limits, %s lives of %i', (life, n) => {
    const rows = specimens(n, 5, 1.2e6, [...apart]);
    const [fitted, limits] = [fitMaximumLikelihood(rows, { life }), profileLimits(rows, { life }, { of: 'parameter', name: 'B' })];
    if (!fitted.ok || !limits.ok) throw new Error('no limits');
    const { lower, upper } = limits.value;
    for (const slope of [lower ?? 0, upper ?? 0]) {
      const cycles = rows.cycles.map((own, i) => own * ((rows.stressMpa[i] ?? 0) / 420) ** -slope);
      const left = fitOneStress({ cycles, outcomes: rows.outcomes }, life);
      if (!left.ok) throw new Error(left.problem.what);
      const jacobian = rows.outcomes.reduce((sum, outcome, i) => (outcome === 'fracture' ? sum - slope * Math.log((rows.stressMpa[i] ?? 0) / 420) : sum), 0);
      expect(2 * (fitted.value.logLikelihood - left.value.logLikelihood - jacobian)).toBeCloseTo(3.841458820694124, n === 30 ? 8 : 6);
    }
  });

  it('does not depend on the order of the rows', () => {
    const rows = specimens(60, 8, 1.2e6);
    fc.assert(
      fc.property(fc.shuffledSubarray([...rows.outcomes.keys()], { minLength: 60 }), fc.constantFrom('lognormal' as const, 'weibull' as const), (order, life) => {
        const moved = {
          stressMpa: Float64Array.from(order, (i) => rows.stressMpa[i] ?? 0), cycles: Float64Array.from(order, (i) => rows.cycles[i] ?? 0),
          outcomes: order.map((i) => rows.outcomes[i] ?? 'fracture'),
        };
        const [first, second] = [fitMaximumLikelihood(rows, { life }), fitMaximumLikelihood(moved, { life })];
        if (!first.ok || !second.ok) throw new Error('no fit');
        close(second.value.logLikelihood, first.value.logLikelihood, 1e-12);
        second.value.parameters.forEach(({ value }, i) => close(value, first.value.parameters[i]?.value ?? 0, 1e-9));
      }),
      { numRuns: 20 },
    );
  });
});
