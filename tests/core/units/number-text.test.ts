import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../../src/core/units/index.ts';
import { isPlacedIn, problemOf, underlined, valueOf } from './read.ts';
import { cases } from '../../sizes.ts';

describe('numbers as typed', () => {
  it.each([
    ['6.35', 6.35], ['-6.35', -6.35], ['−6.35', -6.35], ['–5', -5], ['+5', 5], ['- 5', -5], ['  7 ', 7], ['.5', 0.5], ['5.', 5],
    ['0', 0], ['-0', 0], ['007', 7], ['1e3', 1000], ['1E3', 1000], ['1e-3', 0.001], ['1e−3', 0.001], ['1.2e+5', 120000],
    ['1.2·10^5', 120000], ['1.2*10^5', 120000], ['1.2x10^5', 120000], ['1.2 × 10⁵', 120000], ['1.2·10^-3', 0.0012],
    ['1.2·10^(-3)', 0.0012], ['1.2·10⁻³', 0.0012], ['10^5', 100000], ['10⁷', 1e7], ['1.234', 1.234], ['1.5e308', 1.5e308],
  ])('%j is %d, without a word', (text, value) => {
    expect(valueOf(parseNumber(text), text)).toEqual({ value });
  });

  it.each([
    ['6,35', 6.35, 'read as 6.35'],
    [',5', 0.5, 'read as 0.5'],
    ['-6,3', -6.3, 'read as -6.3'],
    ['6,3500', 6.35, 'read as 6.35'],
    ['0,752', 0.752, 'read as 0.752'],
    ['-0,005', -0.005, 'read as -0.005'],
    ["7'520", 7520, 'read as 7520'],
    ['1\u2019234\u2019567.8', 1234567.8, 'read as 1234567.8'],
    ['1,2e3', 1200, 'read as 1200'],
    ['1,234.5', 1234.5, 'read as 1234.5'],
    ['1.234,5', 1234.5, 'read as 1234.5'],
    ['1.234,567', 1234.567, 'read as 1234.567'],
    ['1,234,567', 1234567, 'read as 1234567'],
    ['1.234.567', 1234567, 'read as 1234567'],
    ['1,234,567.8', 1234567.8, 'read as 1234567.8'],
    ['12 345', 12345, 'read as 12345'],
    ['12 345.6', 12345.6, 'read as 12345.6'],
    ['12 345,678', 12345.678, 'read as 12345.678'],
    ['12\u2009345', 12345, 'read as 12345'],
    ['12\u202f345\u202f678', 12345678, 'read as 12345678'],
    ['12\u00a0345', 12345, 'read as 12345'],
    ['100.021\u200947', 100.02147, 'read as 100.02147'],
    ['1/4', 0.25, 'read as 0.25'],
    ['1 1/4', 1.25, 'read as 1.25'],
    ['-1 1/4', -1.25, 'read as -1.25'],
    ['1-1/4', 1.25, 'read as 1.25'],
    ['3⁄8', 0.375, 'read as 0.375'],
    ['1¼', 1.25, 'read as 1.25'],
    ['½', 0.5, 'read as 0.5'],
    ['200/3', 200 / 3, `read as ${200 / 3}`],
  ])('%j is %d, with an echo', (text, value, echo) => {
    expect(valueOf(parseNumber(text), text)).toEqual({ value, echo });
  });

  it.each([
    ['', 'number-empty', 'Nothing is written here yet. Write a number, such as 6.35 or 1/4.', ''],
    ['   ', 'number-empty', 'Nothing is written here yet. Write a number, such as 6.35 or 1/4.', ''],
    ['abc', 'number-missing', '“abc” does not begin with a number. Write a number, such as 6.35 or 1/4.', 'abc'],
    ['ø 7.52 mm', 'number-missing', '“ø 7.52 mm” does not begin with a number. Leave the sign of a diameter out: 7.52 mm.', 'ø 7.52 mm'],
    ['🙂', 'number-missing', '“🙂” does not begin with a number. Write a number, such as 6.35 or 1/4.', '🙂'],
    ['-', 'number-missing', '“-” does not begin with a number. Write a number, such as 6.35 or 1/4.', '-'],
    [',', 'number-missing', '“,” does not begin with a number. Write a number, such as 6.35 or 1/4.', ','],
    ['=1+1', 'number-missing', '“=1+1” does not begin with a number. Write a number, such as 6.35 or 1/4.', '=1+1'],
    ['NaN', 'number-not-finite', '“NaN” is not a number that can be measured. Write a number, such as 6.35 or 1/4.', 'NaN'],
    ['-Infinity', 'number-not-finite', '“Infinity” is not a number that can be measured. Write a number, such as 6.35 or 1/4.', '-Infinity'],
    ['∞', 'number-not-finite', '“∞” is not a number that can be measured. Write a number, such as 6.35 or 1/4.', '∞'],
    ['0x10', 'number-hexadecimal', '“0x10” is not written in decimal digits. Write the number in the ordinary way, such as 16.', '0x10'],
    ['1,234', 'number-comma', 'The comma in “1,234” can be read in two ways: 1234 or 1.234? Write 1234, or 1.234 with a point.', '1,234'],
    ['-12,345', 'number-comma', 'The comma in “12,345” can be read in two ways: 12345 or 12.345? Write 12345, or 12.345 with a point.', '-12,345'],
    ['1,2,3', 'number-separators', 'The commas and points in “1,2,3” do not make one number. Write one decimal point and no commas, such as 1234.5.', '1,2,3'],
    ['1.2.3', 'number-separators', 'The commas and points in “1.2.3” do not make one number. Write one decimal point and no commas, such as 1234.5.', '1.2.3'],
    ['12,34.5', 'number-separators', 'The commas and points in “12,34.5” do not make one number. Write one decimal point and no commas, such as 1234.5.', '12,34.5'],
    ['5 6', 'number-two', 'Two numbers stand here: 5 and 6. Write one number; put repeated readings in square brackets, separated by commas.', '6'],
    ['12 34', 'number-two', 'Two numbers stand here: 12 and 34. Write one number; put repeated readings in square brackets, separated by commas.', '34'],
    ['6.31, 6.33', 'number-two', 'Two numbers stand here: 6.31 and 6.33. Write one number; put repeated readings in square brackets, separated by commas.', ', 6.33'],
    ['6.35 mm', 'number-extra', '“mm” stands after the number. Write the number alone here.', 'mm'],
    ['1e999', 'number-too-large', '“1e999” is larger than any number the sheet can hold. Check the exponent; the largest number is about 1.8e308.', '1e999'],
    ['-1e999', 'number-too-large', '“-1e999” is larger than any number the sheet can hold. Check the exponent; the largest number is about 1.8e308.', '-1e999'],
    ['1e-999', 'number-too-small', '“1e-999” is closer to zero than any number the sheet can hold. Check the exponent, or write 0.', '1e-999'],
    ['1/0', 'number-division-by-zero', '“1/0” divides by zero. Write a number other than 0 below the line.', '1/0'],
    ['1 3/2', 'number-fraction', '“1 3/2” can’t be read as a fraction. Write whole numbers above and below the line, such as 1/4 or 1 1/4, or a decimal number.', '1 3/2'],
    ['1/4.5', 'number-fraction', '“1/4.5” can’t be read as a fraction. Write whole numbers above and below the line, such as 1/4 or 1 1/4, or a decimal number.', '1/4.5'],
    ['1:30', 'number-clock-two-ways', '“1:30” can be read in two ways: 1 h 30 min, or 1 min 30 s? For a time write 1.5 h or 90 s.', '1:30'],
    ['1:20', 'number-clock-two-ways', '“1:20” can be read in two ways: 1 h 20 min, or 1 min 20 s? For a time write 80 min or 80 s.', '1:20'],
    ['1:30:15', 'number-clock', '“1:30:15” is a clock reading: 1 h 30 min 15 s? For a time write 5415 s.', '1:30:15'],
    ['9'.repeat(201), 'text-too-long', 'This text has 201 characters; at most 200 can be read here. Write less here: one value with its unit, such as 6.35 mm.', '9'],
  ])('%j: %s', (text, code, sentence, span) => {
    const problem = problemOf(parseNumber(text), text);
    expect(problem.code).toBe(code);
    expect(`${problem.what} ${problem.mend}`).toBe(sentence);
    expect(underlined(problem)).toBe(span);
  });
});

