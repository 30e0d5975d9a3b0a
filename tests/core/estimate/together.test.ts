import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  budget, checkTogether, combine, coverageInterval, sampleInputs, effectiveDegreesOfFreedom, fromInput, inputCovariance, inputUncertainty, instrumentClass, standardUncertainty,
  type Input,
} from '../../../src/core/estimate/index.ts';
import { inputCorrelation } from '../../../src/core/estimate/input.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';
import { problemSentence } from '../../../src/core/problem/index.ts';
import { given, part, problemCode, stated, value } from './inputs.ts';

const paired = (id: string, readings: readonly number[]): Input => given({ id, readings, together: 'bench' });
const withCoefficient = (input: Input, ...others: readonly (readonly [string, number])[]): Input => ({ ...input, correlations: new Map(others) });

describe('readings in pairs', () => {
  it('the uncertainty of a difference is that of the differences of the pairs', () => {
    const reading = fc.double({ min: -5, max: 5, noNaN: true });
    const pairs = fc.array(fc.tuple(reading, reading), { minLength: 2, maxLength: 10 });
    fc.assert(fc.property(pairs, (both) => {
      const a = paired('a', both.map(([x]) => x));
      const b = paired('b', both.map(([, y]) => y));
      const difference = combine(a.value - b.value, [part(a, 1), part(b, -1)]);
      const direct = given({ id: 'd', readings: both.map(([x, y]) => x - y) });
      expect(Math.abs(standardUncertainty(difference) - inputUncertainty(direct))).toBeLessThan(1e-7);
    }));
  });

  it('only the scatter is shared: the instrument\'s part is not', () => {
    const read = (id: string, limit: string): Input =>
      given({ id, readings: [0.1, 0.102, 0.104], together: 'bench', instrument: value(instrumentClass(`resolution only, 1 mm, ±${limit}`)) });
    const [a, b] = [read('a', '1 mm'), read('b', '2 mm')];
    expect(inputCovariance(a, b)).toBeCloseTo(0.002 ** 2 / 3, 18);
    const difference = combine(0, [part(a, 1), part(b, -1)]);
    expect(standardUncertainty(difference)).toBeCloseTo(Math.hypot(1e-3, 2e-3) / Math.sqrt(3), 15);
  });

  it('readings that agree within a step of the scale have no scatter to share', () => {
    const read = (id: string): Input => given({ id, readings: [0.1, 0.1005, 0.1], together: 'bench', instrument: value(instrumentClass('resolution only, 1 mm')) });
    expect(inputCovariance(read('a'), read('b'))).toBe(0);
    expect(checkTogether([read('a'), read('b')]).ok).toBe(true);
  });

  it('a combination has the degrees of freedom that it has when evaluated pair by pair, and the same interval (JCGM 100:2008, H.2.4)', () => {
    const reading = fc.double({ min: -5, max: 5, noNaN: true });
    const pairs = fc.array(fc.tuple(reading, reading), { minLength: 2, maxLength: 10 });
    fc.assert(fc.property(pairs, reading, (both, weight) => {
      const [a, b] = [paired('a', both.map(([x]) => x)), paired('b', both.map(([, y]) => y))];
      const interval = coverageInterval(combine(a.value + weight * b.value, [part(a, 1), part(b, weight)]));
      const direct = coverageInterval(fromInput(given({ id: 'd', readings: both.map(([x, y]) => x + weight * y) })));
      expect(Math.abs(interval.low - direct.low)).toBeLessThan(1e-5);
      expect(Math.abs(interval.high - direct.high)).toBeLessThan(1e-5);
    }));
  });

  it('other groups, and single readings, have nothing in common', () => {
    expect(inputCovariance(paired('a', [1, 2]), given({ id: 'b', readings: [1, 2], together: 'lathe' }))).toBe(0);
    expect(inputCovariance(paired('a', [1]), paired('b', [2]))).toBe(0);
    expect(inputCovariance(paired('a', [1, 1]), paired('b', [1, 2]))).toBe(0);
  });

  it('unequal numbers of readings are told, at the second of the two', () => {
    const checked = checkTogether([paired('V', [1, 2, 3]), paired('I', [1, 2])]);
    expect(checked).toMatchObject({ ok: false, problem: { code: 'together-unequal', cell: 'I', key: 'together' } });
    expect(checked.ok ? '' : problemSentence(checked.problem)).toBe('I and V are read together (bench), but I has 2 readings and V has 3 readings. '
      + 'Give both the same number of readings, in the same order, or take one of them out of the group.');
    const one = given({ id: 'I', readings: [1], together: 'bench', stated: { kind: 'standard uncertainty', value: 1, distribution: 'normal' } });
    expect(problemCode(checkTogether([paired('V', [1, 2, 3]), one]))).toBe('together-unequal');
    expect(checkTogether([paired('V', [1, 2]), paired('I', [1, 2]), stated('F', 1, 1)]))
      .toMatchObject({ ok: true, value: [{ id: 'V' }, { id: 'I' }] });
  });
});

