import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseMeasurement, parseReadings, type Measurement } from '../../../src/core/estimate/measurement-text.ts';
import type { Distribution } from '../../../src/core/estimate/types.ts';
import { problemSentence, type Result } from '../../../src/core/problem/index.ts';
import { isPlacedIn, problemOf, relativeDifference, underlined, unitOf, valueOf } from '../units/read.ts';
import { cases } from '../../sizes.ts';

/** All that is pinned of a problem. */
function told(result: Result<unknown>, text: string): readonly unknown[] {
  const problem = problemOf(result, text);
  return [problem.code, problemSentence(problem), problem.text, underlined(problem)];
}

function isWithinNumbers({ readings, stated }: Measurement): boolean {
  const uncertainty = stated?.value ?? 0;
  return readings.length > 0 && readings.every(Number.isFinite) && Number.isFinite(uncertainty) && uncertainty >= 0;
}

describe('one value', () => {
  it.each([
    ['6.31 mm', 'mm', 0.00631, 'mm', []],
    ['6.31', 'mm', 0.00631, 'mm', []],
    ['6.31 [mm]', 'mm', 0.00631, 'mm', []],
    ['310[N]', 'N', 310, 'N', []],
    ["7'520 µm", 'mm', 0.00752, 'µm', ['read as 7520 µm']],
    ['0.250in', 'mm', 0.00635, 'in', []],
    ['1/4 in', 'mm', 0.00635, 'in', ['read as 0.25 in']],
    ['6,35 mm', 'mm', 0.00635, 'mm', ['read as 6.35 mm']],
    ['1,234,567 cycles', 'cycles', 1234567, 'cycles', ['read as 1234567 cycles']],
    ['5 W/(m·K)', 'W/(m·K)', 5, 'W/(m·K)', []],
    ['20', '°C', 293.15, '°C', []],
  ])('%j in a blank of %s', (text, blank, value, unit, echoes) => {
    const measurement = valueOf(parseMeasurement(text, unitOf(blank)), text);
    expect(measurement).toEqual({ readings: [expect.closeTo(value, 12)], unit: unitOf(unit), echoes });
  });
});

