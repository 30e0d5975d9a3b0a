import { describe, expect, it } from 'vitest';
import { analyseStaircase, nextTest, settableStep, type Outcome, type Staircase, type StaircaseOptions, type StaircaseTests } from '../../../src/core/fatigue/index.ts';
import { countingCovariance } from '../../../src/core/fatigue/counting-errors.ts';
import table from '../../tables/staircase.json' with { type: 'json' };
import { caseOf, codeOf, column, valueOf } from './table.ts';

function tests(data: string, level: string): StaircaseTests {
  return { levels: column(table, data, level), outcomes: column(table, data, 'failed').map((one): Outcome => (one === 1 ? 'fracture' : 'runout')) };
}
const analyse = (data: string, level: string, options: StaircaseOptions = {}): Staircase => valueOf(analyseStaircase(tests(data, level), options));
const codes = ({ warnings }: Staircase): readonly string[] => warnings.map(({ code }) => code);
const run = (levels: readonly number[], marks: string): StaircaseTests =>
  ({ levels, outcomes: [...marks].map((mark): Outcome => (mark === 'x' ? 'fracture' : mark === 'o' ? 'runout' : 'suspended')) });

describe('published staircases (Gorla et al. 2017)', () => {
  it('15 gears: the printed mean comes from counting fractures, the strict rule counts runouts', () => {
    const printed = caseOf(table, 'stair-gorla-951');
    const fractures = analyse('gorla-951', 'load_kN', { count: 'fracture' }).counted;
    expect(printed.missed('mean_from_failures', fractures.mean)).toEqual([]);
    expect(printed.missed('sd_from_failures', fractures.sd)).toEqual([]);
    const { counted, probit } = analyse('gorla-951', 'load_kN');
    expect(counted.event).toBe('runout');
    for (const [name, value] of [
      ['mean_less_frequent', counted.mean], ['sd_less_frequent', counted.sd], ['A', counted.A], ['B', counted.B], ['n', counted.n],
      ['ml_mu', probit?.mu ?? 0], ['ml_sigma', probit?.sigma ?? 0], ['ml_loglik', probit?.logLikelihood ?? 0],
    ] as const) expect(printed.missed(name, value)).toEqual([]);
  });
  it('15 gears: the printed standard error of the mean, 0.62 kN, by the chart’s factor for that step', () => {
    // Gorla et al. (2017), Table 9. The chart of Dixon and Mood is not at hand; its factor follows from their large-sample theory.
    const { errors } = analyse('gorla-951', 'load_kN', { count: 'fracture' }).counted;
    expect(errors?.seMean).toBeGreaterThan(0.615);
    expect(errors?.seMean).toBeLessThan(0.625);
    // computed with numpy 2.4 and scipy.stats.norm from the stationary distribution of the levels
    expect(errors?.seMean).toBeCloseTo(0.61693972, 7);
  });
  it('13 gears: mean of the levels from the first change on, the next one included', () => {
    const printed = caseOf(table, 'stair-gorla-751');
    const { counted, probit, meanOfLevels, nextLevel } = analyse('gorla-751', 'load_kN');
    expect(nextLevel).toBe(41);
    for (const [name, value] of [
      ['mean_brownlee', meanOfLevels], ['dixon_mood_mean', counted.mean], ['dixon_mood_sd', counted.sd], ['D', counted.spread],
      ['ml_mu', probit?.mu ?? 0], ['ml_sigma', probit?.sigma ?? 0],
    ] as const) expect(printed.missed(name, value)).toEqual([]);
  });
});

describe('invented staircases', () => {
  it('30 tests: counting, lower limit and probit (R)', () => {
    const expected = caseOf(table, 'stair-invented-a');
    const { counted, factorLimit, probit, fractures, runouts } = analyse('invented-staircase-a', 'stress_MPa');
    expect([counted.event, fractures, runouts]).toEqual(['runout', 16, 14]);
    const [mu, sigma] = [probit?.mu ?? 0, probit?.sigma ?? 1];
    for (const [name, value] of [
      ['S0', counted.lowest], ['n', counted.n], ['A', counted.A], ['B', counted.B], ['D', counted.spread], ['mean', counted.mean],
      ['sd', counted.sd], ['k_90_95', factorLimit?.k ?? 0], ['lower_90_95', factorLimit?.value ?? 0], ['ml_mu', mu], ['ml_sigma', sigma],
      ['ml_se_mu', probit?.seMu ?? 0], ['ml_se_sigma', probit?.seSigma ?? 0], ['ml_loglik', probit?.logLikelihood ?? 0],
      ['ml_probit_intercept', -mu / sigma], ['ml_probit_slope', 1 / sigma],
    ] as const) expect(expected.missed(name, value)).toEqual([]);
  });
  it('levels too close together for the formula', () => {
    const expected = caseOf(table, 'stair-narrow');
    const narrow = analyse('invented-staircase-narrow', 'stress_MPa');
    expect(expected.missed('D', narrow.counted.spread)).toEqual([]);
    expect(expected.missed('mean', narrow.counted.mean)).toEqual([]);
    expect(expected.missed('sd_fallback', narrow.counted.sd)).toEqual([]);
    expect(narrow.counted.formulaHolds).toBe(false);
    expect(codes(narrow)).toContain('staircase-spread-small');
  });
  it('fractures all above runouts: no likelihood estimate, in words', () => {
    const expected = caseOf(table, 'stair-separated');
    const apart = analyse('invented-staircase-separated', 'stress_MPa');
    expect(apart.probit).toBeNull();
    expect(expected.missed('mean', apart.counted.mean)).toEqual([]);
    expect(expected.missed('sd_fallback', apart.counted.sd)).toEqual([]);
    expect(apart.warnings.find(({ code }) => code === 'staircase-separated')?.what).toContain('runouts up to 350, fractures from 360');
  });
});

