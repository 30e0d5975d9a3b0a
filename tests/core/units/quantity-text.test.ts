import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity, quantityText, toSI } from '../../../src/core/units/index.ts';
import { UNIT_TABLE } from '../../../src/core/units/unit-table.ts';
import { isPlacedIn, problemOf, underlined, unitOf, valueOf } from './read.ts';
import { cases } from '../../sizes.ts';

describe('quantities as typed', () => {
  it.each([
    ['6.35 mm', 'mm', 0.00635, 6.35, 'mm', undefined],
    ['0.250in', 'mm', 0.00635, 0.25, 'in', undefined],
    ['1/4 in', 'mm', 0.00635, 0.25, 'in', 'read as 0.25 in'],
    ['1 1/4 in', 'mm', 0.03175, 1.25, 'in', 'read as 1.25 in'],
    ['1/4"', 'mm', 0.00635, 0.25, 'in', 'read as 0.25 in'],
    ['6,35 mm', 'mm', 0.00635, 6.35, 'mm', 'read as 6.35 mm'],
    ['200 Nm', 'N·m', 200, 200, 'N·m', 'read as 200 N·m'],
    ['90 in-lb', 'N·m', 10.168634612485503, 90, 'lbf·in', 'read as 90 lbf·in'],
    ['630 Mpa', 'MPa', 630e6, 630, 'MPa', 'read as 630 MPa'],
    ['2 h', 'h', 7200, 2, 'h', undefined],
    ['1500 1/min', 'rev/min', 25, 1500, '1/min', undefined],
    ['3000RPM', 'rev/min', 50, 3000, 'rpm', 'read as 3000 rpm'],
    ['1.2·10^5 cycles', 'cycles', 120000, 120000, 'cycles', undefined],
    ['5 %', '1', 0.05, 5, '%', undefined],
    ['5e3N', 'N', 5000, 5000, 'N', undefined],
    ['-40 °F', '°C', 233.15, -40, '°F', undefined],
  ])('%j in a blank of %s', (text, blank, value, number, unit, echo) => {
    const quantity = valueOf(parseQuantity(text, unitOf(blank)), text);
    expect(Math.abs(quantity.value - value)).toBeLessThanOrEqual(2e-15 * Math.abs(value));
    expect(quantity).toMatchObject({ number, bare: false });
    expect(quantity.unit).toEqual(unitOf(unit));
    expect(quantity.echo).toBe(echo);
  });

  it.each([
    ['6.35', 'mm', 0.00635], ['1/4', 'in', 0.00635], ['20', '°C', 293.15], ['5', '%', 0.05], ['0.9', '1', 0.9],
  ])('bare %j takes the unit of the blank, %s', (text, blank, value) => {
    const quantity = valueOf(parseQuantity(text, unitOf(blank)), text);
    expect(quantity.value).toBe(value);
    expect(quantity.bare).toBe(true);
    expect(quantity.unit).toEqual(unitOf(blank));
  });

  it.each([
    ['7·52 mm', 'mm', 'number-point-raised', 'The · in “7·52” is no decimal point here. Write 7.52 with a point at the foot of the line.', '7·52'],
    ['6.35 kg', 'mm', 'unit-dimension', '6.35 kg is a mass; this blank takes a length. Write a unit such as mm or in.', 'kg'],
    ['6.35 mm mm', 'mm', 'unit-dimension', '6.35 mm·mm is an area; this blank takes a length. Write a unit such as mm or in.', 'mm mm'],
    ['5 mm', '1', 'unit-dimension', '5 mm is a length; this blank takes a number without unit. Write the number without a unit.', 'mm'],
    ['5 %', 'N', 'unit-dimension', '5 % is a number without unit; this blank takes a force. Write a unit such as N or lbf.', '%'],
    ['5 N', 'm/N', 'unit-dimension', '5 N is a force; this blank takes a quantity in m/N. Write a unit such as m/N.', 'N'],
    ['100 rad/s', 'rev/min', 'unit-dimension', '100 rad/s is an angle per time; this blank takes a speed of rotation (1/time). One revolution is 2π rad: divide by 2π and write rev/s, or write rev/min or Hz.', 'rad/s'],
    ['5 kg', 'N', 'unit-mass-for-force', 'kg is a mass, not a force; this blank takes a force. Write 5 kgf if that mass is the weight put on, or the force in N.', 'kg'],
    ['11 lbs', 'N', 'unit-mass-for-force', 'lb is a mass, not a force; this blank takes a force. Write 11 lbf if that mass is the weight put on, or the force in N.', 'lbs'],
    ['5 g', 'N', 'unit-mass-for-force', 'g is a mass, not a force; this blank takes a force. Write 5 gf if that mass is the weight put on, or the force in N.', 'g'],
    ['60 kg/mm^2', 'MPa', 'unit-mass-for-force', 'kg is a mass, not a force; this blank takes a stress. Write 60 kgf/mm^2 if that mass is the weight put on, or the stress in MPa.', 'kg/mm^2'],
    ['630 mpa', 'MPa', 'unit-ambiguous', '“mpa” can be read in more than one way: a small m is milli and a large M is mega. Write MPa.', 'mpa'],
    ['6 mm2', 'mm^2', 'unit-exponent-unmarked', '“mm2” has a number right after the unit mm. For a power write mm^2.', 'mm2'],
    ['6.35 mmm', 'mm', 'unit-unknown', 'The sheet knows no unit “mmm”. Did you mean mm?', 'mmm'],
    ['6.35 🙂', 'mm', 'unit-unknown', 'The sheet knows no unit “🙂”. Write a unit such as mm, N, MPa, in, lbf or ksi.', '🙂'],
    ['mm', 'mm', 'number-missing', '“mm” does not begin with a number. Write a number, such as 6.35 or 1/4.', 'mm'],
    ['5 6 mm', 'mm', 'number-two', 'Two numbers stand here: 5 and 6. Write one number; put repeated readings in square brackets, separated by commas.', '6 mm'],
    ['6,350 mm', 'mm', 'number-comma', 'The comma in “6,350” can be read in two ways: 6350 or 6.350? Write 6350, or 6.350 with a point.', '6,350'],
    ['30 min 1 h', 'h', 'quantity-two', 'Two quantities stand here: 30 min and 1 h. Write one number with one unit, such as 1.5 h or 6.35 mm.', '1 h'],
    ['1 h 75 min', 'h', 'duration-part', '“75 min” can’t stand behind h: it is no part of one, or smaller units follow a fraction. Write whole numbers, each below one of the unit before it: 2 h 13 min 5 s.', '75 min'],
    ['1.5 h 20 min', 'h', 'duration-part', '“1.5 h” is no whole number, and smaller units follow. Write whole numbers, each below one of the unit before it: 2 h 13 min 5 s.', '1.5 h'],
    ['1 h 30 min', 'mm', 'unit-dimension', '1 h 30 min is a time; this blank takes a length. Write a unit such as mm or in.', 'min'],
    ['6.31 ± 0.02 mm', 'mm', 'quantity-uncertainty', 'An uncertainty can’t stand here. Write one value with its unit.', '± 0.02 mm'],
    ['6.31 mm +- 0.02 mm', 'mm', 'quantity-uncertainty', 'An uncertainty can’t stand here. Write one value with its unit.', '+- 0.02 mm'],
    ['1e308 GPa', 'MPa', 'number-too-large', '“1e308 GPa” is larger than any number the sheet can hold. Check the exponent; the largest number is about 1.8e308.', '1e308 GPa'],
    ['1e-320 µm^2', 'mm^2', 'number-too-small', '“1e-320 µm^2” is closer to zero than any number the sheet can hold. Check the exponent, or write 0.', '1e-320 µm^2'],
    ['5 mm; DROP', 'mm', 'unit-unknown', 'The sheet knows no unit “; DROP”. Write a unit such as mm, N, MPa, in, lbf or ksi.', '; DROP'],
  ])('%j in a blank of %s: %s', (text, blank, code, sentence, span) => {
    const problem = problemOf(parseQuantity(text, unitOf(blank)), text);
    expect(problem.code).toBe(code);
    expect(`${problem.what} ${problem.mend}`).toBe(sentence);
    expect(problem.text).toBe(text);
    expect(underlined(problem)).toBe(span);
  });
});

