import { describe, expect, it } from 'vitest';
import { coverageInterval, numericalTolerance, standardUncertainty, telling, validateFirstOrder, type Estimate } from '../../src/core/estimate/index.ts';
import { blockMaker } from '../../src/graph/along/index.ts';
import { createSheetGraph, samplingRequest, startSampling, type SampledResult, type SamplingRequest } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { example } from '../core/estimate/table.ts';
import { shipped } from '../shipped.ts';

// Worked examples through a document's text, the sheet and its samples; sources in tests/tables/uncertainty.json and beside each test.

const given = (symbol: string, text: string, more = 'possible: any'): string =>
  ['```given', `symbol: ${symbol}`, `value: "${text}"`, 'unit: "1"', more, '```', ''].join('\n');
const step = (symbol: string, formula: string): string => ['```step', `symbol: ${symbol}`, `formula: "${formula}"`, 'unit: "1"', '```', ''].join('\n');

interface Sampled {
  readonly first: Estimate;
  readonly sampled: SampledResult;
  readonly request: SamplingRequest;
}

async function sample(text: string, symbol: string, asked: Partial<Pick<SamplingRequest, 'seed' | 'digits' | 'count'>> = {}): Promise<Sampled> {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  const request = samplingRequest(graph.compiled(), states, symbol, { seed: 20261125, digits: 2, ...asked });
  graph.dispose();
  const state = states.symbol(symbol);
  if (state?.status !== 'value') throw new Error(`${symbol}: ${JSON.stringify(state)}`);
  return { first: state.estimate, sampled: toItsEnd(request), request };
}

function toItsEnd(request: SamplingRequest): SampledResult {
  const sampling = startSampling(request);
  while (sampling.advance());
  return sampling.result();
}

function summaryOf({ sampled }: Sampled) {
  if (sampled.summary === undefined) throw new Error('nothing drawn');
  return sampled.summary;
}

/** Clause 8: the first-order interval against that of the samples. */
function validated(one: Sampled, digits: 1 | 2 = one.sampled.digits) {
  const summary = summaryOf(one);
  return validateFirstOrder(coverageInterval(one.first), summary, numericalTolerance(telling(summary, one.sampled.settling).size, digits));
}

const sum = (spread: string, last: string): string =>
  [1, 2, 3].map((i) => given(`X_${i}`, spread)).join('') + given('X_4', last) + step('Y', 'X_1 + X_2 + X_3 + X_4');