// What ± stands for is this sheet's own rule; the concise forms are those of JCGM 100:2008, 7.2.2 (from memory).
describe('a value with its standard uncertainty', () => {
  it.each([
    ['6.31 ± 0.02 mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 +- 0.02 mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 +/- 0.02 mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31mm±0.02mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 mm ± 0.02', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 ± 0.02', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6,31 ± 0,02 mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 mm ± 20 µm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 20 µm'],
    ['0.25 in ± 0.1 mm', 'mm', 0.00635, 1e-4, 'read as 0.25 in with standard uncertainty 0.1 mm'],
    ['0.25 ± 0.001 in', 'mm', 0.00635, 2.54e-5, 'read as 0.25 in with standard uncertainty 0.001 in'],
    ['6.35 ± 0.02 mm', 'in', 0.00635, 2e-5, 'read as 6.35 mm with standard uncertainty 0.02 mm'],
    ['200 ± 2 GPa', 'MPa', 200e9, 2e9, 'read as 200 GPa with standard uncertainty 2 GPa'],
    ['200 N ± 1 %', 'N', 200, 2, 'read as 200 N with standard uncertainty 2 N'],
    ['200 ± 1 %', 'N', 200, 2, 'read as 200 N with standard uncertainty 2 N'],
    ['-200 ± 1 %', 'N', -200, 2, 'read as -200 N with standard uncertainty 2 N'],
    ['1000 N ± 50 ppm', 'N', 1000, 0.05, 'read as 1000 N with standard uncertainty 0.05 N'],
    ['1000 cycles ± 1 %', 'cycles', 1000, 10, 'read as 1000 cycles with standard uncertainty 10 cycles'],
    ['45 ± 2 %', '%', 0.45, 0.02, 'read as 45 % with standard uncertainty 2 %'],
    ['45 % ± 2 %', '1', 0.45, 0.02, 'read as 45 % with standard uncertainty 2 %'],
    ['45 % ± 2', '%', 0.45, 0.02, 'read as 45 % with standard uncertainty 2 %'],
    ['20 ± 1 °C', '°C', 293.15, 1, 'read as 20 °C with standard uncertainty 1 °C'],
    ['20 °C ± 1 K', '°C', 293.15, 1, 'read as 20 °C with standard uncertainty 1 K'],
    ['68 °F ± 0.9 °F', '°C', 293.15, 0.5, 'read as 68 °F with standard uncertainty 0.9 °F'],
    ['6.31 ± 0 mm', 'mm', 0.00631, 0, 'read as 6.31 mm with standard uncertainty 0 mm'],
    ['6.31(2) mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    ['6.31 (12)', 'mm', 0.00631, 1.2e-4, 'read as 6.31 mm with standard uncertainty 0.12 mm'],
    ['631(2) mm', 'mm', 0.631, 2e-3, 'read as 631 mm with standard uncertainty 2 mm'],
    ['6,31(2) mm', 'mm', 0.00631, 2e-5, 'read as 6.31 mm with standard uncertainty 0.02 mm'],
    // The example of JCGM 100:2008, 7.2.2: m_S = 100.021 47(35) g and 100.021 47(0.000 35) g.
    ['100.021\u202f47(35) g', 'kg', 0.10002147, 3.5e-7, 'read as 100.02147 g with standard uncertainty 0.00035 g'],
    ['100.02147(0.00035) g', 'kg', 0.10002147, 3.5e-7, 'read as 100.02147 g with standard uncertainty 0.00035 g'],
    ['1.234(5)e3 N', 'N', 1234, 5, 'read as 1234 N with standard uncertainty 5 N'],
    ['1.2(0.1)·10^3 N', 'N', 1200, 100, 'read as 1200 N with standard uncertainty 100 N'],
  ])('%j in a blank of %s', (text, blank, value, uncertainty, echo) => {
    const { readings, stated, echoes } = valueOf(parseMeasurement(text, unitOf(blank)), text);
    expect(readings).toHaveLength(1);
    expect(relativeDifference(readings[0], value)).toBeLessThan(1e-14);
    expect(stated).toMatchObject({ kind: 'standard uncertainty', distribution: 'normal' });
    expect(relativeDifference(stated?.value, uncertainty)).toBeLessThan(1e-14);
    expect(echoes).toEqual([echo]);
  });
});

describe('a value between limits', () => {
  it.each<[string, Distribution]>([
    ['6.31 ± 0.02 mm limit', 'rectangular'],
    ['6.31 ± 0.02 mm a limit', 'rectangular'],
    ['6.31 mm ± 0.02 mm limits', 'rectangular'],
    ['6.31 ± 0.02 mm, limit', 'rectangular'],
    ['6.31 ± 0.02 a limit mm', 'rectangular'],
    ['6.31 ± 0.02 mm (limit)', 'rectangular'],
    ['6.31 ± 0.02 limit', 'rectangular'],
    ['6.31 ± 0.02 mm limit rectangular', 'rectangular'],
    ['6.31 ± 0.02 mm limit uniform', 'rectangular'],
    ['6.31 ± 0.02 mm Limit Triangular', 'triangular'],
    ['6.31 ± 0.02 mm triangular limit', 'triangular'],
    ['6.31 ± 0.02 mm limit arcsine', 'arcsine'],
    ['6.31 ± 0.02 mm limit normal', 'normal'],
    ['6.31 ± 0.02 mm limit curvilinear trapezoid', 'curvilinear trapezoid'],
    ['6.31 ± 0.02 mm limit t', 't'],
  ])('%j', (text, distribution) => {
    const { readings, stated, echoes } = valueOf(parseMeasurement(text, unitOf('mm')), text);
    expect(relativeDifference(readings[0], 0.00631)).toBeLessThan(1e-14);
    expect(stated?.kind).toBe('limit');
    expect(stated?.distribution).toBe(distribution);
    expect(relativeDifference(stated?.value, 2e-5)).toBeLessThan(1e-14);
    expect(echoes).toEqual([`read as 6.31 mm with limits ±0.02 mm, ${distribution}`]);
  });

  it('the ampere is not taken for the article', () => {
    expect(valueOf(parseMeasurement('5 ± 0.02 A limit', unitOf('mA')), 'A').unit.name).toBe('A');
  });
});

describe('repeated readings', () => {
  it.each([
    ['[6.31, 6.33, 6.30] mm', [6.31, 6.33, 6.3], []],
    ['[6.31,6.33,6.30] mm', [6.31, 6.33, 6.3], []],
    ['[6.31 mm, 6.33 mm]', [6.31, 6.33], []],
    ['[6.31, 6.33 mm]', [6.31, 6.33], []],
    ['[6.31]', [6.31], []],
    ['[6, 7]', [6, 7], []],
    ['[6.31; 6.33] mm', [6.31, 6.33], []],
    ['[6,35; 6,36] mm', [6.35, 6.36], ['read as 2 readings: 6.35; 6.36 mm']],
    ['[6,351; 6,362] mm', [6.351, 6.362], ['read as 2 readings: 6.351; 6.362 mm']],
    ['[6,35, 6,36] mm', [6.35, 6.36], ['read as 2 readings: 6.35; 6.36 mm']],
    ['6,31; 6,33 mm', [6.31, 6.33], ['read as 2 readings: 6.31; 6.33 mm']],
    ['6.31, 6.33 mm', [6.31, 6.33], ['read as 2 readings: 6.31; 6.33 mm']],
    ['6.31,6.33 mm', [6.31, 6.33], ['read as 2 readings: 6.31; 6.33 mm']],
    ['[1,234.5, 1,236.0] mm', [1234.5, 1236], ['read as 2 readings: 1234.5; 1236 mm']],
    ['[1 1/4, 1 3/8]', [1.25, 1.375], ['read as 2 readings: 1.25; 1.375 mm']],
  ])('%j', (text, millimetres, echoes) => {
    const measurement = valueOf(parseMeasurement(text, unitOf('mm')), text);
    expect(measurement.readings).toEqual(millimetres.map((value) => value / 1000));
    expect(measurement.unit.name).toBe('mm');
    expect(measurement.echoes).toEqual(echoes);
    expect(measurement.stated).toBeUndefined();
  });

  it('each reading may have a unit of its own; the first one counts as the unit measured in', () => {
    const { readings, unit, echoes } = valueOf(parseMeasurement('[1 in, 25,5 mm]', unitOf('mm')), 'two units');
    expect(readings).toEqual([0.0254, 0.0255]);
    expect(unit.name).toBe('in');
    expect(echoes).toEqual(['read as 2 readings: 1 in; 25.5 mm']);
  });

  it.each([
    ['101.2, 101.4 mm', [101.2, 101.4], []],
    ['101.2,101.4 mm', [101.2, 101.4], []],
    ['101.2; 101.4 mm', [101.2, 101.4], []],
    ['101, 102', [101, 102], []],
    ['101 mm, 102 mm', [101, 102], []],
    ['6,35; 6,36', [6.35, 6.36], ['read as 2 readings: 6.35; 6.36 mm']],
    ['6,35, 6,36 mm', [6.35, 6.36], ['read as 2 readings: 6.35; 6.36 mm']],
    ['6,35 mm', [6.35], ['read as 6.35 mm']],
    ['101', [101], []],
  ])('under the key readings: %j', (text, millimetres, echoes) => {
    const measurement = valueOf(parseReadings(text, unitOf('mm')), text);
    expect(measurement.readings).toEqual(millimetres.map((value) => value / 1000));
    expect(measurement.echoes).toEqual(echoes);
  });

  it('a list that the sheet would print is read back', () => {
    const numbers = fc.array(fc.integer({ min: -999999, max: 999999 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(numbers, fc.constantFrom(', ', ',', '; ', ';'), fc.boolean(), (thousandths, separator, bracketed) => {
        const list = thousandths.map((value) => (value / 1000).toFixed(3)).join(separator);
        const text = bracketed ? `[${list}] mm` : `${list} mm`;
        const { readings } = valueOf(parseReadings(text, unitOf('mm')), text);
        expect(readings).toEqual(thousandths.map((value) => value / 1000 / 1000 + 0));
      }),
    );
  });

  it('decimal commas between semicolons are read as decimal points', () => {
    const numbers = fc.array(fc.integer({ min: 1, max: 999999 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(numbers, (thousandths) => {
        const points = thousandths.map((value) => (value / 1000).toFixed(3)).join('; ');
        const commas = points.replaceAll('.', ',');
        const read = (text: string): readonly number[] => valueOf(parseReadings(text, unitOf('mm')), text).readings;
        expect(read(commas)).toEqual(read(points));
      }),
    );
  });
});

describe('what is asked about or refused', () => {
  it.each([
    ['', 'mm', 'number-empty', 'Nothing is written here yet. Write a number, such as 6.35 or 1/4.', ''],
    ['6.31 ± -0.02 mm', 'mm', 'uncertainty-negative', 'The uncertainty -0.02 is negative. Write it without a minus sign; ± stands for both directions.', '-0.02 mm'],
    ['6.31 ± 0.02 ± 1 mm', 'mm', 'uncertainty-twice', 'Two uncertainties stand here. Write one value and one ±, such as 6.31 ± 0.02 mm.', '± 1 mm'],
    ['± 0.02 mm', 'mm', 'value-missing', 'No value stands before ±. Write the value first, such as 6.31 ± 0.02 mm.', '±'],
    ['6.31 ± mm', 'mm', 'uncertainty-missing', 'No number stands after ±. Write the uncertainty there, such as 6.31 ± 0.02 mm.', '± mm'],
    ['6.31 mm ±', 'mm', 'uncertainty-missing', 'No number stands after ±. Write the uncertainty there, such as 6.31 ± 0.02 mm.', '±'],
    ['6.31 ± 0.02 mm (k=2)', 'mm', 'uncertainty-expanded', 'k = 2 says that the figure after ± is an expanded uncertainty. Write the standard uncertainty: that figure divided by 2, without k.', '(k=2)'],
    ['6.31 ± 20 µm', 'mm', 'uncertainty-unit-unclear', 'The value has no unit of its own and can be read in two ways: 6.31 µm or 6.31 mm? Write the unit after both numbers: 6.31 µm ± ..., or 6.31 mm ± ...', '6.31'],
    ['0.9 ± 1 %', '1', 'uncertainty-percent-unclear', '± 1 % can be read in two ways: 1 % of 0.9, or 0.01 itself? Write ± 0.009, or ± 0.01.', '1 %'],
    ['0 N ± 1 %', 'N', 'uncertainty-percent-of-zero', '1 % of 0 is nothing. Write the uncertainty in N.', '1 %'],
    ['20 °C ± 1 %', '°C', 'uncertainty-percent-of-temperature', '1 % of a temperature in °C has no meaning, because 0 °C is not the absence of heat. Write the uncertainty in °C.', '1 %'],
    ['6.31 ± 0.02 kg', 'mm', 'unit-dimension', '0.02 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['6.31 kg ± 0.02 mm', 'mm', 'unit-dimension', '6.31 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['6.31 mm ± 0.02 kg', 'mm', 'unit-dimension', '0.02 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['6.31(2) kg', 'mm', 'unit-dimension', '6.31 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['6,312(2) mm', 'mm', 'number-comma', 'The comma in “6,312” can be read in two ways: 6312 or 6.312? Write 6312, or 6.312 with a point.', '6,312'],
    ['5 kg ± 1 N', 'N', 'unit-mass-for-force', 'kg is a mass, not a force; this blank takes a force. Write 5 kgf if that mass is the weight put on, or the force in N.', 'kg'],
    ['6.31 ± 1e999 mm', 'mm', 'number-too-large', '“1e999” is larger than any number the sheet can hold. Check the exponent; the largest number is about 1.8e308.', '1e999'],
    ['6.31 mm limit', 'mm', 'limit-without-value', 'The word limit stands here, but no ± with the limit’s size. Write such as 6.31 ± 0.02 mm limit.', 'limit'],
    ['6.31 ± 0.02 mm limit square', 'mm', 'limit-distribution-unknown', '“square” after the word limit is no distribution that the sheet knows. Write rectangular, triangular, normal, arcsine, curvilinear trapezoid or t, or nothing for rectangular.', 'square'],
    ['6.31 ± 0.02 mm triangular', 'mm', 'limit-word-missing', '“triangular” says how a limit is spread, but the word limit is missing. Write limit triangular if the figure after ± is a limit.', 'triangular'],
    ['101,102 mm', 'mm', 'number-comma', 'The comma in “101,102” can be read in two ways: 101102 or 101.102? Write 101102, or 101.102 with a point.', '101,102'],
    ['[101,102] mm', 'mm', 'readings-comma', 'It is not clear in “101,102” which commas separate readings and which are decimal marks. Put ; between readings, or a blank after each comma that separates two.', '101,102'],
    ['[6,35] mm', 'mm', 'readings-comma', 'It is not clear in “6,35” which commas separate readings and which are decimal marks. Put ; between readings, or a blank after each comma that separates two.', '6,35'],
    ['[1,234, 1,236] mm', 'mm', 'number-comma', 'The comma in “1,234” can be read in two ways: 1234 or 1.234? Write 1234, or 1.234 with a point.', '1,234'],
    ['[1 2 3] mm', 'mm', 'readings-separator', 'After 1 another number follows without a separator. Put a comma between readings, or ; where the comma is your decimal mark.', '2 3'],
    ['[]', 'mm', 'readings-empty', 'There is no reading here. Write readings separated by commas, such as [6.31, 6.33] mm.', '[]'],
    ['[6.31, , 6.33] mm', 'mm', 'readings-gap', 'Reading 2 is empty. Write a number there, or take one of the separators out.', ' '],
    ['[6,, 7] mm', 'mm', 'readings-gap', 'Reading 2 is empty. Write a number there, or take one of the separators out.', ''],
    ['[6.31, 6.33', 'mm', 'readings-bracket', 'The square brackets round the readings are not complete. Write one pair, with the unit after it, such as [6.31, 6.33] mm.', '[6.31, 6.33'],
    ['[6.31 mm, 6.33]', 'mm', 'readings-unit-missing', 'The reading 6.33 has no unit, while 6.31 mm has one. Write the unit once, after the last reading, or after each of them.', '6.33'],
    ['[6.31, 6.33 mm] mm', 'mm', 'readings-unit-twice', 'A unit stands inside the brackets and after them. Write the unit once, after the brackets.', 'mm'],
    ['[6.31, 6.33] kg', 'mm', 'unit-dimension', '6.31 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['[6.31, 6.33 kg]', 'mm', 'unit-dimension', '6.31 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['[6.31, abc] mm', 'mm', 'number-missing', '“abc” does not begin with a number. Write a number, such as 6.35 or 1/4.', 'abc'],
    ['[6.31, 6.33] mmm', 'mm', 'unit-unknown', 'The sheet knows no unit “mmm”. Did you mean mm?', 'mmm'],
    ['[6.31, 6.33] ± 1 mm', 'mm', 'readings-uncertainty', 'Repeated readings and a stated uncertainty stand together. Write the readings alone, and the sheet works their uncertainty out; or write one value with ±.', '± 1 mm'],
  ])('%j in a blank of %s: %s', (text, blank, code, sentence, span) => {
    expect(told(parseMeasurement(text, unitOf(blank)), text)).toEqual([code, sentence, text, span]);
  });

  it.each([
    ['101,102', 'number-comma', 'The comma in “101,102” can be read in two ways: 101102 or 101.102? Write 101102, or 101.102 with a point.', '101,102'],
    ['101,102,103', 'readings-comma', 'It is not clear in “101,102,103” which commas separate readings and which are decimal marks. Put ; between readings, or a blank after each comma that separates two.', '101,102,103'],
    ['6,3,6,4', 'readings-comma', 'It is not clear in “6,3,6,4” which commas separate readings and which are decimal marks. Put ; between readings, or a blank after each comma that separates two.', '6,3,6,4'],
    ['6.31 ± 0.02', 'readings-uncertainty', 'Repeated readings and a stated uncertainty stand together. Write the readings alone, and the sheet works their uncertainty out; or write one value with ±.', '± 0.02'],
    ['', 'readings-empty', 'There is no reading here. Write readings separated by commas, such as [6.31, 6.33] mm.', ''],
  ])('under the key readings, %j: %s', (text, code, sentence, span) => {
    expect(told(parseReadings(text, unitOf('mm')), text)).toEqual([code, sentence, text, span]);
  });

  it('long pasted text is refused at once', () => {
    for (const text of ['9'.repeat(201), 'x'.repeat(1e6), `[${'1, '.repeat(1e5)}1] mm`, `${' '.repeat(1e5)}±`, '6.31, '.repeat(1e5)]) {
      expect(problemOf(parseMeasurement(text, unitOf('mm')), 'long text').code).toBe('text-too-long');
    }
  });

  it('any text gives finite readings or a problem in that text', () => {
    const pieces = fc.constantFrom('6.31', '6,31', '1,234', ',', ';', ' ', '[', ']', '±', '+-', 'mm', '%', 'limit', '(', ')', '2', 'kg', 'k=2', '-', 'triangular', '°C');
    fc.assert(
      fc.property(fc.oneof(fc.array(pieces, { maxLength: 10 }).map((list) => list.join('')), fc.string()), (text) => {
        const result = parseMeasurement(text, unitOf('mm'));
        expect(result.ok ? isWithinNumbers(result.value) : isPlacedIn(text, result.problem)).toBe(true);
      }),
      { numRuns: cases(4000) },
    );
  });
});
