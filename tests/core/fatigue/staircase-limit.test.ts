/** The lower limit of a staircase: its sums against an independent calculation, how often it holds, and where there is none. */
import { describe, expect, it } from 'vitest';
import { analyseStaircase, coverageOfStaircase, type Outcome, type Staircase } from '../../../src/core/fatigue/index.ts';
import { normalCumulative, normalQuantile } from '../../../src/core/numeric/index.ts';
import { Tally } from '../../bench/coverage-study.ts';
import { analyser, staircasesOf, tallyStaircase, type Asked, type StaircaseSetting } from '../../bench/staircase-study.ts';
import { valueOf } from './table.ts';

interface Tests {
  readonly levels: readonly number[];
  readonly outcomes: readonly Outcome[];
}

const run = (levels: readonly number[], marks: string): Tests =>
  ({ levels, outcomes: [...marks].map((mark): Outcome => (mark === 'x' ? 'fracture' : 'runout')) });
const analyse = (tests: Tests, step?: number, share = 0.9, confidence = 0.95): Staircase =>
  valueOf(analyseStaircase(tests, { ...(step === undefined ? {} : { step }), share, confidence }));
/** The staircase sheet's example. */
const EXAMPLE = run([300, 290, 280, 290, 300, 290, 300, 290, 280, 270, 280, 290, 300, 310, 300, 290, 280, 290], 'xxooxoxxxooooxxxox');

/** The weights summed over a plain grid: strengths by a sixteenth of a step, 60 standard deviations. */
function byGrid({ levels, outcomes }: Tests, step: number, share: number, confidence: number): number {
  const z = normalQuantile(share);
  const from = Math.min(...levels) - 34 * step;
  const sums = Array<number>(900).fill(0);
  const logs = 60;
  for (let k = 0; k < logs; k++) {
    const sigma = step * Math.exp(Math.log(1 / 8) + ((k + 0.5) / logs) * Math.log(32));
    for (let i = 0; i < sums.length; i++) {
      const mu = from + (i + 0.5) * (step / 16) + z * sigma;
      const likelihood = levels.reduce((product, level, test) => product * normalCumulative((outcomes[test] === 'fracture' ? 1 : -1) * ((level - mu) / sigma)), 1);
      sums[i] = (sums[i] ?? 0) + likelihood;
    }
  }
  const wanted = (1 - confidence) * sums.reduce((a, b) => a + b, 0);
  let below = 0;
  const place = sums.findIndex((sum) => (below += sum) >= wanted);
  return from + (place + 1 - (below - wanted) / (sums[place] ?? 1)) * (step / 16);
}

describe('the sums behind the limit', () => {
  it('of the example: computed with numpy 2.4 and scipy.stats.norm, 1201 standard deviations by 26001 strengths', () => {
    const { lowerLimit, median } = analyse(EXAMPLE, 10);
    expect(lowerLimit).toBeCloseTo(234.7255, 3);
    expect(median?.[0]).toBeCloseTo(271.9843, 3);
    expect(median?.[1]).toBeCloseTo(300.2716, 3);
  });
  it('of three levels, of fractures all above runouts, and for other shares, over a plain grid', () => {
    for (const [tests, share, confidence] of [
      [run([300, 310, 300, 310, 320, 310], 'oxooxx'), 0.9, 0.95],
      [run([300, 310, 300, 310, 300, 310], 'oxoxox'), 0.9, 0.95],
      [EXAMPLE, 0.99, 0.5],
    ] as const) expect(analyse(tests, 10, share, confidence).lowerLimit).toBeCloseTo(byGrid(tests, 10, share, confidence), 1);
  });
  it('do not hang on unit, on the order of the tests or on which outcome is called which', () => {
    const { lowerLimit, median } = analyse(EXAMPLE, 10);
    const inKilo = analyse({ ...EXAMPLE, levels: EXAMPLE.levels.map((level) => level / 1000) }, 0.01);
    expect(1000 * (inKilo.lowerLimit ?? 0)).toBeCloseTo(lowerLimit ?? 0, 6);
    const back = analyse({ levels: [...EXAMPLE.levels].reverse(), outcomes: [...EXAMPLE.outcomes].reverse() }, 10);
    expect(back.lowerLimit).toBeCloseTo(lowerLimit ?? 0, 9);
    const upsideDown = analyse({ levels: EXAMPLE.levels.map((level) => 1000 - level), outcomes: EXAMPLE.outcomes.map((one) => (one === 'fracture' ? 'runout' : 'fracture')) }, 10);
    expect(upsideDown.median?.[0]).toBeCloseTo(1000 - (median?.[1] ?? 0), 6);
  });
  it('of very many tests come to what maximum likelihood says', () => {
    const next = staircasesOf({ tests: 4000, ratio: 1 }, 3);
    const { probit, median, lowerLimit } = analyse(next(), 1);
    const [mu, sigma, se] = [probit?.mu ?? 0, probit?.sigma ?? 0, probit?.seMu ?? 0];
    expect(median?.[0]).toBeCloseTo(mu - 1.96 * se, 2);
    expect(median?.[1]).toBeCloseTo(mu + 1.96 * se, 2);
    const z = normalQuantile(0.9);
    const [[a = 0, b = 0] = [], [, c = 0] = []] = probit?.covariance ?? [];
    expect(lowerLimit).toBeCloseTo(mu - z * sigma - 1.645 * Math.sqrt(a - 2 * z * b + z * z * c), 1);
  });
});

