import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkTogether, combine, inputCovariance, inputUncertainty, instrumentClass, standardUncertainty, type Input,
} from '../../../src/core/estimate/index.ts';
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
    const instrument = value(instrumentClass('resolution only, 1 mm'));
    const read = (id: string): Input => given({ id, readings: [0.1, 0.102, 0.104], together: 'bench', instrument });
    const [a, b] = [read('a'), read('b')];
    expect(inputCovariance(a, b)).toBeCloseTo(0.002 ** 2 / 3, 18);
    const difference = combine(0, [part(a, 1), part(b, -1)]);
    expect(standardUncertainty(difference)).toBeCloseTo(Math.SQRT2 * 1e-3 / Math.sqrt(12), 15);
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