describe('one scale', () => {
  const cell = value(instrumentClass('load cell, 0.5 N, 1 %'));
  const step = 0.5 / Math.sqrt(12);
  const load = (id: string, reading: number): Input => given({ id, readings: [reading], instrument: cell });
  const [a, b, c] = [load('a', 100), load('b', 200), load('c', 400)];
  const scale = (reading: number): number => (0.01 * reading) / Math.sqrt(3);

  it('errs by the same share in all that was measured on it, which adds up before it is squared; its steps do not (JCGM 100:2008, F.1.2.3)', () => {
    expect(inputCorrelation(a, b)).toBeCloseTo((scale(100) * scale(200)) / Math.hypot(scale(100), step) / Math.hypot(scale(200), step), 12);
    expect(standardUncertainty(combine(300, [part(a, 1), part(b, 1)]))).toBeCloseTo(Math.hypot(scale(300), Math.SQRT2 * step), 12);
    expect(standardUncertainty(combine(100, [part(b, 1), part(a, -1)]))).toBeCloseTo(Math.hypot(scale(100), Math.SQRT2 * step), 12);
    expect(standardUncertainty(combine(0, [part(load('d', -100), 1), part(a, 1)]))).toBeCloseTo(Math.SQRT2 * step, 12);
  });

  it('that is wrong throughout does not show where lengths are compared: a whole and its parts', () => {
    const rule = value(instrumentClass('steel rule, 0.001 mm, 0.02 %'));
    const span = (id: string, length: number): Input => given({ id, readings: [length], instrument: rule });
    const closure = combine(0, [part(span('L', 0.4), 1), part(span('s_1', 0.1), -1), part(span('s_2', 0.3), -1)]);
    expect(standardUncertainty(closure)).toBeCloseTo(Math.sqrt(3) * 1e-6 / Math.sqrt(12), 12);
    expect(standardUncertainty(combine(0.4, [part(span('s_1', 0.1), 1), part(span('s_2', 0.3), 1)]))).toBeCloseTo(Math.hypot(0.0002 * 0.4 / Math.sqrt(3), Math.SQRT2 * 1e-6 / Math.sqrt(12)), 12);
  });

  it('agrees with the double sum over all pairs, whatever is combined', () => {
    const weight = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(fc.property(weight, weight, weight, weight, (wa, wb, wc, wd) => {
      const inputs = [a, b, load('c', -400), given({ id: 'd', readings: [0.01], instrument: value(instrumentClass('micrometer, 0.01 mm')) })];
      const weights = [wa, wb, wc, wd];
      const estimate = combine(0, inputs.map((input, i) => part(input, weights[i] ?? 0)));
      let variance = 0;
      for (const [i, x] of inputs.entries()) for (const [j, y] of inputs.entries()) variance += (weights[i] ?? 0) * (weights[j] ?? 0) * inputCovariance(x, y);
      expect(Math.abs(standardUncertainty(estimate) - Math.sqrt(Math.max(0, variance)))).toBeLessThan(1e-6);
      const lines = budget(estimate);
      const shares = lines.reduce((sum, line) => sum + line.share + line.covarianceShare, 0);
      expect(standardUncertainty(estimate) < 1e-6 || Math.abs(shares - 1) < 1e-6).toBe(true);
    }));
  });

  it('of another description is another one; weights and fixed limits have none; a stated coefficient stands in its place', () => {
    const read = (id: string, text: string): Input => given({ id, readings: [100], instrument: value(instrumentClass(text)) });
    expect(inputCovariance(a, read('b', 'load cell, 0.5 N, 2 %'))).toBe(0);
    for (const text of ['weights', 'table value', 'micrometer', 'resolution only, 1 mm, 1 %']) expect(inputCovariance(read('a', text), read('b', text))).toBe(0);
    expect(inputCovariance(withCoefficient(a, ['b', 0]), b)).toBe(0);
    expect(standardUncertainty(combine(300, [part(withCoefficient(a, ['b', 0]), 1), part(b, 1)]))).toBeCloseTo(Math.hypot(scale(100), scale(200), Math.SQRT2 * step), 12);
  });

  it('is drawn once for all that was measured on it', () => {
    const sampled = sampleInputs([a, b, c], createRandom(4), 40_000);
    const scatter = (of: (i: number) => number): number => {
      const values = Array.from({ length: 40_000 }, (_, i) => of(i));
      const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
      return Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length);
    };
    const at = (id: string, i: number): number => sampled.get(id)?.[i] ?? Number.NaN;
    expect(scatter((i) => at('a', i) + at('b', i) - at('c', i)) / Math.hypot(scale(100), Math.sqrt(3) * step)).toBeCloseTo(1, 2);
    expect(scatter((i) => at('a', i) + at('b', i) + at('c', i)) / Math.hypot(scale(700), Math.sqrt(3) * step)).toBeCloseTo(1, 2);
    expect(scatter((i) => at('a', i)) / inputUncertainty(a)).toBeCloseTo(1, 2);
  });

  it('claims degrees of freedom: its part is exactly known', () => {
    const scattered = given({ id: 'a', readings: [100, 110, 90], instrument: cell });
    const sum = combine(300, [part(scattered, 1), part(b, 1)]);
    const [scatter, combined] = [10 / Math.sqrt(3), standardUncertainty(sum)];
    expect(combined).toBeCloseTo(Math.hypot(scatter, scale(300), step), 12);
    expect(effectiveDegreesOfFreedom(sum)).toBeCloseTo(2 * (combined / scatter) ** 4, 9);
  });
});

