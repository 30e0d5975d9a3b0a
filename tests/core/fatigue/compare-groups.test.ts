import { describe, expect, it } from 'vitest';
import { compareGroups, compareLives, compareStrengths, fitLeastSquares, fitMaximumLikelihood, type GroupTest, type Specimens } from '../../../src/core/fatigue/index.ts';
import { studentQuantile } from '../../../src/core/numeric/index.ts';
import data from '../../tables/censored-regression.json' with { type: 'json' };
import table from '../../tables/compare-groups.json' with { type: 'json' };
import { codeOf, specimensOf, valueOf } from './table.ts';

const all = specimensOf(data, 'invented-runouts-a', 'stress_MPa', 'cycles', 'failed');
function everySecond(from: 0 | 1): Specimens {
  const rows = Array.from(all.stressMpa).flatMap((_, i) => (i % 2 === from ? [i] : []));
  return {
    stressMpa: rows.map((i) => all.stressMpa[i] ?? 0),
    cycles: rows.map((i) => all.cycles[i] ?? 0),
    outcomes: rows.map((i) => all.outcomes?.[i] ?? 'invalid'),
  };
}
const groups = [everySecond(0), everySecond(1)] as const;
const names = ['commonAgainstSeparate', 'parallelAgainstSeparate', 'commonAgainstParallel'] as const;
const near = (got: number, wanted: number, relative: number): void => expect(Math.abs(got - wanted)).toBeLessThanOrEqual(relative * Math.abs(wanted));

describe('one line or several', () => {
  it('least squares: F as computed independently', () => {
    const comparison = valueOf(compareGroups(groups));
    for (const name of names) {
      const [statistic = 0, df1, df2, p = 0] = table.tests['least squares'][name];
      const test: GroupTest = comparison[name];
      near(test.statistic, statistic, 1e-7);
      near(test.p, p, 1e-7);
      expect([test.df1, test.df2]).toEqual([df1, df2]);
    }
    near(comparison.s, table.tests['least squares'].s, 1e-10);
  });
  it.each(['lognormal', 'weibull'] as const)('likelihood ratio as computed independently (%s)', (life) => {
    const comparison = valueOf(compareGroups(groups, { method: 'maximum-likelihood', life }));
    for (const name of names) {
      const [statistic = 0, df, p = 0] = table.tests[life][name];
      near(comparison[name].statistic, statistic, 1e-6);
      near(comparison[name].p, p, 1e-6);
      expect([comparison[name].df1, comparison[name].df2]).toEqual([df, null]);
    }
  });
  it('a group against itself at ten times the life: the same slope, not the same line', () => {
    const longer = { ...groups[0], cycles: Array.from(groups[0].cycles, (n) => n * 10) };
    const { commonAgainstParallel, parallelAgainstSeparate } = valueOf(compareGroups([groups[0], longer]));
    expect(commonAgainstParallel.p).toBeLessThan(1e-4);
    expect(parallelAgainstSeparate.statistic).toBeLessThan(1e-12);
    expect(parallelAgainstSeparate.p).toBeGreaterThan(0.999);
  });
  it('says which group is too small', () => {
    expect(codeOf(compareGroups([groups[0], { stressMpa: [400], cycles: [1e5] }]))).toBe('specimens-too-few');
    expect(codeOf(compareGroups([groups[0], { stressMpa: [400, 400, 400], cycles: [1e5, 2e5, 1e5] }]))).toBe('levels-too-few');
  });
});

describe('differences between two lines', () => {
  const own = valueOf(fitLeastSquares(groups[0]));
  it('of a line with itself is none, with √2 times its own doubt', () => {
    const lives = valueOf(compareLives(own, own, 450));
    expect(lives.ratio).toBe(1);
    expect(lives.degreesOfFreedom).toBeCloseTo(2 * (own.degreesOfFreedom ?? 0), 10);
    const [[vaa = 0, vab = 0] = [], [, vbb = 0] = []] = own.covariance;
    const x = Math.log10(450);
    const se = Math.sqrt(2 * (vaa + 2 * x * vab + x * x * vbb));
    expect(lives.seLog10).toBeCloseTo(se, 10);
    expect(Math.log10(lives.upper)).toBeCloseTo(se * studentQuantile(0.975, lives.degreesOfFreedom ?? 0), 10);
  });
  it('ten times the life is ten times at every stress, and 10^(−1/B) in strength', () => {
    const longer = valueOf(fitLeastSquares({ ...groups[0], cycles: Array.from(groups[0].cycles, (n) => n * 10) }));
    expect(valueOf(compareLives(longer, own, 420)).ratio).toBeCloseTo(10, 8);
    expect(valueOf(compareStrengths(longer, own, 1e6)).ratio).toBeCloseTo(10 ** (-1 / (own.parameters[1]?.value ?? 0)), 8);
  });
  it('uses the normal distribution between likelihood fits', () => {
    const fits = groups.map((group) => valueOf(fitMaximumLikelihood(group)));
    const [first = own, second = own] = fits;
    const strengths = valueOf(compareStrengths(first, second, 1e6));
    expect(strengths.degreesOfFreedom).toBeNull();
    expect(Math.log10(strengths.upper) - strengths.log10).toBeCloseTo(1.959963984540054 * strengths.seLog10, 10);
  });
});
