import { describe, expect, it } from 'vitest';
import {
  compareNested, fitLeastSquares, fitMaximumLikelihood, lifeLimits, locationAt, parameterLimits, profileLimits, strengthLimits, type LifeDistribution, type LineFit, type Specimens,
} from '../../../src/core/fatigue/index.ts';
import { chiSquareQuantile } from '../../../src/core/numeric/index.ts';
import table from '../../tables/censored-regression.json' with { type: 'json' };
import limits from '../../tables/limit-line.json' with { type: 'json' };
import { caseOf, column, specimensOf, valueOf } from './table.ts';

const sets: Readonly<Record<string, Specimens>> = {
  superalloy: specimensOf(table, 'superalloy', 'pseudo_stress_ksi', 'kilocycles', 'failed'),
  'laminate-panel': specimensOf(table, 'laminate-panel', 'stress_MPa', 'kilocycles', 'failed'),
  'invented-runouts-a': specimensOf(table, 'invented-runouts-a', 'stress_MPa', 'cycles', 'failed'),
};
const set = (name: unknown): Specimens => {
  const found = sets[String(name)];
  if (found === undefined) throw new Error(`no set ${String(name)}`);
  return found;
};
const asLife = (name: unknown): LifeDistribution => (name === 'weibull' ? 'weibull' : 'lognormal');

const complete = table.cases.filter(({ inputs }) => 'probabilities' in inputs).map(({ id }) => id);

describe('independent software (R, survival)', () => {
  it('has nine fits to be held against', () => {
    expect(complete.length).toBe(9);
  });
  it.each(complete)('%s', (id) => {
    const one = caseOf(table, id);
    const model = String(one.input('terms')).includes('^2') ? 'quadratic' : 'linear';
    const fit = valueOf(fitMaximumLikelihood(set(one.input('data')), { model, life: asLife(one.input('distribution')) }));
    // From log10 of life on log10 of stress to natural logarithms on both sides.
    const factor = [...fit.parameters.map((_, i) => Math.LN10 ** (1 - i)), 1];
    const coefficients = fit.parameters.map(({ value }, i) => value * (factor[i] ?? 1));
    const errors = [...fit.parameters.map(({ se }) => se), Math.sqrt(fit.covariance.at(-1)?.at(-1) ?? 0)].map((se, i) => se * (factor[i] ?? 1));
    expect(one.missedRecomputed('coefficients', coefficients, 1e-8)).toEqual([]);
    expect(one.missedRecomputed('se_coefficients_then_log_sigma', errors, 1e-8)).toEqual([]);
    expect(one.missedRecomputed('sigma', fit.s * Math.LN10, 1e-8)).toEqual([]);
    expect(one.missedRecomputed('loglik_time', fit.logLikelihood, 1e-11)).toEqual([]);
    const covariance = fit.covariance.map((row, i) => row.map((value, j) => value * (factor[i] ?? 1) * (factor[j] ?? 1)));
    expect(one.missed('covariance', covariance.flat())).toEqual([]);
    expect({ n: fit.n, failures: fit.failures }).toEqual({ n: one.input('n'), failures: one.input('failures') });
    const stress = Number(one.input('stress_for_quantiles'));
    const quantiles = [one.input('probabilities')].flat().map((p) => lifeLimits(fit, stress, { kind: 'share', share: 1 - Number(p), confidence: 0.95 }, 'large sample'));
    expect(one.missed('quantiles', quantiles.map(({ estimate }) => 10 ** estimate))).toEqual([]);
    expect(one.missed('quantiles_lower95', quantiles.map(({ lower }) => 10 ** (lower ?? 0)))).toEqual([]);
    expect(one.missed('quantiles_upper95', quantiles.map(({ upper }) => 10 ** (upper ?? 0)))).toEqual([]);
  });
});

