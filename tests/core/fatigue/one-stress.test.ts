import { describe, expect, it } from 'vitest';
import {
  fitOneStress, fitWeibullThreshold, lifeLimits, ONE_STRESS, parameterLimits, twoSidedToleranceFactor, type LifeDistribution, type LineFit, type LivesAtOneStress, type Outcome,
} from '../../../src/core/fatigue/index.ts';
import { createRandom, normalCumulative, normalQuantile, studentQuantile } from '../../../src/core/numeric/index.ts';
import { cases } from '../../sizes.ts';
import table from '../../tables/lives-at-one-stress.json' with { type: 'json' };
import { valueOf } from './table.ts';

const ABSORBERS: LivesAtOneStress = {
  cycles: table['shock absorbers'].rows.map(([km]) => km ?? 0),
  outcomes: table['shock absorbers'].rows.map(([, failed]): Outcome => (failed === 1 ? 'fracture' : 'suspended')),
};
const BEARINGS: LivesAtOneStress = { cycles: table['ball bearings'].lives };

const fitOf = (lives: LivesAtOneStress, life: LifeDistribution): LineFit => valueOf(fitOneStress(lives, life));
const off = (got: number | null | undefined, expected: number): number => Math.abs((got ?? Number.NaN) / expected - 1);

describe('textbook examples', () => {
  it('shock absorbers, 27 of 38 unbroken', () => {
    const { weibull, lognormal } = table['shock absorbers'];
    const one = fitOf(ABSORBERS, 'weibull');
    expect(off(10 ** (one.parameters[0]?.value ?? 0), weibull.eta)).toBeLessThan(1e-6);
    expect(off(one.s * Math.LN10, weibull.sigma)).toBeLessThan(1e-6);
    expect(off(one.logLikelihood, weibull.logLikelihood)).toBeLessThan(1e-9);
    const other = fitOf(ABSORBERS, 'lognormal');
    expect(off((other.parameters[0]?.value ?? 0) * Math.LN10, lognormal.mu)).toBeLessThan(1e-7);
    expect(off(other.s * Math.LN10, lognormal.sigma)).toBeLessThan(1e-6);
    expect(off(other.logLikelihood, lognormal.logLikelihood)).toBeLessThan(1e-9);
    // As printed.
    expect([Math.round(10 ** (one.parameters[0]?.value ?? 0)), (one.s * Math.LN10).toFixed(4), ((other.parameters[0]?.value ?? 0) * Math.LN10).toFixed(2), (other.s * Math.LN10).toFixed(3)])
      .toEqual([27719, '0.3164', '10.14', '0.530']);
  });

  it('ball bearings, with two parameters and with a threshold', () => {
    const expected = table['ball bearings'];
    const two = fitOf(BEARINGS, 'weibull');
    expect(off(10 ** (two.parameters[0]?.value ?? 0), expected['two parameters'].eta)).toBeLessThan(1e-8);
    expect(off(1 / (two.s * Math.LN10), expected['two parameters'].beta)).toBeLessThan(1e-8);
    expect(off(10 ** lifeLimits(two, ONE_STRESS, { kind: 'share', share: 0.9, confidence: 0.95 }).estimate, expected['two parameters'].B10)).toBeLessThan(1e-8);
    const three = valueOf(fitWeibullThreshold(BEARINGS));
    expect(off(three.threshold, expected.threshold.threshold)).toBeLessThan(1e-4);
    expect(off(three.shape, expected.threshold.beta)).toBeLessThan(1e-4);
    expect(off(three.characteristic, expected.threshold.threshold + expected.threshold.scale)).toBeLessThan(1e-5);
    expect(off(three.logLikelihood, expected.threshold.logLikelihood)).toBeLessThan(1e-9);
    const tenth = three.quantile(0.9);
    const [low = 0, high = 0] = expected.threshold.B10Limits;
    expect([off(tenth.estimate, expected.threshold.B10), off(tenth.lower, low), off(tenth.upper, high)].every((far) => far < 1e-4)).toBe(true);
    // The likelihood at no threshold and near the shortest life stays within what the limits allow below its top: the data bound it on neither side.
    expect(three.thresholdLimits).toEqual({ lower: null, upper: null });
    expect(three.p).toBeGreaterThan(0.05);
  });
});