describe('stated coefficients', () => {
  const [a, b, c] = [stated('a', 1, 0.1), stated('b', 2, 0.2), stated('c', 3, 0.3)] as const;

  it('hold for the whole uncertainty, whichever side states them', () => {
    expect(inputCovariance(withCoefficient(a, ['b', 0.5]), b)).toBeCloseTo(0.01, 15);
    expect(inputCovariance(a, withCoefficient(b, ['a', 0.5]))).toBeCloseTo(0.01, 15);
    expect(standardUncertainty(combine(3, [part(a, 1), part(withCoefficient(b, ['a', 0.5]), 1)]))).toBeCloseTo(Math.sqrt(0.05 + 0.02), 15);
  });

  it('are checked one by one', () => {
    const code = (...inputs: readonly Input[]): string => problemCode(checkTogether(inputs));
    expect(code(withCoefficient(a, ['b', -1.5]), b)).toBe('correlation-range');
    expect(code(withCoefficient(a, ['b', Number.NaN]), b)).toBe('correlation-range');
    expect(code(withCoefficient(a, ['a', 0.5]))).toBe('correlation-self');
    expect(code(withCoefficient(a, ['b', 0.5]), withCoefficient(b, ['a', 0.4]))).toBe('correlation-twice');
    expect(checkTogether([withCoefficient(a, ['b', 0.5]), withCoefficient(b, ['a', 0.5])])).toMatchObject({ ok: true });
    expect(checkTogether([withCoefficient(a, ['nowhere', 0.5])])).toMatchObject({ ok: true });
    expect(checkTogether([])).toEqual({ ok: true, value: [] });
  });

  it('are checked all at once: two that follow a third follow each other', () => {
    const impossible = [withCoefficient(a, ['b', 0.9], ['c', 0.9]), withCoefficient(b, ['c', -0.9]), c];
    expect(checkTogether(impossible)).toMatchObject({ ok: false, problem: { code: 'correlation-impossible', key: 'correlated' } });
    expect(checkTogether([withCoefficient(a, ['b', 0.9], ['c', 0.9]), withCoefficient(b, ['c', 0.9]), c]).ok).toBe(true);
    expect(checkTogether([withCoefficient(a, ['b', 1], ['c', 1]), withCoefficient(b, ['c', 1]), c]).ok).toBe(true);
    expect(problemCode(checkTogether([withCoefficient(a, ['b', 0.9], ['c', 0.9]), b, c]))).toBe('correlation-impossible');
  });

  it('that pass the check never give a negative variance', () => {
    const r = fc.double({ min: -1, max: 1, noNaN: true });
    const weight = fc.double({ min: -3, max: 3, noNaN: true });
    let passed = 0;
    fc.assert(fc.property(r, r, r, fc.tuple(weight, weight, weight), (ab, ac, bc, [wa, wb, wc]) => {
      const inputs = [withCoefficient(a, ['b', ab], ['c', ac]), withCoefficient(b, ['c', bc]), c] as const;
      const determinant = 1 + 2 * ab * ac * bc - ab ** 2 - ac ** 2 - bc ** 2;
      const sound = checkTogether(inputs).ok;
      expect(Math.abs(determinant) <= 1e-6 || sound === determinant > 0).toBe(true);
      if (!sound) return;
      passed++;
      const [va, vb, vc] = [wa * 0.1, wb * 0.2, wc * 0.3];
      const variance = va ** 2 + vb ** 2 + vc ** 2 + 2 * (ab * va * vb + ac * va * vc + bc * vb * vc);
      const sum = combine(0, [part(inputs[0], wa), part(inputs[1], wb), part(inputs[2], wc)]);
      expect(variance).toBeGreaterThan(-1e-8);
      expect(Math.abs(standardUncertainty(sum) ** 2 - Math.max(0, variance))).toBeLessThan(1e-12);
    }), { numRuns: 300 });
    expect(passed).toBeGreaterThan(100);
  });
});