describe('the next test', () => {
  it('follows from the last test that counts', () => {
    expect(nextTest(run([300], 'x'), { step: 10 })).toEqual({ level: 290, step: 10, row: 0, from: 300, after: 'fracture' });
    expect(nextTest(run([300, 310, 300], 'oxo'))).toMatchObject({ level: 310, step: 10, row: 2 });
    // A test stopped early decides nothing: its level is to be tested again.
    expect(nextTest(run([300, 310], 'o?'), { step: 10 })).toMatchObject({ level: 310, row: 0 });
  });
  it('is not known without a step or a test, nor below zero', () => {
    expect(nextTest(run([300], 'x'))).toBeNull();
    expect(nextTest(run([300, 300], 'xx'))).toBeNull();
    expect(nextTest(run([], ''), { step: 10 })).toBeNull();
    expect(nextTest(run([8], 'x'), { step: 10 })).toBeNull();
  });
});

describe('the step that a machine can set', () => {
  it.each([
    // wanted, smallest, set: by hand. Of two as near the smaller; never none.
    [10, 0, 10], [10, 10, 10], [10, 4, 8], [10, 3, 9], [11, 4, 12], [10, 2.5, 10], [6, 4, 4], [3, 4, 4], [1, 40, 40], [0.3, 0.1, 0.3], [0.7, 0.1, 0.7], [0.15, 0.1, 0.1], [10, 1e-320, 10],
  ])('%s in steps of %s is %s', (wanted, smallest, set) => {
    expect(settableStep(wanted, smallest)).toBe(set);
  });
  it('is the same up and down: after a fracture and a runout one is at the same level again', () => {
    const step = settableStep(10, 3.7);
    const down = nextTest(run([300], 'x'), { step })?.level ?? 0;
    expect(nextTest(run([300, down], 'xo'), { step })?.level).toBeCloseTo(300, 9);
  });
});

describe('levels that the machine can set', () => {
  // By hand: a bench with five gears, not equally far apart.
  const settable = [210, 224, 231, 245, 262];
  it.each([
    // Tested, what became of it, step, next: the one nearest to a step away among those on that side; of two as near the smaller move.
    [[231], 'x', 10, 224], [[231], 'o', 10, 245], [[245], 'o', 10, 262], [[245], 'x', 10, 231], [[245], 'x', 21, 224], [[231], 'x', 14, 224],
    [[245], 'o', 30, 262], [[224], 'x', 1, 210],
    // Measured a little off the level that was set: it is the same level.
    [[231.4], 'x', 10, 224], [[230.6], 'o', 10, 245],
    // A first test between two of them.
    [[238], 'x', 5, 231],
  ] as const)('%s %s, step %s: %s', (levels, outcomes, step, next) => {
    expect(nextTest(run([...levels], outcomes), { step, settable })).toMatchObject({ level: next, row: levels.length - 1 });
  });
  it('without a step the neighbour, and no test without a level that way', () => {
    expect(nextTest(run([231], 'x'), { settable })?.level).toBe(224);
    expect(nextTest(run([231], 'o'), { settable })?.level).toBe(245);
    expect(nextTest(run([210], 'x'), { step: 10, settable })).toBeNull();
    expect(nextTest(run([262], 'o'), { settable })).toBeNull();
    expect(nextTest(run([200], 'o'), { settable: [200] })).toBeNull();
  });
  it('the order and repetition of the list say nothing', () => {
    expect(nextTest(run([245], 'x'), { step: 10, settable: [262, 224, 210, 245, 231] })?.level).toBe(231);
  });
  it('unequal levels are told, the rule is judged by the list, and maximum likelihood is what it is without it', () => {
    const tests = run([231, 245, 262, 245, 231, 224, 231, 245, 231, 245], 'ooxxxooxox');
    const listed = valueOf(analyseStaircase(tests, { step: 10, settable }));
    const codes = listed.warnings.map(({ code }) => code);
    expect(codes).toContain('staircase-unequal');
    expect(codes).not.toContain('staircase-off-steps');
    expect(codes).not.toContain('staircase-wrong-move');
    expect(listed.warnings.find(({ code }) => code === 'staircase-unequal')?.what).toContain('7 to 17 apart');
    // Mean distance of 224, 231, 245 and 262.
    expect(listed.step).toBeCloseTo(38 / 3, 12);
    const plain = valueOf(analyseStaircase(tests, { step: 10 }));
    expect(plain.probit).not.toBeNull();
    expect(listed.probit?.mu).toBeCloseTo(plain.probit?.mu ?? 0, 6);
    expect(listed.probit?.sigma).toBeCloseTo(plain.probit?.sigma ?? 0, 6);
  });
  it('a jump past a level of the list breaks the rule', () => {
    const tests = run([231, 262, 245], 'oxo');
    expect(valueOf(analyseStaircase(tests, { step: 10, settable })).warnings.map(({ code }) => code)).toContain('staircase-wrong-move');
  });
  it('a list of equal steps is as the step itself', () => {
    const tests = run([300, 290, 300, 290, 280, 290], 'xoxxox');
    const listed = valueOf(analyseStaircase(tests, { step: 10, settable: [270, 280, 290, 300, 310] }));
    expect(listed).toEqual(valueOf(analyseStaircase(tests, { step: 10 })));
  });
});