describe('without runouts', () => {
  it('is least squares up to the divisor of s', () => {
    const failed = column(table, 'invented-runouts-a', 'failed');
    const of = (name: string): readonly number[] => column(table, 'invented-runouts-a', name).filter((_, i) => failed[i] === 1);
    const broken = { stressMpa: of('stress_MPa'), cycles: of('cycles') };
    const likelihood = valueOf(fitMaximumLikelihood(broken));
    const squares = valueOf(fitLeastSquares(broken));
    likelihood.parameters.forEach(({ value }, i) => expect(value).toBeCloseTo(squares.parameters[i]?.value ?? 0, 10));
    expect(likelihood.s).toBeCloseTo(squares.s * Math.sqrt(16 / 18), 12);
    expect(likelihood.logLikelihood).toBeCloseTo(squares.logLikelihood, 10);
    expect(likelihood.aic).toBeCloseTo(squares.aic, 10);
    const same = caseOf(table, 'cens-complete-equals-least-squares');
    expect(same.missed('coefficients', likelihood.parameters.map(({ value }, i) => value * Math.LN10 ** (1 - i)))).toEqual([]);
    expect(same.missed('sigma_ml', likelihood.s * Math.LN10)).toEqual([]);
  });
});

describe('a line with a fatigue limit', () => {
  it.each(limits.cases)('$data, $life: as found by another search in another language', ({ data, life, A, B, S_0: limit, lnS, logLikelihood, se }) => {
    const fit = valueOf(fitMaximumLikelihood(set(data), { model: 'limit', life: asLife(life) }));
    const got = [...fit.parameters.map(({ value }) => value), Math.log(fit.s)];
    [A, B, limit, lnS].forEach((value, i) => expect(Math.abs((got[i] ?? 0) / value - 1)).toBeLessThan(limits.tolerance.parameters));
    expect(Math.abs(fit.logLikelihood / logLikelihood - 1)).toBeLessThan(limits.tolerance.logLikelihood);
    se.forEach((value, i) => expect(Math.abs(Math.sqrt(fit.covariance[i]?.[i] ?? 0) / value - 1)).toBeLessThan(limits.tolerance.se));
    expect(locationAt(fit, limit * 0.99)).toBe(Infinity);
    expect(lifeLimits(fit, limit * 0.99, { kind: 'median', confidence: 0.95 })).toMatchObject({ lower: null, upper: null });
  });
  it('says that straight data show none', () => {
    const result = fitMaximumLikelihood(set('invented-runouts-a'), { model: 'limit' });
    expect(result.ok ? undefined : result.problem.code).toBe('limit-not-identified');
  });
  it('warns where the limit is hardly seen', () => {
    const weak = { stressMpa: [500, 450, 400, 370, 350, 340, 330], cycles: [2.9e4, 3.6e4, 1.9e5, 1.6e5, 6e5, 4.4e5, 1.1e6] };
    const fit = valueOf(fitMaximumLikelihood(weak, { model: 'limit' }));
    const line = valueOf(fitMaximumLikelihood(weak));
    const test = compareNested(line, fit);
    expect(test?.p).toBeGreaterThan(0.05);
    expect(fit.warnings.map(({ code }) => code)).toContain('limit-weak');
  });
});