describe('JCGM 101:2008, examples of clause 9, through a sheet', () => {
  it('9.2.2: four normal quantities; the adaptive procedure ends near the million draws that the example took', async () => {
    const of = example('unc-jcgm101-additive');
    const one = await sample(sum('0 ± 1', '0 ± 1'), 'Y');
    const { low, high, standardDeviation, shortest } = summaryOf(one);
    expect(of.missed('u_a', standardDeviation)).toEqual([]);
    expect(of.missed('half_a', (high - low) / 2, [0.012])).toEqual([]);
    expect(of.missed('half_a', (shortest.high - shortest.low) / 2, [0.03])).toEqual([]);
    // δ = 0.05 for u = 2.0 with two digits; the example's adaptive run, held to δ/5, took 1.23 million samples (from memory).
    expect(numericalTolerance(standardDeviation, 2)).toBe(0.05);
    expect(one.sampled).toMatchObject({ ended: 'steady', withoutValue: 0, settling: 'all' });
    expect(one.sampled.count).toBeGreaterThan(0.8e6);
    expect(one.sampled.count).toBeLessThan(1.8e6);
    expect(validated(one).holds).toBe(true);
  });

  it('9.2.3 and 9.2.4: rectangular quantities, and one that dominates, where first order fails', async () => {
    const of = example('unc-jcgm101-additive');
    const alike = await sample(sum('0 ± 1.7320508075688772 limit', '0 ± 1.7320508075688772 limit'), 'Y');
    expect(of.missed('half_b_mcm', (summaryOf(alike).high - summaryOf(alike).low) / 2, [0.015])).toEqual([]);
    expect(of.missed('half_b_gum', coverageInterval(alike.first).high)).toEqual([]);
    const dominated = await sample(sum('0 ± 1.7320508075688772 limit', '0 ± 17.320508075688772 limit'), 'Y', { count: 1_000_000 });
    expect(of.missed('u_c', summaryOf(dominated).standardDeviation, [0.02])).toEqual([]);
    expect(of.missed('half_c_gum', coverageInterval(dominated.first).high)).toEqual([]);
    expect(of.missed('half_c_mcm', (summaryOf(dominated).high - summaryOf(dominated).low) / 2, [0.03])).toEqual([]);
    const { holds, lowApart, highApart, tolerance } = validated(dominated);
    expect(holds).toBe(false);
    expect(tolerance).toBe(0.5);
    // 19.9 − 17.0, exact 2.8756; chance moves an end of a million samples by 0.005 (√(p(1 − p)/n) over the density there).
    expect(Math.abs(lowApart - 2.8756)).toBeLessThan(0.025);
    expect(Math.abs(highApart - 2.8756)).toBeLessThan(0.025);
  });

  it('9.3: mass calibration, not validated', async () => {
    const of = example('unc-jcgm101-mass');
    const one = await sample(
      given('m_R', '100000 ± 0.05') + given('dm_R', '1.234 ± 0.02') + given('rho_a', '1.2 ± 0.1 limit') + given('rho_W', '8000 ± 1000 limit')
      + given('rho_R', '8000 ± 50 limit') + step('dm', '(m_R + dm_R)*(1 + (rho_a - 1.2)*(1/rho_W - 1/rho_R)) - 100000'), 'dm');
    const { mean, standardDeviation, low, high, shortest } = summaryOf(one);
    expect(of.missed('mean', mean)).toEqual([]);
    expect(of.missed('u_mcm', standardDeviation)).toEqual([]);
    expect(of.missed('interval_mcm', [shortest.low, shortest.high], [0.001, 0.001])).toEqual([]);
    expect(of.missed('interval_symmetric', [low, high], [0.0006, 0.0006])).toEqual([]);
    expect(of.missed('u_first_order', standardUncertainty(one.first))).toEqual([]);
    const { low: firstLow, high: firstHigh } = coverageInterval(one.first);
    expect(of.missed('interval_first_order', [firstLow, firstHigh])).toEqual([]);
    // One digit, δ = 0.005: d_low 0.045, d_high 0.043 (from memory).
    const { holds, lowApart, highApart, tolerance } = validated(one, 1);
    expect({ holds, tolerance }).toEqual({ holds: false, tolerance: 0.005 });
    expect(Math.abs(lowApart - 0.0450)).toBeLessThan(0.002);
    expect(Math.abs(highApart - 0.0430)).toBeLessThan(0.002);
  });

  // The printed end at 0.05 is not at hand; the exact one stands for it.
  it.each([[0, 150], [0.01, 367], [0.05, 3549]])('9.4: comparison loss at x_1 = %s, with its shortest interval', async (x1, published) => {
    const of = example('unc-jcgm101-comparison-loss');
    const place = of.numbers('x1').indexOf(x1);
    const one = await sample(given('X_1', `${x1} ± 0.005`) + given('X_2', '0 ± 0.005') + step('Y', 'X_1^2 + X_2^2'), 'Y');
    const { mean, standardDeviation, shortest } = summaryOf(one);
    const exact = { mean: [50, 150, 2550], u: [50, 111.8034, 502.4938], low: [0, 0, 1593.567], high: [149.787, 366.005, 3548.567] };
    expect(Math.abs(mean * 1e6 - (exact.mean[place] ?? 0))).toBeLessThan(0.01 * (exact.u[place] ?? 0));
    expect(Math.abs((standardDeviation * 1e6) / (exact.u[place] ?? 1) - 1)).toBeLessThan(0.01);
    expect(Math.abs(shortest.low * 1e6 - (exact.low[place] ?? 0))).toBeLessThan(0.04 * (exact.u[place] ?? 0));
    expect(Math.abs(shortest.high * 1e6 - (exact.high[place] ?? 0))).toBeLessThan(0.04 * (exact.u[place] ?? 0));
    expect(Math.abs(shortest.high * 1e6 - published)).toBeLessThan(2 + 0.04 * (exact.u[place] ?? 0));
    expect(standardUncertainty(one.first) * 1e6).toBeCloseTo([0, 100, 500][place] ?? Number.NaN, 6);
    expect(validated(one).holds).toBe(false);
  });

  it('9.5: gauge block', async () => {
    // Inputs and results of the example from memory: u = 36 nm by samples, 32 nm by first order; interval computed with numpy, 2·10⁷ samples.
    // A limit that is itself known within limits: a width sampled apart.
    const trapezoid = (symbol: string, half: number, share: number): string =>
      given(`w_${symbol}`, `1 ± ${share} limit`) + given(`r_${symbol}`, `0 ± ${half} limit`) + step(symbol, `w_${symbol}*r_${symbol}`);
    const t = (symbol: string, value: number, u: number, readings: number): string => {
      const each = Array.from({ length: readings }, (_, i) => i - (readings - 1) / 2);
      const s = Math.sqrt(each.reduce((total, x) => total + x * x, 0) / (readings - 1) / readings);
      return ['```given', `symbol: ${symbol}`, `readings: "${each.map((x) => (value + (x * u) / s).toFixed(9)).join(', ')}"`, 'unit: "1"', 'possible: any', '```', ''].join('\n');
    };
    const one = await sample(
      t('l_S', 623, 25, 19) + t('D', 215, 6, 25) + t('d_1', 0, 4, 6) + t('d_2', 0, 7, 9)
      + given('alpha_S', '11.5e-6 ± 2e-6 limit') + given('theta_0', '-0.1 ± 0.2') + given('Delta', '0 ± 0.5 limit arcsine')
      + trapezoid('dalpha', 1e-6, 0.1) + trapezoid('dtheta', 0.05, 0.5)
      + step('dL', 'l_S + D + d_1 + d_2 - (5e7 + l_S)*(dalpha*(theta_0 + Delta) + alpha_S*dtheta)'), 'dL');
    const { mean, standardDeviation, low, high } = summaryOf(one);
    expect(mean).toBeCloseTo(838, 0);
    expect(Math.round(standardUncertainty(one.first))).toBe(32);
    expect(Math.round(standardDeviation)).toBe(36);
    expect(Math.abs(low - 767.68)).toBeLessThan(0.5);
    expect(Math.abs(high - 908.33)).toBeLessThan(0.5);
  });
});


