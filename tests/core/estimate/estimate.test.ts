import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  budget, combine, correlation, covariance, coverageInterval, effectiveDegreesOfFreedom, elasticity, exactly, factorInterval, fromInput,
  standardUncertainty, type Estimate, type Input,
} from '../../../src/core/estimate/index.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';
import { composed, given, limited, part, stated } from './inputs.ts';

/** A small arithmetic with uncertainty, and the same on plain numbers: every operation is the value and its partials. */
type Operation = (a: number, b: number) => readonly [value: number, byA: number, byB: number];
const OPERATIONS: readonly Operation[] = [
  (a, b) => [a + b, 1, 1],
  (a, b) => [a - b, 1, -1],
  (a, b) => [a * b, b, a],
  (a, b) => [a / (2 + b * b), 1 / (2 + b * b), (-2 * a * b) / (2 + b * b) ** 2],
  (a, b) => [Math.sin(a) * b, Math.cos(a) * b, Math.sin(a)],
  (a, b) => [Math.log(3 + a * a) - b, (2 * a) / (3 + a * a), -1],
];

/** A chain of operations on what is there already, by place. */
interface Step { readonly operation: number; readonly a: number; readonly b: number }
const INPUTS = 4;
const steps = fc.array(fc.record({ operation: fc.nat(OPERATIONS.length - 1), a: fc.nat(99), b: fc.nat(99) }), { minLength: 1, maxLength: 8 });
const values = fc.array(fc.double({ min: -2, max: 2, noNaN: true }), { minLength: INPUTS, maxLength: INPUTS });
const uncertainties = fc.array(fc.double({ min: 1e-3, max: 0.5, noNaN: true }), { minLength: INPUTS, maxLength: INPUTS });

function follow<T>(start: readonly T[], chain: readonly Step[], apply: (operation: Operation, a: T, b: T) => T): T {
  const known = [...start];
  for (const { operation, a, b } of chain) {
    const [first, second, how] = [known[a % known.length], known[b % known.length], OPERATIONS[operation]];
    if (first !== undefined && second !== undefined && how !== undefined) known.push(apply(how, first, second));
  }
  const last = known[known.length - 1];
  if (last === undefined) throw new Error('nothing to compute with');
  return last;
}

function asEstimate(inputs: readonly Input[], chain: readonly Step[]): Estimate {
  return follow(inputs.map(fromInput), chain, (operation, a, b) => {
    const [value, byA, byB] = operation(a.value, b.value);
    return combine(value, [part(a, byA), part(b, byB)]);
  });
}

function asNumber(start: readonly number[], chain: readonly Step[]): number {
  return follow(start, chain, (operation, a, b) => operation(a, b)[0]);
}

function inputsOf(estimates: readonly number[], us: readonly number[], correlations?: readonly number[]): readonly Input[] {
  return estimates.map((estimate, i) => {
    const r = correlations?.[i];
    return { ...stated(`x_${i}`, estimate, us[i] ?? 0), ...(r === undefined || i === 0 ? {} : { correlations: new Map([['x_0', r]]) }) };
  });
}

