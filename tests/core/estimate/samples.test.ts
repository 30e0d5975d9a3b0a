import { describe, expect, it } from 'vitest';
import {
  combine, coverageInterval, sampleInput, sampleInputs, DISTRIBUTIONS, inputUncertainty, instrumentClass, standardUncertainty, summariseSamples,
  type Distribution, type Input,
} from '../../../src/core/estimate/index.ts';
import { createRandom, studentQuantile } from '../../../src/core/numeric/index.ts';
import { composed, given, limited, part, stated, value } from './inputs.ts';
import { example } from './table.ts';

const SEED = 101;
const COUNT = 1_000_000;
const FEW = 100_000;

const samples = (inputs: readonly Input[], count = COUNT): readonly Float64Array[] => [...sampleInputs(inputs, createRandom(SEED), count).values()];

/** Samples of a function of the inputs, place by place. */
function propagate(inputs: readonly Input[], model: (...x: readonly number[]) => number, count = COUNT): Float64Array {
  const columns = samples(inputs, count);
  return Float64Array.from({ length: count }, (_, k) => model(...columns.map((column) => column[k] ?? Number.NaN)));
}

function correlationOf(a: Float64Array, b: Float64Array): number {
  const [meanA, meanB] = [summariseSamples(a).mean, summariseSamples(b).mean];
  let [ab, aa, bb] = [0, 0, 0];
  for (let k = 0; k < a.length; k++) {
    const [x, y] = [(a[k] ?? 0) - meanA, (b[k] ?? 0) - meanB];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return ab / Math.sqrt(aa * bb);
}

describe('worked examples of JCGM 101:2008', () => {
  it('9.2: sums of four normal and of four rectangular quantities, and one that dominates', () => {
    const of = example('unc-jcgm101-additive');
    const four = (make: (id: string, sd: number) => Input, sds: readonly number[]) => {
      const inputs = sds.map((sd, i) => make(`x_${i}`, sd));
      const { low, high, standardDeviation } = summariseSamples(propagate(inputs, (...x) => x.reduce((sum, one) => sum + one, 0)));
      const first = combine(0, inputs.map((input) => part(input, 1)));
      return { half: (high - low) / 2, standardDeviation, u: standardUncertainty(first), firstHalf: coverageInterval(first).high };
    };
    const normal = four((id, sd) => stated(id, 0, sd), [1, 1, 1, 1]);
    const rectangular = four((id, sd) => limited(id, 0, sd * Math.sqrt(3)), [1, 1, 1, 1]);
    const dominated = four((id, sd) => limited(id, 0, sd * Math.sqrt(3)), [1, 1, 1, 10]);
    expect(of.missed('u_a', normal.u)).toEqual([]);
    expect(of.missed('half_a', normal.firstHalf)).toEqual([]);
    expect(Math.abs(normal.half - 3.92)).toBeLessThan(0.012);
    expect(of.missed('u_b', rectangular.standardDeviation)).toEqual([]);
    expect(of.missed('half_b_gum', rectangular.firstHalf)).toEqual([]);
    expect(of.missed('half_b_mcm', rectangular.half, [0.015])).toEqual([]);
    expect(of.missed('u_c', dominated.standardDeviation, [0.02])).toEqual([]);
    expect(of.missed('half_c_gum', dominated.firstHalf)).toEqual([]);
    expect(of.missed('half_c_mcm', dominated.half, [0.03])).toEqual([]);
    // Against the exact half-widths; a million samples leave about 0.004 and 0.006 of chance.
    expect(Math.abs(rectangular.half - 3.879406741347821)).toBeLessThan(0.015);
    expect(Math.abs(dominated.half - 17.015814099866674)).toBeLessThan(0.03);
  });

  it('9.3: mass calibration, where first order misses the air density', () => {
    const of = example('unc-jcgm101-mass');
    const pair = (name: string): readonly [number, number] => {
      const [first = 0, second = 0] = of.numbers(name);
      return [first, second];
    };
    const between = (id: string): Input => limited(id, (pair(id)[0] + pair(id)[1]) / 2, (pair(id)[1] - pair(id)[0]) / 2);
    const inputs = [stated('mRc', ...pair('mRc')), stated('dmRc', ...pair('dmRc')), between('rho_a'), between('rho_W'), between('rho_R')];
    const sampled = summariseSamples(propagate(inputs, (m = 0, dm = 0, air = 0, weight = 0, reference = 0) =>
      (m + dm) * (1 + (air - of.number('rho_a0')) * (1 / weight - 1 / reference)) - of.number('m_nom')));
    expect(of.missed('mean', sampled.mean)).toEqual([]);
    expect(of.missed('u_mcm', sampled.standardDeviation)).toEqual([]);
    expect(of.missed('interval_mcm', [sampled.low, sampled.high])).toEqual([]);
    expect(of.missed('interval_symmetric', [sampled.low, sampled.high])).toEqual([]);
    const [mRc, dmRc] = inputs;
    if (mRc === undefined || dmRc === undefined) throw new Error('two masses are needed');
    // At the estimates the air density equals its nominal value and both densities are equal: their derivatives vanish.
    const first = combine(mRc.value + dmRc.value - of.number('m_nom'), [part(mRc, 1), part(dmRc, 1)]);
    const { low, high } = coverageInterval(first);
    expect(of.missed('u_first_order', standardUncertainty(first))).toEqual([]);
    expect(of.missed('interval_first_order', [low, high])).toEqual([]);
  });

  it('9.4: a sum of squares, where first order says nothing at zero', () => {
    const of = example('unc-jcgm101-comparison-loss');
    const runs = of.numbers('x1').map((x1) => {
      const inputs = [stated('X_1', x1, of.number('u')), stated('X_2', 0, of.number('u'))] as const;
      const first = combine(x1 ** 2, [part(inputs[0], 2 * x1), part(inputs[1], 0)]);
      return { sampled: summariseSamples(propagate(inputs, (a = 0, b = 0) => a * a + b * b)), first };
    });
    const micro = 1e6;
    expect(of.missed('first_order_estimate', runs.map(({ first }) => first.value * micro))).toEqual([]);
    expect(of.missed('first_order_u', runs.map(({ first }) => standardUncertainty(first) * micro))).toEqual([]);
    // Four standard errors of a million samples: 4u/√M, and u√((κ − 1)/4M) four times with kurtosis κ of 9, 6 and 3.
    expect(of.missed('mean', runs.map(({ sampled }) => sampled.mean * micro), [0.2, 0.45, 2])).toEqual([]);
    expect(of.missed('u', runs.map(({ sampled }) => sampled.standardDeviation * micro), [0.3, 0.5, 1.5])).toEqual([]);
  });
});

it('bending stress: mean and standard deviation of the exact distribution', () => {
  const of = example('unc-stress-32m');
  const inputs = [stated('M', of.number('M'), of.number('u_M')), stated('d', of.number('d'), of.number('u_d'))];
  const sampled = summariseSamples(propagate(inputs, (M = 0, d = 0) => (32 * M) / (Math.PI * d ** 3)));
  expect(of.missed('mean_exact', sampled.mean)).toEqual([]);
  expect(of.missed('u_exact', sampled.standardDeviation)).toEqual([]);
});

describe('draws of one input', () => {
  const column = new Float64Array(FEW * 4);
  const summary = (distribution: Distribution) => {
    const input = limited('x', 5, 0.3, distribution);
    sampleInput(input, createRandom(SEED), column);
    return { u: inputUncertainty(input), ...summariseSamples(column) };
  };

  it.each(DISTRIBUTIONS)('%s: mean and standard deviation', (distribution) => {
    const { u, mean, standardDeviation } = summary(distribution);
    const sd = distribution === 't' ? u * Math.sqrt(8 / 6) : u;
    expect(Math.abs(mean - 5)).toBeLessThan(4 * sd / Math.sqrt(column.length));
    expect(Math.abs(standardDeviation / sd - 1)).toBeLessThan(0.01);
  });

  // 97.5 % quantile over standard uncertainty, from the inverse of each distribution function.
  it.each<[Distribution, number]>([
    ['rectangular', 0.95 * Math.sqrt(3)],
    ['triangular', (1 - Math.sqrt(0.05)) * Math.sqrt(6)],
    ['arcsine', Math.sin(0.475 * Math.PI) * Math.SQRT2],
    ['normal', 1.959964],
    ['t', studentQuantile(0.975, 8)],
  ])('%s: interval', (distribution, upper) => {
    const { u, low, high } = summary(distribution);
    expect(Math.abs((high - low) / 2 / u / upper - 1)).toBeLessThan(0.01);
    expect(Math.abs((high + low) / 2 - 5)).toBeLessThan(0.01 * u);
  });

  it.each<[Distribution, number]>([['rectangular', 0.3], ['triangular', 0.3], ['arcsine', 0.3], ['curvilinear trapezoid', 0.375]])(
    '%s: never beyond its ends, and nearly at them', (distribution, end) => {
      summary(distribution);
      const farthest = column.reduce((largest, x) => Math.max(largest, Math.abs(x - 5)), 0);
      expect(farthest).toBeLessThanOrEqual(end + 1e-12);
      expect(farthest).toBeGreaterThan(0.95 * end);
    });

  it('few readings scatter as Student\'s t: wider than s/√n', () => {
    const input = given({ id: 'x', readings: [10, 10.2, 10.1, 10.5, 9.9] });
    sampleInput(input, createRandom(SEED), column);
    const { standardDeviation, low, high } = summariseSamples(column);
    expect(Math.abs(standardDeviation / (inputUncertainty(input) * Math.SQRT2) - 1)).toBeLessThan(0.05);
    expect(Math.abs((high - low) / 2 / (inputUncertainty(input) * 2.776445) - 1)).toBeLessThan(0.01);
  });

  it('components add up, and an input without uncertainty stays where it is', () => {
    const instrument = value(instrumentClass('caliper, 0.01 mm'));
    const input = given({ id: 'd', readings: [0.0075], instrument });
    sampleInput(input, createRandom(SEED), column);
    expect(Math.abs(summariseSamples(column).standardDeviation / inputUncertainty(input) - 1)).toBeLessThan(0.01);
    sampleInput(given({ id: 'd', readings: [0.0075] }), createRandom(SEED), column);
    expect(column.every((x) => x === 0.0075)).toBe(true);
  });
});

describe('draws of correlated inputs', () => {
  it('read in pairs: the covariance of the means, Student\'s t, and the instrument\'s part apart', () => {
    const together = 'bench';
    const instrument = value(instrumentClass('resolution only, 0.3, ±0.3'));
    const a = given({ id: 'a', readings: [1, 2, 4, 3, 6, 5, 8, 7, 10, 9], together });
    const b = given({ id: 'b', readings: [2, 1, 3, 4, 5, 6, 7, 8, 9, 11], together, instrument });
    const [columnA = column(), columnB = column()] = samples([a, b], 4 * FEW);
    const inflation = Math.sqrt(9 / 7);
    expect(Math.abs(summariseSamples(columnA).standardDeviation / (inputUncertainty(a) * inflation) - 1)).toBeLessThan(0.02);
    const difference = Float64Array.from(columnA, (x, k) => x - (columnB[k] ?? 0));
    const paired = given({ id: 'd', readings: [-1, 1, 1, -1, 1, -1, 1, -1, 1, -2] });
    const expected = Math.hypot(inputUncertainty(paired) * inflation, 0.3 / Math.sqrt(3));
    expect(Math.abs(summariseSamples(difference).standardDeviation / expected - 1)).toBeLessThan(0.02);
  });

  it('stated, normal: the coefficient, also where it is nearly or quite 1', () => {
    for (const r of [-1, -0.999, -0.3, 0.7, 1]) {
      const a = stated('a', 10, 1);
      const b: Input = { ...stated('b', -3, 0.4), correlations: new Map([['a', r]]) };
      const [columnA = column(), columnB = column()] = samples([a, b], FEW);
      expect(Math.abs(correlationOf(columnA, columnB) - r)).toBeLessThan(0.01 * (1 - r * r) + 1e-9);
      expect(Math.abs(summariseSamples(columnB).standardDeviation / 0.4 - 1)).toBeLessThan(0.01);
    }
  });

  it('stated, t with common degrees of freedom, as the parameters of a fit: a combination that cancels keeps its spread', () => {
    const r = -0.9995;
    const intercept = composed('A', 35, [[1, 18]]);
    const slope: Input = { ...composed('B', -12, [[0.4, 18]]), correlations: new Map([['A', r]]) };
    const [columnA = column(), columnB = column()] = samples([intercept, slope], 4 * FEW);
    const x = -(r * 1) / 0.4;
    const line = Float64Array.from(columnA, (a, k) => a + x * (columnB[k] ?? 0));
    const first = standardUncertainty(combine(0, [part(intercept, 1), part(slope, x)]));
    expect(Math.abs(summariseSamples(line).standardDeviation / (first * Math.sqrt(18 / 16)) - 1)).toBeLessThan(0.02);
    expect(first).toBeLessThan(0.04);
  });

  it('stated, other distributions: each keeps its own, and the coefficient to a few hundredths', () => {
    for (const r of [-0.8, 0.3, 0.9]) {
      const a = limited('a', 0, 1, 'rectangular');
      const b: Input = { ...limited('b', 5, 1, 'arcsine'), correlations: new Map([['a', r]]) };
      const [columnA = column(), columnB = column()] = samples([a, b], FEW);
      expect(Math.abs(correlationOf(columnA, columnB) - r)).toBeLessThan(0.05);
      expect(Math.abs(summariseSamples(columnA).standardDeviation / inputUncertainty(a) - 1)).toBeLessThan(0.01);
      expect(Math.abs(summariseSamples(columnB).standardDeviation / inputUncertainty(b) - 1)).toBeLessThan(0.01);
      expect(columnA.every((x) => Math.abs(x) <= 1)).toBe(true);
      expect(columnB.every((x) => Math.abs(x - 5) <= 1)).toBe(true);
    }
  });

  it('a chain of ties is drawn at once, and an input outside it by itself', () => {
    const a = stated('a', 0, 1);
    const c: Input = { ...stated('c', 0, 1), correlations: new Map([['b', 0.8]]) };
    const b: Input = { ...stated('b', 0, 1), correlations: new Map([['a', 0.5]]) };
    const [columnA = column(), columnFree = column(), columnC = column(), columnB = column()] = samples([a, stated('f', 0, 1), c, b], FEW);
    expect(Math.abs(correlationOf(columnA, columnB) - 0.5)).toBeLessThan(0.01);
    expect(Math.abs(correlationOf(columnB, columnC) - 0.8)).toBeLessThan(0.01);
    expect(Math.abs(correlationOf(columnA, columnC))).toBeLessThan(0.01);
    expect(Math.abs(correlationOf(columnA, columnFree))).toBeLessThan(0.01);
  });

  it('coefficients that cannot hold are weakened, not a reason to stop', () => {
    const a: Input = { ...stated('a', 0, 1), correlations: new Map([['b', 0.9], ['c', 0.9]]) };
    const b: Input = { ...stated('b', 0, 1), correlations: new Map([['c', -0.9]]) };
    const [columnA = column(), columnB = column()] = samples([a, b, stated('c', 0, 1)], FEW);
    const r = correlationOf(columnA, columnB);
    expect(r).toBeGreaterThan(0.3);
    expect(r).toBeLessThan(0.9);
  });

  it('the same seed gives the same draws', () => {
    const inputs = [stated('a', 0, 1), limited('b', 1, 1), given({ id: 'c', readings: [1, 2, 3] })];
    expect(samples(inputs, 50)).toEqual(samples(inputs, 50));
    expect([...sampleInputs(inputs, createRandom(SEED), 3).keys()]).toEqual(['a', 'b', 'c']);
  });
});

describe('summaries', () => {
  it('the interval leaves out as many draws below as above (JCGM 101:2008, 7.7.2)', () => {
    const column = Float64Array.from({ length: 1000 }, (_, i) => (i * 389) % 1000 + 1);
    // M = 1000: q = 950, r = 25; the interval runs from the 25th to the 975th.
    expect(summariseSamples(column)).toMatchObject({ mean: 500.5, low: 25, high: 975 });
    expect(summariseSamples(column).standardDeviation).toBeCloseTo(Math.sqrt((1000 * 1001) / 12), 9);
    expect(column[0]).toBe(1);
  });
  it('few draws, equal draws, a large offset', () => {
    expect(summariseSamples(Float64Array.of(3, 1))).toMatchObject({ mean: 2, low: 1, high: 3 });
    expect(summariseSamples(new Float64Array(100).fill(7))).toEqual({ mean: 7, standardDeviation: 0, low: 7, high: 7, shortest: { low: 7, high: 7 } });
    expect(summariseSamples(Float64Array.of(1e9 + 1, 1e9 + 2, 1e9 + 3)).standardDeviation).toBeCloseTo(1, 12);
  });
});

function column(): Float64Array {
  return new Float64Array();
}
