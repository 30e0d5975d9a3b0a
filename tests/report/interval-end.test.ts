import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { roundByUncertainty } from '../../src/core/estimate/index.ts';
import { intervalEnd } from '../../src/report/present/number.ts';

/** Significant figures of a number as it is written; zeros at its end count. */
function figuresIn(text: string): number {
  const digits = text.replace(/·.*/, '').replace(/[^\d]/g, '').replace(/^0+/, '');
  return digits.length;
}

describe('an end of an interval', () => {
  it.each([
    [2953, 1.2e6, 4.1e5, '2950'],
    [31_234, 1.2e6, 4.1e5, '31\u202f200'],
    [0.02, 1, 0.5, '0.0200'],
    [4.05e6, 1.2e6, 4.1e5, '4.05·10⁶'],
    [-2953, 1.2e6, 4.1e5, '\u22122950'],
    [0, 1, 0.5, '0.00'],
    [1e-17, 1, 0.5, '0.00'],
    [Number.POSITIVE_INFINITY, 1, 0.5, '∞'],
    [Number.NEGATIVE_INFINITY, 1, 0.5, '−∞'],
  ])('%s beside %s ± %s is %s', (end, value, u, text) => {
    expect(intervalEnd(end, roundByUncertainty(value, u))).toBe(text);
  });

  it('never has fewer than two figures, and says what it is', () => {
    fc.assert(fc.property(fc.double({ min: -12, max: 12, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: -6, max: 2, noNaN: true }), (size, relative, below) => {
      const u = 10 ** size;
      const end = u * 10 ** below;
      const text = intervalEnd(end, roundByUncertainty(u * 10 ** relative, u));
      expect(figuresIn(text), text).toBeGreaterThanOrEqual(2);
      const [digits = '', power = '0'] = text.replaceAll('\u202f', '').split('·10');
      const exponent = Number([...power].map((sign) => '⁰¹²³⁴⁵⁶⁷⁸⁹'.includes(sign) ? String('⁰¹²³⁴⁵⁶⁷⁸⁹'.indexOf(sign)) : sign === '⁻' ? '-' : '').join(''));
      const read = digits.startsWith('10') && /^10[⁻⁰¹²³⁴-⁹]+$/.test(digits) ? Number.NaN : Number(digits) * 10 ** exponent;
      expect(Number.isNaN(read) || Math.abs(read / end - 1) < 0.06, text).toBe(true);
    }));
  });
});