describe('how often it holds', () => {
  const ASKED: readonly Asked[] = [[0.9, 0.95], [0.9, 0.99]];
  const REPETITIONS = 60;
  const tallied = (setting: StaircaseSetting, seed: number): Tally => {
    const tally = new Tally();
    const [next, work] = [staircasesOf(setting, seed), analyser(ASKED)];
    for (let i = 0; i < REPETITIONS; i++) {
      const sampled = next();
      tallyStaircase(work(sampled), sampled, setting, ASKED, tally);
    }
    return tally;
  };
  // 60 staircases: standard error 2.8 at 95.
  it('with 12 tests and steps of half a standard deviation, where the usual factor held in some 70 of 100', () => {
    const tally = tallied({ tests: 12, ratio: 0.5 }, 1);
    expect(tally.percent('90/95')).toBeGreaterThan(87);
    expect(tally.percent('90/99')).toBeGreaterThan(95);
    expect(tally.percent('S_50 counted')).toBeGreaterThan(87);
    expect(tally.percent('factor')).toBeLessThan(82);
    expect(tally.percent('S_50 counted, 1.96 u')).toBeLessThan(84);
  });
  it('with 18 tests and steps of 0.8', () => {
    const tally = tallied({ tests: 18, ratio: 0.8 }, 2);
    expect(tally.percent('90/95')).toBeGreaterThan(87);
    expect(tally.percent('90/99')).toBeGreaterThan(95);
    expect(tally.percent('S_50 likelihood')).toBeGreaterThan(87);
    expect(tally.percent('factor')).toBeLessThan(88);
  });
  it('is told by the number of tests, and not below the fewest that were simulated', () => {
    expect(coverageOfStaircase(5)).toBeUndefined();
    for (const tests of [8, 12, 13, 18, 40, 500]) {
      const { limit, factor } = coverageOfStaircase(tests) ?? { limit: [0, 0], factor: [0, 0] };
      expect(limit[0]).toBeGreaterThan(92);
      expect(limit[1]).toBeLessThan(100.1);
      expect(factor[0]).toBeLessThan(84);
    }
  });
});

describe('where there is none', () => {
  it('outcomes a thousand million steps apart, and more than 100 levels', () => {
    expect(analyse(run([1, 2, 1, 1e9], 'xxxo'), 1).lowerLimit).toBeNull();
    expect(analyse(run([1, 2, 1, 1e9], 'oxox'), 1).lowerLimit).not.toBeNull();
    expect(analyse(run([1, 2, 1, 1e9], 'ooox'), 1).lowerLimit).toBeNull();
    const many = Array.from({ length: 250 }, (_, i) => 300 + 10 * i);
    expect(analyse(run(many, 'ox'.repeat(125)), 10).lowerLimit).toBeNull();
  });
});