describe('standard errors of counting', () => {
  it.each([
    // step, G, H with a level at the mean, then with the mean midway: computed with numpy 2.4 and scipy.stats.norm. Dixon and
    // Mood's charts have G near 0.94, 1.00 and 1.15 at 0.5, 1 and 2 (from memory).
    [0.5, 0.94118318, 1.7520415, 0.94118318, 1.7520415],
    [1, 1.00406603, 1.3836573, 1.00404165, 1.38565912],
    [2, 1.15219608, 1.38057057, 1.14643908, 1.12309896],
  ])('step of %s standard deviations', (step, G, H, midG, midH) => {
    const factors = (offset: number): number[] => (countingCovariance(step, offset) ?? []).map((row, i) => Math.sqrt(row[i] ?? 0));
    for (const offset of [0, 3 * step]) {
      expect(factors(offset)[0]).toBeCloseTo(G, 7);
      expect(factors(offset)[1]).toBeCloseTo(H, 6);
    }
    expect(factors(step / 2)[0]).toBeCloseTo(midG, 7);
    expect(factors(step / 2)[1]).toBeCloseTo(midH, 6);
  });
  it('a wild table costs no time', () => {
    const started = performance.now();
    expect(valueOf(analyseStaircase(run([1, 2, 1, 1e9], 'oxox'))).counted.errors).not.toBeNull();
    expect(performance.now() - started).toBeLessThan(500);
  });
});

describe('the rule of the staircase', () => {
  it('goes down a step after a fracture and up one after a runout', () => {
    expect(valueOf(analyseStaircase(run([300, 310, 300], 'oxo'))).nextLevel).toBe(310);
    expect(valueOf(analyseStaircase(run([300, 310, 300], 'oxx'))).nextLevel).toBe(290);
  });
  it('a wrong move and a level between the steps are named by row', () => {
    const wrong = valueOf(analyseStaircase(run([300, 310, 320, 310], 'oxxo')));
    expect(wrong.warnings.find(({ code }) => code === 'staircase-wrong-move')?.what).toContain('row 3');
    const between = valueOf(analyseStaircase(run([300, 310, 305, 310], 'oxox'), { step: 10 }));
    expect(between.warnings.find(({ code }) => code === 'staircase-off-steps')?.what).toContain('row 3');
  });
  it('a suspended test is left out and told of', () => {
    const { tests: used, warnings } = valueOf(analyseStaircase(run([300, 310, 300, 310], 'ox?o')));
    expect(used).toBe(3);
    expect(warnings.map(({ code }) => code)).toContain('staircase-suspended');
  });
  it('a step far from the standard deviation is unsuitable', () => {
    const fine = Array.from({ length: 40 }, (_, i) => 300 + 10 * ([0, 1, 2, 3, 4, 5, 4, 3, 2, 1].at(i % 10) ?? 0));
    const marks = Array.from({ length: 40 }, (_, i) => (i % 10 < 5 ? 'o' : 'x')).join('');
    expect(codes(valueOf(analyseStaircase(run(fine, marks))))).toContain('staircase-step');
  });
  it('few tests are told of', () => {
    expect(codes(valueOf(analyseStaircase(run([300, 310, 300], 'oxo'))))).toContain('staircase-few');
  });
});

describe('what can’t be worked out', () => {
  it.each([
    ['no test', run([], ''), 'staircase-too-short'],
    ['one test', run([300], 'x'), 'staircase-too-short'],
    ['only fractures', run([300, 290, 280], 'xxx'), 'staircase-one-outcome'],
    ['only runouts', run([300, 310], 'oo'), 'staircase-one-outcome'],
    ['one level', run([300, 300], 'xo'), 'staircase-one-level'],
    ['no level', run([300, Number.NaN], 'xo'), 'staircase-level'],
  ])('%s', (_what, input, code) => {
    expect(codeOf(analyseStaircase(input))).toBe(code);
  });
});