describe('profile likelihood', () => {
  const alloy = set('superalloy');
  /** Twice the loss of log likelihood at the limits of B, found by shifting every life by B·X and fitting A and s alone. */
  it.each(['lognormal', 'weibull'] as const)('limits of B and s lie where the likelihood has fallen by χ²/2 (%s)', (life) => {
    const fit = valueOf(fitMaximumLikelihood(alloy, { life }));
    const { lower, upper } = valueOf(profileLimits(alloy, { life }, { of: 'parameter', name: 'B' }));
    for (const b of [lower, upper]) {
      expect(2 * (fit.logLikelihood - withSlope(alloy, life, b ?? 0))).toBeCloseTo(chiSquareQuantile(0.95, 1), 4);
    }
    expect(lower ?? 0).toBeLessThan(fit.parameters[1]?.value ?? 0);
    expect(upper ?? 0).toBeGreaterThan(fit.parameters[1]?.value ?? 0);
  });
  it('near the usual limits where there are many specimens', () => {
    const laminate = set('laminate-panel');
    const fit = valueOf(fitMaximumLikelihood(laminate));
    for (const parameter of fit.parameters) {
      const { lower, upper } = valueOf(profileLimits(laminate, {}, { of: 'parameter', name: parameter.name }));
      expect(Math.abs((lower ?? 0) - parameter.lo)).toBeLessThan(0.1 * parameter.se);
      expect(Math.abs((upper ?? 0) - parameter.hi)).toBeLessThan(0.1 * parameter.se);
    }
    const s = valueOf(profileLimits(laminate, {}, { of: 's' }));
    expect(s.lower ?? 0).toBeCloseTo(fit.sLimits.lo, 2);
  });
  it('the strength’s limits are where the life’s limit at that stress is the life asked for', () => {
    const strength = valueOf(profileLimits(alloy, {}, { of: 'strength', cycles: 60, share: 0.5 }));
    const life = valueOf(profileLimits(alloy, {}, { of: 'life', stressMpa: strength.lower ?? 0, share: 0.5 }));
    expect(life.lower).toBeCloseTo(Math.log10(60), 6);
  });
  it('leaves a side open where the data set no bound', () => {
    const { lower, upper } = valueOf(profileLimits(alloy, { model: 'limit' }, { of: 'parameter', name: 'S_0' }));
    expect(lower).toBeNull();
    expect(upper).toBeGreaterThan(70);
  });
});