describe('durations in several units', () => {
  it.each([
    ['2 h 13 min 5 s', 7985, 7985, 's'], ['2h13min5s', 7985, 7985, 's'], ['1 h 30 min', 5400, 90, 'min'], ['3 d 4 h', 273600, 76, 'h'],
    ['1 min 2.5 s', 62.5, 62.5, 's'], ['1 hour 5 minutes', 3900, 65, 'min'], ['1 d 0 h 0 min 1 s', 86401, 86401, 's'],
  ])('%s', (text, seconds, number, unit) => {
    const quantity = valueOf(parseQuantity(text, unitOf('h')), text);
    expect(quantity).toMatchObject({ value: seconds, number, unit: { name: unit }, echo: `read as ${number} ${unit}`, bare: false });
  });

  it('any whole seconds come back as they were', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 10_000_000 }), (seconds) => {
      const [h, min, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
      expect(valueOf(parseQuantity(`${h} h ${min} min ${s} s`, unitOf('s')), 'duration').value).toBe(seconds);
    }));
  });

  it('one unit alone is read as ever, and what is no duration too', () => {
    expect(valueOf(parseQuantity('5 min', unitOf('h')), '5 min')).toEqual({ value: 300, number: 5, unit: unitOf('min'), bare: false });
    for (const text of ['1 h 30 m', '1 ft 3 in', '2 h 3 ms']) expect(parseQuantity(text, unitOf('h')).ok).toBe(false);
  });
});

describe('properties of quantities', () => {
  it('what is printed is read back as the same quantity', () => {
    const symbol = fc.constantFrom(...UNIT_TABLE.map((definition) => definition.symbol));
    const number = fc.double({ min: -1e12, max: 1e12, noNaN: true }).filter((value) => Object.is(value, 0) || Math.abs(value) > 1e-200);
    fc.assert(
      fc.property(number, symbol, (value, name) => {
        const unit = unitOf(name);
        const text = quantityText(value, unit);
        const quantity = valueOf(parseQuantity(text, unit), text);
        expect(quantity).toEqual({ value: toSI(value, unit), number: value, unit, bare: false });
      }),
    );
  });

  it('any text in any blank gives a finite value or a problem in that text', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[\d.,]{1,6} ?[a-zA-Z%°^/·]{0,6}$/u)), (text) => {
        const result = parseQuantity(text, unitOf('mm'));
        expect(result.ok ? Number.isFinite(result.value.value) : isPlacedIn(text, result.problem)).toBe(true);
      }),
      { numRuns: cases(3000) },
    );
  });
});
