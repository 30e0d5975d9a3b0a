import { describe, expect, it } from 'vitest';
import { parseUnit } from '../../src/core/units/index.ts';
import { atSamePlace, decimalTex, decimalText, figures, unitText, withUnit } from '../../src/report/present/number.ts';

const THIN = '\u202f';

function unit(name: string) {
  const parsed = parseUnit(name);
  if (!parsed.ok) throw new Error(parsed.problem.what);
  return parsed.value;
}

describe('decimalText, decimalTex', () => {
  // Grouping by a small space, minus sign and powers of ten: ISO 80000-1:2009, 7.3 (from memory).
  it.each([
    ['312.4', 0, '312.4', '312.4'],
    ['9999', 0, '9999', '9999'],
    ['12345', 0, `12${THIN}345`, '12\\,345'],
    ['1234567.8912345', 0, `1${THIN}234${THIN}567.891${THIN}234${THIN}5`, '1\\,234\\,567.891\\,234\\,5'],
    ['0.1234', 0, '0.1234', '0.1234'],
    ['-6.31', 0, '\u22126.31', '-6.31'],
    ['-0.00', 0, '0.00', '0.00'],
    ['1.23', 5, '1.23·10⁵', '1.23\\cdot 10^{5}'],
    ['-4.5', -12, '\u22124.5·10⁻¹²', '-4.5\\cdot 10^{-12}'],
    ['1', 6, '10⁶', '10^{6}'],
  ])('writes %s times ten to the %i as %s', (decimal, exponent, text, tex) => {
    expect(decimalText(decimal, exponent)).toBe(text);
    expect(decimalTex(decimal, exponent)).toBe(tex);
  });
});

describe('figures', () => {
  it.each([
    [-148.2, 3, '\u2212148'], [0.01234, 2, '0.012'], [1.5e-7, 2, '1.5·10⁻⁷'], [0, 3, '0'], [2, 3, '2.00'], [999.6, 3, '1000'],
    [123456, 3, `123${THIN}000`], [Infinity, 2, '∞'],
  ])('writes %d with %i figures as %s', (value, count, text) => {
    expect(figures(value, count)).toBe(text);
  });
});

describe('the rest', () => {
  it('writes an interval\'s end to the place of the uncertainty', () => {
    expect(atSamePlace(308.276, { number: '312.4', uncertainty: '2.1', exponent: 0 })).toBe('308.3');
    expect(atSamePlace(1.18923e7, { number: '1.230', uncertainty: '0.021', exponent: 7 })).toBe('1.189·10⁷');
    expect(atSamePlace(-0.0001, { number: '0.25', uncertainty: '0.13', exponent: 0 })).toBe('0.00');
    expect(atSamePlace(123456, { number: '125000', uncertainty: '2100', exponent: 0 })).toBe(`123${THIN}500`);
  });

  it('writes units as one does on paper, readable by the sheet again', () => {
    expect(unitText(unit('mm^4'))).toBe('mm⁴');
    expect(unitText(unit('1'))).toBe('');
    for (const name of ['mm^4', 'N·m', 's^-1', 'N/mm^2', '%', '°C', 'rev/min']) {
      expect(unit(unitText(unit(name))).name).toBe(unit(name).name);
    }
    expect(withUnit('12', unitText(unit('deg')))).toBe('12°');
    expect(withUnit('12', '%')).toBe('12 %');
    expect(withUnit('12', '')).toBe('12');
  });
});