/** Greatest log likelihood with B held: the lives are divided by S^B, then A and s alone are searched for. */
function withSlope(specimens: Specimens, life: LifeDistribution, slope: number): number {
  const n = specimens.stressMpa.length;
  const y = Array.from({ length: n }, (_, i) => Math.log10(specimens.cycles[i] ?? 1) - slope * Math.log10(specimens.stressMpa[i] ?? 1));
  let best = -Infinity;
  let [a, s] = [y.reduce((sum, value) => sum + value, 0) / n, 0.3];
  // A plain shrinking search over (A, ln s): slow, and independent of the fit.
  for (let width = 1; width > 1e-6; width *= 0.8) {
    for (let step = 0; step < 4; step++) {
      for (const [da, ds] of [[0, 0], [1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [-1, -1], [1, -1], [-1, 1]] as const) {
        const value = logLikelihood(y, specimens, life, a + da * width * 0.3, s * Math.exp(ds * width));
        if (value > best) [best, a, s] = [value, a + da * width * 0.3, s * Math.exp(ds * width)];
      }
    }
  }
  return best;
}

function logLikelihood(y: readonly number[], { cycles, outcomes }: Specimens, life: LifeDistribution, a: number, s: number): number {
  return y.reduce((sum, value, i) => {
    const z = (value - a) / s;
    if (outcomes?.[i] === 'runout') return sum + (life === 'weibull' ? -Math.exp(z) : Math.log(normalTail(z)));
    const density = life === 'weibull' ? z - Math.exp(z) : -0.5 * z * z - 0.5 * Math.log(2 * Math.PI);
    return sum + density - Math.log(s * (cycles[i] ?? 1) * Math.LN10);
  }, 0);
}

/** Upper tail of the normal distribution by Simpson's rule: no part of the project. */
function normalTail(z: number): number {
  const [steps, width] = [4000, 12 / 4000];
  let sum = 0;
  for (let i = 0; i <= steps; i++) sum += (i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2) * Math.exp(-0.5 * (z + i * width) ** 2);
  return ((sum * width) / 3) / Math.sqrt(2 * Math.PI);
}

describe('comparing models', () => {
  it('quadratic against linear for the superalloy: twice the gain on one degree of freedom', () => {
    const fits = (['linear', 'quadratic'] as const).map((model) => valueOf(fitMaximumLikelihood(set('superalloy'), { model, life: 'weibull' })));
    const [linear, quadratic] = fits as [LineFit, LineFit];
    const test = compareNested(linear, quadratic);
    // From the log likelihoods of R: 2·(97.1547563940386 − 93.3818807631973).
    expect(test?.statistic).toBeCloseTo(7.5457512616826, 8);
    // Upper tail of χ² with 1 degree of freedom is twice that of the normal distribution.
    expect(test?.p).toBeCloseTo(2 * normalTail(Math.sqrt(7.5457512616826)), 10);
    expect(compareNested(quadratic, linear)).toBeNull();
  });
});

describe('limits of life and strength', () => {
  it('without runouts are those of least squares, once adjusted for a small sample', () => {
    const failed = column(table, 'invented-runouts-a', 'failed');
    const of = (name: string): readonly number[] => column(table, 'invented-runouts-a', name).filter((_, i) => failed[i] === 1);
    const broken = { stressMpa: of('stress_MPa'), cycles: of('cycles') };
    const [likelihood, squares] = [valueOf(fitMaximumLikelihood(broken)), valueOf(fitLeastSquares(broken))];
    for (const asked of [
      { kind: 'median', confidence: 0.95 }, { kind: 'band', confidence: 0.95 }, { kind: 'next', confidence: 0.95 },
      { kind: 'tolerance', share: 0.9, confidence: 0.95 }, { kind: 'first of several', several: 4, confidence: 0.95 },
    ] as const) {
      expect(lifeLimits(likelihood, 430, asked).lower).toBeCloseTo(lifeLimits(squares, 430, asked).lower ?? 0, 8);
      expect(lifeLimits(likelihood, 430, asked, 'large sample').lower ?? 0).toBeGreaterThan(lifeLimits(squares, 430, asked).lower ?? 0);
    }
    const adjusted = parameterLimits(likelihood, 0.95);
    for (const [i, { name, lo, hi }] of squares.parameters.entries()) {
      expect(adjusted.parameters[i]?.lo).toBeCloseTo(lo, 8);
      const profile = valueOf(profileLimits(broken, {}, { of: 'parameter', name }, 0.95, 'adjusted'));
      expect(profile.lower).toBeCloseTo(lo, 5);
      expect(profile.upper).toBeCloseTo(hi, 5);
    }
    expect(adjusted.s.lo).toBeCloseTo(squares.sLimits.lo, 10);
    expect(parameterLimits(squares, 0.95).s).toEqual(squares.sLimits);
    const own = parameterLimits(likelihood, 0.95, 'large sample');
    expect(own.s.hi).toBeCloseTo(likelihood.sLimits.hi, 12);
    expect(own.parameters[1]?.hi).toBeCloseTo(likelihood.parameters[1]?.hi ?? 0, 12);
  });
  const fit = valueOf(fitMaximumLikelihood(set('laminate-panel'), { life: 'weibull' }));
  it('the shortest of more specimens is shorter, and one is half of the two-sided next', () => {
    const lower = (several: number): number => lifeLimits(fit, 300, { kind: 'first of several', several, confidence: 0.95 }).lower ?? Number.NaN;
    expect(lower(1)).toBeCloseTo(lifeLimits(fit, 300, { kind: 'next', confidence: 0.9 }).lower ?? 0, 7);
    expect(lower(2)).toBeLessThan(lower(1));
    expect(lower(20)).toBeLessThan(lower(2));
  });
  it('the tolerance limit of strength survives the life asked for', () => {
    const asked = { kind: 'tolerance', share: 0.9, confidence: 0.95 } as const;
    const { lower } = valueOf(strengthLimits(fit, 2000, asked));
    expect(lifeLimits(fit, lower ?? 0, asked).lower).toBeCloseTo(Math.log10(2000), 9);
  });
});
