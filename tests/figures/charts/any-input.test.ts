import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitLeastSquares, fitMaximumLikelihood, MEAN_STRESS_CORRECTIONS, type Outcome, type Residual } from '../../../src/core/fatigue/index.ts';
import { constantLifeChart, contourChart, normalScoreChart, residualChart, snChart, staircaseChart, sweepChart, type Chart, type SnData } from '../../../src/figures/charts/index.ts';
import { readSvg } from '../drawings/svg-reading.ts';
import { snOf, TESTS, TEXTS, type Row } from './chart-data.ts';
import { axis, contourOf, sweepOf } from './sweep-data.ts';
import { cases } from '../../sizes.ts';

const outcome = fc.constantFrom<Outcome>('fracture', 'runout', 'suspended', 'invalid');
const words = fc.string({ unit: 'binary', maxLength: 12 });
const number = fc.oneof(
  { weight: 5, arbitrary: fc.double({ min: 1, max: 1e8, noNaN: true }) },
  { weight: 2, arbitrary: fc.constantFrom(0, -1, 1e-300, 1e300, 5e-324, Number.MAX_VALUE, Number.NaN, Infinity, 100, 1e6) },
  { weight: 1, arbitrary: fc.double() },
);
const rows = fc.array(fc.record({ name: words, group: words, S: number, N: number, outcome }), { maxLength: 30 });
const current = fc.option(fc.record({
  stressMpa: number, life: fc.record({ median: number, low: number, high: number }, { requiredKeys: ['median'] }), without: words,
}, { requiredKeys: ['stressMpa'] }), { nil: undefined });
const stated = fc.option(fc.record({ A: fc.double({ min: -400, max: 400, noNaN: true }), B: fc.double({ min: -60, max: 5, noNaN: true }), s: number, from: number, to: number, limitMpa: number },
  { requiredKeys: ['A', 'B', 's'] }), { nil: undefined });

function sound(chart: Chart): void {
  readSvg(chart.svg);
  expect(chart.svg.replace(/>[^<]*</g, '><')).not.toMatch(/NaN|Infinity|undefined|null|\de[+-]?\d/);
  for (const { x, y, tell } of chart.points) {
    expect(x).toBeGreaterThan(-1);
    expect(x).toBeLessThan(chart.viewBox.width + 1);
    expect(y).toBeGreaterThan(-1);
    expect(y).toBeLessThan(chart.viewBox.height + 1);
    expect(tell()).not.toMatch(/undefined|null/);
  }
}