describe('combine', () => {
  it('agrees with central differences on chains of operations', () => {
    let compared = 0;
    fc.assert(fc.property(values, steps, (at, chain) => {
      const estimate = asEstimate(inputsOf(at, [1, 1, 1, 1]), chain);
      for (const [i, x] of at.entries()) {
        const h = 1e-5;
        const moved = (by: number): number => asNumber(at.map((own, j) => (j === i ? x + by : own)), chain);
        // Richardson's step takes the next order of the difference away.
        const slope = (4 * (moved(h) - moved(-h)) / (2 * h) - (moved(2 * h) - moved(-2 * h)) / (4 * h)) / 3;
        const derivative = estimate.sensitivities.get(`x_${i}`)?.derivative ?? 0;
        expect(Math.abs(derivative - slope)).toBeLessThan(1e-6 * (1 + Math.abs(slope) + Math.abs(estimate.value)));
        compared++;
      }
    }), { numRuns: 400 });
    expect(compared).toBe(1600);
  });

  it('x − x has no uncertainty, x/x neither, and 2x − x that of x', () => {
    fc.assert(fc.property(fc.double({ min: 1e-9, max: 1e9, noNaN: true }), fc.double({ min: 1e-6, max: 0.3, noNaN: true }), (x, relative) => {
      const input = fromInput(stated('x', x, relative * x));
      expect(standardUncertainty(combine(0, [part(input, 1), part(input, -1)]))).toBe(0);
      expect(standardUncertainty(combine(1, [part(input, 1 / x), part(input, -x / (x * x))]))).toBe(0);
      const triple = combine(3 * x, [part(input, 3)]);
      expect(standardUncertainty(combine(1, [part(triple, 1 / (3 * x)), part(input, -1 / x)]))).toBe(0);
      const double = combine(2 * x, [part(input, 2)]);
      expect(standardUncertainty(combine(x, [part(double, 1), part(input, -1)]))).toBeCloseTo(standardUncertainty(input), 12);
    }));
  });

  it('a small true difference is not mistaken for a cancelled one', () => {
    const input = fromInput(stated('x', 1, 1));
    expect(standardUncertainty(combine(0, [part(input, 1 + 1e-12), part(input, -1)]))).toBeGreaterThan(0.9e-12);
  });

  it('numbers without uncertainty add none', () => {
    expect(standardUncertainty(exactly(5))).toBe(0);
    expect(standardUncertainty(combine(10, [part(exactly(5), 2)]))).toBe(0);
    expect(coverageInterval(exactly(5))).toMatchObject({ low: 5, high: 5, degreesOfFreedom: Infinity });
    expect(budget(exactly(5))).toEqual([]);
  });

  it('keeps tiny and huge uncertainties', () => {
    for (const scale of [1e-200, 1e200]) {
      const sum = combine(0, [part(stated('a', 0, 3 * scale), 1), part(stated('b', 0, 4 * scale), 1)]);
      expect(standardUncertainty(sum) / scale).toBeCloseTo(5, 12);
      expect(correlation(sum, sum)).toBeCloseTo(1, 12);
    }
  });
});

const coefficients = fc.array(fc.double({ min: -0.55, max: 0.55, noNaN: true }), { minLength: INPUTS, maxLength: INPUTS });

describe('correlation of results', () => {
  it('lies between −1 and 1, is 1 with itself, and the same both ways', () => {
    fc.assert(fc.property(values, uncertainties, coefficients, steps, steps, (at, us, r, one, other) => {
      const inputs = inputsOf(at, us, r);
      const [a, b] = [asEstimate(inputs, one), asEstimate(inputs, other)];
      const between = correlation(a, b);
      expect(between === undefined).toBe(standardUncertainty(a) === 0 || standardUncertainty(b) === 0);
      if (between === undefined) return;
      expect(Math.abs(between)).toBeLessThanOrEqual(1);
      expect(correlation(b, a)).toBeCloseTo(between, 10);
      expect(correlation(a, a)).toBeCloseTo(1, 10);
      expect(covariance(a, b)).toBeCloseTo(between * standardUncertainty(a) * standardUncertainty(b), 8);
    }));
  });

  it('the variance of a sum has twice the covariance in it', () => {
    fc.assert(fc.property(values, uncertainties, coefficients, steps, steps, (at, us, r, one, other) => {
      const inputs = inputsOf(at, us, r);
      const [a, b] = [asEstimate(inputs, one), asEstimate(inputs, other)];
      const sum = standardUncertainty(combine(a.value + b.value, [part(a, 1), part(b, 1)])) ** 2;
      const expected = standardUncertainty(a) ** 2 + standardUncertainty(b) ** 2 + 2 * covariance(a, b);
      expect(Math.abs(sum - expected)).toBeLessThan(1e-9 * (1 + standardUncertainty(a) ** 2 + standardUncertainty(b) ** 2));
    }));
  });

  it('the same steel rule twice: fully correlated, a difference without uncertainty and a sum with twice', () => {
    const a = stated('a', 3, 0.1);
    const b: Input = { ...stated('b', 5, 0.1), correlations: new Map([['a', 1]]) };
    expect(standardUncertainty(combine(2, [part(b, 1), part(a, -1)]))).toBe(0);
    expect(standardUncertainty(combine(8, [part(b, 1), part(a, 1)]))).toBeCloseTo(0.2, 14);
    expect(correlation(fromInput(a), fromInput(b))).toBeCloseTo(1, 14);
    expect(correlation(fromInput(a), exactly(1))).toBeUndefined();
  });
});