describe('properties of numbers', () => {
  it('what the program prints is read as the same number', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true }), (value) => {
        expect(valueOf(parseNumber(String(value)), String(value))).toEqual({ value: value + 0 });
      }),
    );
  });

  it('decimal comma and decimal point mean the same', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 99999 }), fc.integer({ min: 0, max: 99 }), (whole, cents) => {
        const fraction = String(cents).padStart(2, '0');
        const point = valueOf(parseNumber(`${whole}.${fraction}`), 'point');
        expect(valueOf(parseNumber(`${whole},${fraction}`), 'comma').value).toBe(point.value);
      }),
    );
  });

  it('whole numbers grouped in any customary way are read alike', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1e6, max: 1e12 }), fc.constantFrom(',', '.', ' ', '\u2009', '\u202f', '\u00a0'), (value, mark) => {
        const grouped = String(value).replace(/\B(?=(\d{3})+$)/gu, mark);
        // These may be readings and are asked about.
        fc.pre(mark !== ',' || /^\d{1,2},|,0/.test(grouped));
        expect(valueOf(parseNumber(grouped), grouped).value).toBe(value);
      }),
    );
  });

  it('fractions are rounded once', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40 }), fc.constantFrom(2, 3, 4, 7, 8, 16, 32, 64), fc.integer({ min: 1, max: 63 }), (whole, below, n) => {
        const above = 1 + (n % (below - 1));
        const text = `${whole} ${above}/${below}`;
        expect(valueOf(parseNumber(text), text).value).toBe((whole * below + above) / below);
      }),
    );
  });

  it('any text gives a finite number or a problem whose span lies in the text', () => {
    const digits = fc.string({ unit: fc.constantFrom('1', '0', '9', '.', ',', ' ', '/', 'e', '-', '+', 'x', '^', ':', '½', '·'), maxLength: 15 });
    fc.assert(
      fc.property(fc.oneof(digits, fc.string()), (text) => {
        const result = parseNumber(text);
        expect(result.ok ? Number.isFinite(result.value.value) : isPlacedIn(text, result.problem)).toBe(true);
      }),
      { numRuns: cases(3000) },
    );
  });
});