it('JCGM 100:2008, H.2: readings in pairs keep their correlation through a sheet', async () => {
  const of = example('unc-gum-h2');
  const read = (symbol: string): string =>
    ['```given', `symbol: ${symbol}`, `readings: "${of.numbers(symbol).join(', ')}"`, 'unit: "1"', 'together: bench', '```', ''].join('\n');
  const text = ['V', 'I', 'phi'].map(read).join('') + step('R', '1000*V/I*cos(phi)') + step('X', '1000*V/I*sin(phi)') + step('Z', '1000*V/I');
  for (const symbol of ['R', 'X', 'Z']) {
    const one = await sample(text, symbol, { count: 200_000 });
    expect(of.missed(symbol, one.first.value)).toEqual([]);
    expect(of.missed(`u_${symbol}`, standardUncertainty(one.first))).toEqual([]);
    // t with four degrees of freedom samples √2 as wide as u; its own standard deviation settles slowly, its interval does not: t₀.₉₇₅ = 2.776.
    expect(one.sampled.settling).toBe('without u');
    const { low, high } = summaryOf(one);
    expect(Math.abs((high - low) / 2 / standardUncertainty(one.first) / 2.776 - 1)).toBeLessThan(0.02);
    // First order says the same, since the readings share their degrees of freedom.
    const interval = coverageInterval(one.first);
    expect(Math.abs((high - low) / (interval.high - interval.low) - 1)).toBeLessThan(0.02);
  }
});