describe('complete lognormal lives', () => {
  const lives = [41200, 52300, 61000, 75800, 80100, 122000];
  const logs = lives.map(Math.log10);
  const mean = logs.reduce((sum, y) => sum + y, 0) / logs.length;
  const sd = Math.sqrt(logs.reduce((sum, y) => sum + (y - mean) ** 2, 0) / (logs.length - 1));
  const fit = fitOf({ cycles: lives }, 'lognormal');

  it('have the limits of mean and standard deviation', () => {
    const t = studentQuantile(0.975, 5);
    const median = lifeLimits(fit, ONE_STRESS, { kind: 'median', confidence: 0.95 });
    expect(median.lower).toBeCloseTo(mean - (t * sd) / Math.sqrt(6), 10);
    const next = lifeLimits(fit, ONE_STRESS, { kind: 'next', confidence: 0.95 });
    expect(next.upper).toBeCloseTo(mean + t * sd * Math.sqrt(7 / 6), 10);
    // k = 3.006 for n = 6, 90 %, 95 %: one-sided factors of any table (as ISO 12107, Table B.1).
    const tolerance = lifeLimits(fit, ONE_STRESS, { kind: 'tolerance', share: 0.9, confidence: 0.95 });
    expect(Math.abs((mean - (tolerance.lower ?? 0)) / sd - 3.006)).toBeLessThan(0.001);
    const interval = lifeLimits(fit, ONE_STRESS, { kind: 'interval', share: 0.9, confidence: 0.95 });
    const k = twoSidedToleranceFactor(Math.sqrt(1 / 6), 5, 0.9, 0.95);
    expect([interval.lower, interval.upper].map((side) => (side ?? 0).toFixed(9))).toEqual([mean - k * sd, mean + k * sd].map((side) => side.toFixed(9)));
    expect(parameterLimits(fit, 0.95).parameters[0]?.lo).toBeCloseTo(median.lower ?? 0, 10);
  });
});

describe('two-sided tolerance factors', () => {
  it.each(table['two-sided tolerance factors'].rows)('root %f, %d degrees of freedom, %f held with %f: %f', (root, dof, share, confidence, k) => {
    expect(off(twoSidedToleranceFactor(root, dof, share, confidence), k)).toBeLessThan(1e-7);
  });
});

/** Share of samples for which a limit holds, by simulation. */
function coverageOf(runs: number, sample: () => LivesAtOneStress, isInside: (lives: LivesAtOneStress) => boolean): number {
  let inside = 0;
  for (let run = 0; run < runs; run++) inside += isInside(sample()) ? 1 : 0;
  return inside / runs;
}

describe('how often limits hold (simulation, fixed seed)', () => {
  const runs = cases(2000);
  const spread = 4 * Math.sqrt((0.95 * 0.05) / runs);

  it('an interval of complete lognormal lives holds its share with its confidence', () => {
    const random = createRandom(61);
    const inside = coverageOf(runs, () => ({ cycles: Array.from({ length: 8 }, () => 10 ** (5 + 0.2 * normalQuantile(random.uniform()))) }), (lives) => {
      const { lower, upper } = lifeLimits(fitOf(lives, 'lognormal'), ONE_STRESS, { kind: 'interval', share: 0.9, confidence: 0.95 });
      return normalCumulative(((upper ?? 0) - 5) / 0.2) - normalCumulative(((lower ?? 0) - 5) / 0.2) >= 0.9;
    });
    expect(Math.abs(inside - 0.95)).toBeLessThan(spread);
  });

  it('the life that 90 % of Weibull lives exceed, a fifth of the tests unbroken', () => {
    const random = createRandom(62);
    const [shape, end] = [2.5, 1e5 * Math.log(5) ** (1 / 2.5)];
    const truth = 1e5 * (-Math.log(0.9)) ** (1 / shape);
    const sample = (): LivesAtOneStress => {
      const lives = Array.from({ length: 15 }, () => 1e5 * (-Math.log(random.uniform())) ** (1 / shape));
      return { cycles: lives.map((life) => Math.min(life, end)), outcomes: lives.map((life): Outcome => (life > end ? 'runout' : 'fracture')) };
    };
    const inside = coverageOf(runs, sample, (lives) => {
      const { lower } = lifeLimits(fitOf(lives, 'weibull'), ONE_STRESS, { kind: 'tolerance', share: 0.9, confidence: 0.95 });
      return 10 ** (lower ?? 0) <= truth;
    });
    expect(inside).toBeGreaterThan(0.95 - spread);
    expect(inside).toBeLessThan(0.975 + spread);
  });
});

describe('what can’t be told', () => {
  it('too few, none broken, all alike', () => {
    const codeOf = (lives: LivesAtOneStress, life: LifeDistribution): string => {
      const fit = fitOneStress(lives, life);
      return fit.ok ? '' : fit.problem.code;
    };
    expect(codeOf({ cycles: [1e5] }, 'weibull')).toBe('specimens-too-few');
    expect(codeOf({ cycles: [1e5, 2e5], outcomes: ['runout', 'runout'] }, 'lognormal')).toBe('all-runouts');
    expect(['scatter-not-found', 'fit-not-converged']).toContain(codeOf({ cycles: [1e5, 1e5, 1e5] }, 'lognormal'));
    expect(['scatter-not-found', 'fit-not-converged']).toContain(codeOf({ cycles: [1e5, 1e5, 1e5] }, 'weibull'));
  });

  it('a threshold of few specimens, of none, and where the likelihood has no bound', () => {
    const codeOf = (cycles: readonly number[]): string => {
      const fit = fitWeibullThreshold({ cycles });
      return fit.ok ? '' : fit.problem.code;
    };
    expect(codeOf([1e5, 2e5, 3e5, 4e5])).toBe('threshold-few');
    // Lives of a left-leaning law: the threshold would lie below zero.
    expect(codeOf([20, 60, 80, 90, 95, 98, 100, 101])).toBe('threshold-none');
    // Most lives crowd at the shortest: the shape falls below one before the likelihood has a top.
    expect(codeOf([100, 100.5, 101, 103, 110, 140, 300, 900])).toBe('threshold-unbounded');
  });
});
