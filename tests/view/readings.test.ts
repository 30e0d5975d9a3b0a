/** How the text of a given stands in its blanks and comes back from them. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseReadings } from '../../src/core/estimate/index.ts';
import { parseUnit } from '../../src/core/units/index.ts';
import { blanksOf, holdsOneQuantity, readingOf, textOfBlanks } from '../../src/view/readings.ts';

const readings = (text: string) => ({ value: undefined, readings: text });
const value = (text: string) => ({ value: text, readings: undefined });

describe('blanks of a given', () => {
  test.each([
    ['101.2, 101.4 mm', ['101.2 mm', '101.4 mm']],
    ['[6.31, 6.33, 6.30] mm', ['6.31 mm', '6.33 mm', '6.30 mm']],
    ['6,31; 6,33 mm', ['6,31 mm', '6,33 mm']],
    ['6,35 mm', ['6,35 mm']],
    ['4 in, 101.5 mm', ['4 in', '101.5 mm']],
    ['1 1/4, 1 3/8 in', ['1 1/4 in', '1 3/8 in']],
    ['abc, 101.5 mm', ['abc', '101.5 mm']],
    ['6.31, 6.33 ± 0.02 mm', ['6.31, 6.33 ± 0.02 mm']],
    ['7.52, 7.51', ['7.52', '7.51']],
  ])('%s', (text, blanks) => {
    expect(blanksOf(readings(text))).toEqual(blanks);
  });

  test('a value is never cut, and an empty one has no blanks', () => {
    expect(blanksOf(value('1,234 mm'))).toEqual(['1,234 mm']);
    expect(blanksOf(value('14.0 ± 0.3 N'))).toEqual(['14.0 ± 0.3 N']);
    expect(blanksOf(value(' '))).toEqual([]);
  });
});

describe('text of blanks', () => {
  test('one reading is a value, several are readings with their unit once', () => {
    expect(textOfBlanks(['6.31 mm', ''])).toEqual(value('6.31 mm'));
    expect(textOfBlanks(['101.2', '101.4 mm', ' '])).toEqual(readings('101.2, 101.4 mm'));
    expect(textOfBlanks([])).toEqual({ value: undefined, readings: undefined });
  });

  test('units that differ stay with their numbers; a decimal comma makes semicolons', () => {
    expect(textOfBlanks(['4 in', '101.5 mm'])).toEqual(readings('4 in, 101.5 mm'));
    expect(textOfBlanks(['6,31 mm', '6,33 mm'])).toEqual(readings('6,31; 6,33 mm'));
  });

  test('bad text stays as typed', () => {
    expect(textOfBlanks(['abc', '101.5 mm'])).toEqual(readings('abc, 101.5 mm'));
    expect(textOfBlanks(['6.35 kg?'])).toEqual(value('6.35 kg?'));
  });

  test('what stands in the blanks comes back to them, and is read as the same numbers', () => {
    const millimetre = parseUnit('mm');
    if (!millimetre.ok) throw new Error('mm is a unit');
    const number = fc.tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 1, max: 3 })).map(([digits, places]) => (digits / 10 ** places).toFixed(places));
    fc.assert(fc.property(fc.array(number, { minLength: 2, maxLength: 6 }), fc.constantFrom('.', ','), (numbers, mark) => {
      const blanks = numbers.map((one) => `${one.replace('.', mark)} mm`);
      const text = textOfBlanks(blanks);
      expect(blanksOf(text)).toEqual(blanks);
      const read = parseReadings(text.readings ?? '', millimetre.value);
      expect(read.ok && read.value.readings.map((one) => Number((one * 1000).toPrecision(12)))).toEqual(numbers.map(Number));
    }));
  });
});

test('a reading is a number and what follows it', () => {
  expect(readingOf('-1.5e-3 m/s')).toEqual({ number: '-1.5e-3', unit: 'm/s' });
  expect(readingOf('.25in')).toEqual({ number: '.25', unit: 'in' });
  expect(readingOf('mm')).toEqual({ number: '', unit: 'mm' });
});

describe('what typing may replace on arrival', () => {
  test.each(['', ' ', '6.35', '6,35 mm', '1 1/4 in', '-3 °C', '1.2e-3 m', '101.5 ± 0.2 mm', '2800 rev/min', '12 345 cycles'])('one quantity or none yet: “%s”', (text) => {
    expect(holdsOneQuantity(text)).toBe(true);
  });

  test.each(['101.2, 101.4 mm', '6,31; 6,33 mm', '[6.31, 6.33] mm', 'steel rule, 0.5 mm', 'K24', '3 scratches near the fillet', 'fracture'])('several, or words: “%s”', (text) => {
    expect(holdsOneQuantity(text)).toBe(false);
  });
});