describe('where first order fails', () => {
  const DIAMETER = given('d', '1 ± 0.05', 'possible: "> 0"');

  it('a stress that goes with d^-3, 5 % of d: the verdict says so, and the interval is that of the transformed quantiles', async () => {
    const one = await sample(DIAMETER + step('sigma', 'd^(-3)'), 'sigma', { digits: 1 });
    const { low, high } = summaryOf(one);
    expect(validated(one).holds).toBe(false);
    // Falling function of one normal quantity: its quantiles are (1 ± 1.959964·0.05)^-3; computed with scipy 1.17.1.
    expect(Math.abs(low - 0.75543155)).toBeLessThan(0.002);
    expect(Math.abs(high - 1.3626295)).toBeLessThan(0.003);
    expect(coverageInterval(one.first).high).toBeCloseTo(1.293995, 5);
  });

  it('four readings, one of them far off, and a steep law: rare draws far off do not let first order pass', async () => {
    const readings = [7.1, 7.52, 7.51, 7.53];
    const text = ['```given', 'symbol: d', `readings: "${readings.join(', ')}"`, 'unit: "1"', '```', ''].join('\n') + step('N', '(d/7.5)^36');
    const one = await sample(text, 'N', { count: 400_000 });
    const mean = readings.reduce((sum, d) => sum + d, 0) / 4;
    const u = Math.sqrt(readings.reduce((sum, d) => sum + (d - mean) ** 2, 0) / 3 / 4);
    // Student's t with 3 degrees of freedom, 97.5 %: 3.18245 (any table); a rising function of one quantity has its quantiles.
    const [low, high] = [-3.18245, 3.18245].map((t) => ((mean + t * u) / 7.5) ** 36);
    const summary = summaryOf(one);
    expect(Math.abs(summary.low / (low ?? 0) - 1)).toBeLessThan(0.03);
    expect(Math.abs(summary.high / (high ?? 0) - 1)).toBeLessThan(0.03);
    // The samples' own standard deviation has no bound; a tolerance taken from it would let any interval pass.
    expect(summary.standardDeviation).toBeGreaterThan(100 * (summary.high - summary.low));
    expect(telling(summary, one.sampled.settling)).toEqual({ size: (summary.high - summary.low) / 4, isFarOff: true });
    // Nor are mean and standard deviation waited for, which never come to rest.
    expect((await sample(text, 'N', { digits: 1 })).sampled).toMatchObject({ ended: 'steady' });
    expect(validated(one).holds).toBe(false);
    expect(validateFirstOrder(coverageInterval(one.first), summary, numericalTolerance(summary.standardDeviation, 2)).holds).toBe(true);
  });

  it('a life with the twelfth power of that stress', async () => {
    const one = await sample(DIAMETER + step('sigma', '400*d^(-3)') + step('N', '10^6*(sigma/400)^(-12)'), 'N', { digits: 1, count: 400_000 });
    const { low, high, shortest } = summaryOf(one);
    expect(validated(one).holds).toBe(false);
    // N/10⁶ = d^36: 0.0244043 and 28.9507, computed with scipy 1.17.1. By first order the life would be as likely below zero as not.
    expect(Math.abs(low / 1e6 / 0.0244043 - 1)).toBeLessThan(0.02);
    expect(Math.abs(high / 1e6 / 28.9507 - 1)).toBeLessThan(0.02);
    expect(coverageInterval(one.first).low).toBeLessThan(0);
    expect(shortest.high - shortest.low).toBeLessThan(high - low);
  });

  it('and where all is linear and normal it does not', async () => {
    const one = await sample(given('x', '3 ± 0.2') + given('y', '5 ± 0.1') + step('z', '2*x - y + 1'), 'z');
    expect(one.sampled.ended).toBe('steady');
    expect(validated(one).holds).toBe(true);
  });
});