describe('budget', () => {
  it('shares, those of covariance among them, add up to 1, and components to their line', () => {
    fc.assert(fc.property(values, uncertainties, fc.option(coefficients, { nil: undefined }), steps, (at, us, r, chain) => {
      const estimate = asEstimate(inputsOf(at, us, r), chain);
      const lines = budget(estimate);
      const sum = lines.reduce((total, line) => total + line.share + line.covarianceShare, 0);
      expect(Math.abs(sum - (standardUncertainty(estimate) === 0 ? 0 : 1))).toBeLessThan(1e-9);
      expect(r !== undefined || lines.every(({ covarianceShare }) => covarianceShare === 0)).toBe(true);
      expect(lines.map(({ share }) => share)).toEqual(lines.map(({ share }) => share).sort((a, b) => b - a));
      for (const { share, components } of lines) {
        expect(Math.abs(components.reduce((total, line) => total + line.share, 0) - share)).toBeLessThan(1e-9 * (1 + share));
      }
    }));
  });
});

describe('effective degrees of freedom and coverage', () => {
  it('one component has its own degrees of freedom, and its factor is that of Student', () => {
    for (const [n, factor] of [[2, 12.706], [3, 4.303], [4, 3.182], [6, 2.571], [11, 2.228]] as const) {
      // Factors: JCGM 100:2008, Table G.2, 95 %.
      const readings = Array.from({ length: n }, (_, i) => 10 + 0.1 * i * i);
      const mean = fromInput(given({ id: 'x', readings }));
      expect(effectiveDegreesOfFreedom(mean)).toBeCloseTo(n - 1, 10);
      expect(Math.abs(coverageInterval(mean).factor - factor)).toBeLessThan(0.0006);
    }
  });

  it('lie between the smallest and the sum of all', () => {
    const parts = fc.array(fc.tuple(fc.double({ min: 0.01, max: 5, noNaN: true }), fc.integer({ min: 1, max: 40 })), { minLength: 1, maxLength: 6 });
    fc.assert(fc.property(parts, (all) => {
      const sum = combine(0, all.map((one, i) => part(composed(`x_${i}`, 0, [one]), 1)));
      const freedoms = all.map(([, dof]) => dof);
      const effective = effectiveDegreesOfFreedom(sum) ?? Number.NaN;
      expect(effective).toBeGreaterThanOrEqual(Math.min(...freedoms) * (1 - 1e-12));
      expect(effective).toBeLessThanOrEqual(freedoms.reduce((a, b) => a + b, 0) * (1 + 1e-12));
    }));
  });

  it('t is taken at the next lower whole number, at least 1', () => {
    const half = composed('x', 0, [[1, 0.5]]);
    expect(coverageInterval(fromInput(half)).factor).toBeCloseTo(12.7062, 4);
    expect(coverageInterval(fromInput(composed('x', 0, [[1, 4.9]]))).factor).toBeCloseTo(2.7764, 4);
    expect(coverageInterval(fromInput(composed('x', 0, [[1, 4.9]]))).degreesOfFreedom).toBeCloseTo(4.9, 12);
    expect(coverageInterval(fromInput(limited('x', 0, 1))).factor).toBeCloseTo(1.959964, 6);
    expect(coverageInterval(fromInput(limited('x', 0, 1)), 0.99).factor).toBeCloseTo(2.575829, 6);
  });

  it('of a life are a factor: e to the interval of its logarithm', () => {
    // ln N = 11.5 with u = 0.5: its interval is exact, and N = e^11.5 has dN = N d(ln N). Closed form; factors of the normal law and of four degrees of freedom: JCGM 100:2008, Table G.2.
    const life = Math.exp(11.5);
    for (const [logarithm, factor] of [[stated('lnN', 11.5, 0.5), 1.959964], [composed('lnN', 11.5, [[0.5, 4]]), 2.776445]] as const) {
      const { low = NaN, high = NaN, factor: found = NaN } = factorInterval(combine(life, [part(logarithm, life)])) ?? {};
      expect(found).toBeCloseTo(factor, 6);
      expect(Math.log(low)).toBeCloseTo(11.5 - 0.5 * factor, 6);
      expect(Math.log(high)).toBeCloseTo(11.5 + 0.5 * factor, 6);
    }
    for (const value of [0, -1]) expect(factorInterval(combine(value, [part(stated('x', value, 0.5), 1)]))).toBeUndefined();
  });

  it('are not claimed where a coefficient is stated between inputs of different estimates, and are where the correlated one has no part', () => {
    const a = composed('a', 1, [[1, 5]]);
    const b: Input = { ...composed('b', 1, [[1, 4]]), correlations: new Map([['a', 0.5]]) };
    expect(effectiveDegreesOfFreedom(combine(2, [part(a, 1), part(b, 1)]))).toBeUndefined();
    expect(coverageInterval(combine(2, [part(a, 1), part(b, 1)])).factor).toBeCloseTo(1.959964, 6);
    expect(effectiveDegreesOfFreedom(combine(2, [part(a, 1), part(b, 0)]))).toBeCloseTo(5, 12);
    expect(effectiveDegreesOfFreedom(fromInput(b))).toBeCloseTo(4, 12);
  });

  it('of correlated inputs that are exactly known are infinite, and other inputs keep theirs', () => {
    const a = limited('a', 1, 1);
    const b: Input = { ...limited('b', 1, 2), correlations: new Map([['a', 0.5]]) };
    const c = composed('c', 1, [[1, 4]]);
    expect(effectiveDegreesOfFreedom(combine(2, [part(a, 1), part(b, 1)]))).toBe(Infinity);
    // u² = 1/3 + 4/3 + 2·0.5·(1/√3)(2/√3) + 1 = 10/3, so that ν = 4 (10/3)².
    expect(effectiveDegreesOfFreedom(combine(3, [part(a, 1), part(b, 1), part(c, 1)]))).toBeCloseTo(4 * (10 / 3) ** 2, 12);
  });

  it('of two parameters of one line fitted to normal data: intervals that hold in 95 % of fits (exact: Student\'s t with n − 2)', () => {
    for (const n of [4, 13]) {
      const random = createRandom(n);
      const xs = Array.from({ length: n }, (_, i) => i);
      const [mean, spread] = [(n - 1) / 2, xs.reduce((sum, x) => sum + (x - (n - 1) / 2) ** 2, 0)];
      const runs = 4000;
      let held = 0;
      for (let run = 0; run < runs; run += 1) {
        const noise = new Float64Array(n);
        random.fillNormal(noise);
        const slope = xs.reduce((sum, x, i) => sum + (x - mean) * (noise[i] ?? 0), 0) / spread;
        const intercept = noise.reduce((sum, y) => sum + y, 0) / n - slope * mean;
        const s = Math.sqrt(xs.reduce((sum, x, i) => sum + ((noise[i] ?? 0) - intercept - slope * x) ** 2, 0) / (n - 2));
        const [uA, uB] = [s * Math.sqrt(1 / n + mean ** 2 / spread), s / Math.sqrt(spread)];
        const A = composed('A', intercept, [[uA, n - 2]]);
        const B: Input = { ...composed('B', slope, [[uB, n - 2]]), correlations: new Map([['A', (-(s ** 2) * mean) / spread / (uA * uB)]]) };
        const { low, high } = coverageInterval(combine(intercept + slope * n, [part(A, 1), part(B, n)]));
        if (low <= 0 && 0 <= high) held += 1;
      }
      expect(Math.abs(held / runs - 0.95)).toBeLessThan(4 * Math.sqrt(0.95 * 0.05 / runs));
    }
  });
});

it('elasticity is the change in % per 1 %: −3 from a diameter to the stress', () => {
  const d = stated('d', 7.52e-3, 1e-5);
  const stress = 32 * 12 / (Math.PI * d.value ** 3);
  const estimate = combine(stress, [part(d, (-3 * stress) / d.value)]);
  expect(elasticity(estimate, 'd')).toBeCloseTo(-3, 12);
  expect(elasticity(estimate, 'F')).toBe(0);
  expect(elasticity(combine(0, [part(d, 1)]), 'd')).toBeUndefined();
});