describe('whatever the data', () => {
  test('S-N charts are well-formed, without a number that is none, with every place inside', () => {
    fc.assert(fc.property(rows, current, stated, fc.constantFrom('log', 'plain') as fc.Arbitrary<'log' | 'plain'>, fc.integer({ min: 100, max: 1200 }), (tests, now, line, stressScale, width) => {
      const data: SnData = {
        ...snOf(tests, { stressScale }),
        ...(now === undefined ? {} : { current: now as NonNullable<SnData['current']> }),
        ...(line === undefined ? {} : { line: { stated: line as never } }),
      };
      sound(snChart(data, { width, idPrefix: 'x' }));
    }), { numRuns: cases(150) });
  });

  test('lines fitted to whatever can be fitted are drawn', { timeout: 60_000 }, () => {
    const fit = fc.record({ model: fc.constantFrom('linear', 'quadratic', 'limit'), stress: fc.constantFrom('log', 'plain'), life: fc.constantFrom('lognormal', 'weibull') });
    const some = fc.array(fc.record({ S: fc.double({ min: 50, max: 900, noNaN: true }), N: fc.double({ min: 1e2, max: 1e9, noNaN: true }), outcome }), { minLength: 4, maxLength: 12 });
    fc.assert(fc.property(some, fit, (tests, options) => {
      const columns = { stressMpa: tests.map(({ S }) => S), cycles: tests.map(({ N }) => N), outcomes: tests.map((one) => one.outcome) };
      const { model, stress, life } = options as { model: 'linear' | 'quadratic' | 'limit'; stress: 'log' | 'plain'; life: 'lognormal' | 'weibull' };
      const fitted = model === 'limit' || life === 'weibull' ? fitMaximumLikelihood(columns, { model, stress, life }) : fitLeastSquares(columns, { model, stress });
      fc.pre(fitted.ok);
      if (fitted.ok) sound(snChart(snOf(tests, { line: { fitted: fitted.value }, stressScale: stress }), { width: 345, idPrefix: 'x' }));
    }), { numRuns: 15 });
  });

  test.each<[string, readonly Row[]]>([
    ['nothing', []],
    ['one row', [{ S: 300, N: 1e5 }]],
    ['runouts alone', [{ S: 300, N: 1e7, outcome: 'runout' }, { S: 280, N: 1e7, outcome: 'runout' }]],
    ['one place', Array.from({ length: 5 }, () => ({ S: 300, N: 1e5 }))],
    ['twelve groups', Array.from({ length: 12 }, (_, i) => ({ S: 300 + i, N: 1e5, group: `batch ${i}` }))],
    ['lives of three hundred decades', [{ S: 1e-200, N: 1e-290 }, { S: 1e200, N: 1e290 }]],
  ])('%s', (_what, tests) => {
    for (const stressScale of ['log', 'plain'] as const) {
      for (const width of [700, 345]) sound(snChart(snOf(tests, { stressScale }), { width, idPrefix: 'x' }));
    }
    expect(snChart(snOf(tests), { width: 700, idPrefix: 'x' }).sentence.length).toBeGreaterThan(20);
  });

  test('residual plots and staircases, too', () => {
    const residual: fc.Arbitrary<Residual> = fc.record({
      row: fc.nat(20), fitted: fc.double({ min: -20, max: 20, noNaN: true }), residual: number, leverage: number,
      studentised: fc.option(number), normalScore: fc.double({ min: -4, max: 4, noNaN: true }), influential: fc.boolean(),
    }) as fc.Arbitrary<Residual>;
    fc.assert(fc.property(fc.array(residual, { maxLength: 20 }), words, fc.integer({ min: 100, max: 1000 }), (residuals, name, width) => {
      const data = { residuals, s: 0.2, name: () => name, texts: TEXTS };
      sound(residualChart(data, { width, idPrefix: 'x' }));
      sound(normalScoreChart(data, { width, idPrefix: 'x' }));
    }), { numRuns: cases(80) });
    fc.assert(fc.property(fc.array(fc.tuple(number, outcome), { maxLength: 40 }), fc.option(number, { nil: undefined }), fc.option(number, { nil: undefined }), fc.integer({ min: 100, max: 1000 }), (tests, mean, next, width) => {
      sound(staircaseChart({
        levels: tests.map(([level]) => level), outcomes: tests.map(([, what]) => what), name: String, unit: 'MPa', level: TEXTS.stress,
        ...(mean === undefined ? {} : { mean }), ...(next === undefined ? {} : { next }),
      }, { width, idPrefix: 'x' }));
    }), { numRuns: cases(80) });
  });

  test('constant-life diagrams, too', () => {
    const some = fc.option(number, { nil: undefined });
    const given = (entries: object): object => Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined));
    const constants = fc.record({ tensile: some, yield: some, oneReversal: some, exponent: some });
    const specimen = fc.option(fc.record({ amplitude: number, mean: number }), { nil: undefined });
    const data = fc.record({ correction: fc.constantFrom(...MEAN_STRESS_CORRECTIONS), correctionName: words, factor: fc.double({ min: 1e-3, max: 1e3, noNaN: true }) });
    fc.assert(fc.property(data, constants, fc.record({ specimen, reversed: some, limit: some, life: some }), fc.integer({ min: 100, max: 1200 }), (fixed, material, rest, width) => {
      sound(constantLifeChart({ ...fixed, constants: given(material), ...given(rest), texts: TEXTS }, { width, idPrefix: 'x' }));
    }), { numRuns: cases(200) });
  });

  test('sweeps and lines of equal value, too', () => {
    const scale = fc.constantFrom<'log' | 'linear'>('log', 'linear');
    const side = fc.tuple(fc.double({ min: -1e9, max: 1e9, noNaN: true }), fc.double({ min: 1e-9, max: 1e9, noNaN: true }));
    fc.assert(fc.property(fc.array(number, { minLength: 2, maxLength: 30 }), side, scale, words, fc.option(number, { nil: undefined }), fc.integer({ min: 100, max: 1200 }), (ys, [from, width], kind, name, present, px) => {
      const places = Float64Array.from(ys, (_, i) => from + (i / (ys.length - 1)) * width);
      const values = Float64Array.from(ys, (y) => (Math.abs(y) < 1e300 && (kind === 'linear' || y > 0) ? y : Number.NaN));
      const one = { axis: axis(name, name, name), scale: kind, values, lower: values, upper: values.map((y) => y * 1.1), told: String, gaps: [] };
      const now = present === undefined || !Number.isFinite(present) ? {} : { present };
      sound(sweepChart(sweepOf({ places, isTold: ys.map(() => true), panels: [{ ...one, ...now }, one], present: places[1] ?? from, turns: [{ at: from, words: name }] }), { width: px, idPrefix: 'x' }));
      const cells = Float64Array.from({ length: 441 }, (_, i) => values[i % values.length] ?? Number.NaN);
      const sides = { axis: axis(name, name, name), from, to: from + width };
      sound(contourChart(contourOf({ x: sides, y: sides, values: cells, scale: kind, present: { x: from, y: from, value: values[0] ?? Number.NaN }, gaps: [name] }), { width: px, idPrefix: 'x' }));
    }), { numRuns: cases(60) });
  });

  test('ids begin with the prefix, and two charts share none', () => {
    const ids = (prefix: string): string[] => [...snChart(snOf(TESTS), { width: 700, idPrefix: prefix }).svg.matchAll(/ id="([^"]*)"/g)].map(([, id = '']) => id);
    expect(ids('a').every((id) => id.startsWith('a-'))).toBe(true);
    expect(ids('a').filter((id) => ids('b').includes(id))).toEqual([]);
  });
});