describe('a drawing', () => {
  const SHEET = shipped('rotating-bending');

  it('gives the same for the same seed, after a structured clone too, and something else for another', async () => {
    const { request, sampled } = await sample(SHEET, 'N_f', { count: 30_500 });
    expect(sampled).toMatchObject({ count: 30_500, ended: 'count', withoutValue: 0 });
    expect(toItsEnd(structuredClone(request))).toEqual(sampled);
    expect(toItsEnd({ ...request, seed: 2 }).summary).not.toEqual(sampled.summary);
  });

  it.each([['so many', 95_500], ['until they are steady', undefined]] as const)('gives the same whoever makes its blocks, and in whatever order they come: %s', async (_, count) => {
    const { request: fixed } = await sample(SHEET, 'sigma_a', { count: 10_000 });
    const { count: _fixed, ...open } = fixed;
    const request: SamplingRequest = { ...open, digits: 1, ...(count === undefined ? {} : { count }) };
    const alone = toItsEnd(request);
    for (const helpers of [1, 2, 3]) {
      const sampling = startSampling(request);
      const makers = Array.from({ length: helpers }, () => blockMaker(request));
      let turn = 0;
      while (!sampling.isOver()) {
        // The last claimed come first, the helper whose turn it is makes some, and every fifth time one fails and gives back what it was at.
        const asked = makers.map(() => sampling.claim(2));
        for (const [helper, blocks] of [...asked.entries()].reverse()) {
          if ((turn + helper) % 5 === 4) sampling.giveBack(blocks);
          else for (const block of blocks.toReversed()) sampling.hand(block, makers[helper]?.(block) ?? new Float64Array());
        }
        turn++;
        if (turn % 2 === 0) sampling.advance();
      }
      expect(sampling.result()).toEqual(alone);
    }
    expect(alone.count).toBeGreaterThan(30_000);
  });

  it('says how many blocks nobody has claimed, by which the last ones are shared out', async () => {
    const { request } = await sample(SHEET, 'N_f', { count: 95_500 });
    const sampling = startSampling(request);
    expect([sampling.left(), sampling.claim(3).length, sampling.left()]).toEqual([10, 3, 7]);
    sampling.giveBack([1, 2]);
    expect(sampling.left()).toBe(9);
    expect(sampling.claim(-1)).toEqual([]);
    while (sampling.advance());
    sampling.hand(0, blockMaker(request)(0));
    expect([sampling.isOver(), sampling.left()]).toEqual([true, 0]);
  });

  it('can be stopped between two blocks, with what there is by then', async () => {
    const { request } = await sample(SHEET, 'N_f', { count: 10_000 });
    const { count: _fixed, ...open } = request;
    const sampling = startSampling(open);
    expect(sampling.advance() && sampling.advance()).toBe(true);
    expect(sampling.progress()).toMatchObject({ count: 20_000 });
    expect(sampling.progress().expected).toBeGreaterThan(20_000);
    expect(sampling.result()).toMatchObject({ count: 20_000, ended: 'stopped' });
    expect(sampling.result().summary?.low).toBeGreaterThan(1e4);
  });

  it('counts what has no value, and draws no standard deviation from two readings', async () => {
    const text = given('x', '1 ± 1') + ['```given', 'symbol: y', 'readings: "1.0, 1.2"', 'unit: "1"', '```', ''].join('\n');
    const root = await sample(text + step('z', 'sqrt(x)'), 'z', { count: 50_000 });
    // Below zero lie Φ(−1) = 15.866 % of the samples.
    expect(Math.abs(root.sampled.withoutValue / 50_000 - 0.15866)).toBeLessThan(0.007);
    expect(root.sampled.settling).toBe('all');
    const scattered = await sample(text + step('z', 'x + y'), 'z', { digits: 1 });
    expect(scattered.sampled).toMatchObject({ settling: 'ends only', ended: 'steady' });
  });

  it('has a histogram that counts every draw once', async () => {
    const { sampled } = await sample(SHEET, 'sigma_a', { count: 40_000 });
    const { histogram } = sampled;
    if (histogram === undefined) throw new Error('no histogram');
    expect(histogram.counts.reduce((total, one) => total + one, histogram.below + histogram.above)).toBe(40_000);
    expect(histogram.from).toBeLessThan(sampled.summary?.low ?? 0);
    expect(histogram.to).toBeGreaterThan(sampled.summary?.high ?? 0);
  });
});

it('the numerical tolerance is half of the last digit (JCGM 101:2008, 7.9.2)', () => {
  // u = 0.35 g: 35·10⁻² with two digits, δ = 0.005; u = 2 K: 2·10⁰ with one, δ = 0.5 (the clause’s own examples are such; from memory).
  expect(numericalTolerance(0.35, 2)).toBeCloseTo(0.005, 15);
  expect(numericalTolerance(2, 1)).toBe(0.5);
  expect(numericalTolerance(0.0995, 1)).toBeCloseTo(0.05, 15);
  expect(numericalTolerance(0, 2)).toBe(0);
});
