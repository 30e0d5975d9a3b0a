import { unit as libraryUnit } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { fromSI, parseQuantity, toSI } from '../../../src/core/units/index.ts';
import table from '../../tables/units.json' with { type: 'json' };
import { relativeDifference, unitOf, valueOf } from './read.ts';

/** Unit names as the table prints them, in the sheet's writing. */
function asWritten(name: string): string {
  return name.replace(' (avoirdupois)', '').replace(/(mm|in)(\d)/gu, '$1^$2');
}

interface Expected {
  readonly value: number | readonly number[];
  readonly unit: string;
  readonly tolerance: { readonly kind: string; readonly value: number };
}

interface Case {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly inputs: Readonly<Record<string, { readonly value: number | readonly number[]; readonly unit: string }>>;
  readonly expected: Readonly<Record<string, Expected>>;
  readonly recomputed: { readonly value: Readonly<Record<string, number | readonly number[]>> };
}

const cases = table.cases as unknown as readonly Case[];

function list(value: number | readonly number[]): readonly number[] {
  return typeof value === 'number' ? [value] : value;
}


// Source: NIST SP 811:2008, Appendix B, and exact rational arithmetic; see the source in each case of the table.
describe('factors of NIST SP 811 and exact arithmetic', () => {
  const comparisons = cases.flatMap((entry) =>
    Object.entries(entry.expected)
      // An angle per time is not a frequency here; that one line of the table is taken up below.
      .filter(([name]) => name !== 'rad_per_s')
      .map(([name, expected]) => ({ entry, name, expected })),
  );

  it('covers the whole table', () => {
    expect(cases).toHaveLength(19);
    expect(comparisons.length).toBeGreaterThanOrEqual(2 * 17 + 2);
  });

  it.each(comparisons)('$entry.what: $name', ({ entry, name, expected }) => {
    const [input] = Object.values(entry.inputs);
    if (input === undefined) throw new Error('a case without input');
    const from = unitOf(asWritten(input.unit));
    const to = unitOf(asWritten(expected.unit));
    const recomputed = list(entry.recomputed.value[name] ?? []);
    list(input.value).forEach((value, place) => {
      const actual = fromSI(toSI(value, from), to);
      const published = list(expected.value)[place] ?? NaN;
      const tolerance = expected.tolerance.value;
      expect(relativeDifference(actual, published)).toBeLessThanOrEqual(expected.tolerance.kind === 'relative' ? tolerance : tolerance / published);
      expect(relativeDifference(actual, recomputed[place] ?? NaN)).toBeLessThanOrEqual(from.offset === 0 ? 1e-15 : 1e-14);
    });
  });

  it('1 r/min is 2 pi/60 rad/s once the revolution is said to be 2 pi rad', () => {
    const radPerSecond = toSI(1, unitOf('r/min')) * 2 * Math.PI;
    expect(relativeDifference(radPerSecond, cases.find((entry) => entry.id === 'unit-rpm')?.recomputed.value['rad_per_s'] as number)).toBeLessThanOrEqual(1e-15);
  });
});

// Exact by definition: SI Brochure (9th ed.), NIST SP 811:2008 section 4 and Appendix B (from memory).
describe('factors by definition', () => {
  it.each([
    ['km', 1e3], ['cm', 1e-2], ['µm', 1e-6], ['thou', 2.54e-5], ['mil', 2.54e-5],
    ['g', 1e-3], ['kN', 1e3], ['mN', 1e-3], ['MN', 1e6], ['ozf', 0.2780138509537812],
    ['hPa', 1e2], ['kPa', 1e3], ['GPa', 1e9], ['Mpsi', 6894757293.168361],
    ['min', 60], ['h', 3600], ['d', 86400], ['ms', 1e-3], ['kHz', 1e3],
    ['rpm', 1 / 60], ['cycles/min', 1 / 60], ['rev', 1], ['cycle', 1], ['cycles', 1],
    ['°', Math.PI / 180], ['mrad', 1e-3], ['mV', 1e-3], ['mA', 1e-3], ['kΩ', 1e3], ['W', 1], ['J', 1],
    ['%', 1e-2], ['ppm', 1e-6], ['mm^4', 1e-12], ['N/mm^2', 1e6], ['kN·m', 1e3], ['N·mm', 1e-3],
    ['kgf/mm^2', 9806650], ['MPa·m^0.5', 1e6], ['1/°F', 1.8],
  ])('%s', (name, factor) => {
    expect(relativeDifference(unitOf(name).factor, factor)).toBeLessThanOrEqual(1e-15);
  });

  it.each([
    ['0 °C', 0, '°C', 273.15],
    ['100 °C', 100, '°C', 373.15],
    ['32 °F', 32, '°F', 273.15],
    ['212 °F', 212, '°F', 373.15],
    ['-40 °F', -40, '°F', 233.15],
    ['-459.67 °F', -459.67, '°F', 0],
  ])('%s in kelvins', (_, value, unit, kelvins) => {
    expect(toSI(value, unitOf(unit))).toBeCloseTo(kelvins, 11);
  });

  it('rounds once: 6.33 mm is the nearest double to 0.00633 m', () => {
    expect(6.33 * 0.001).not.toBe(0.00633);
    expect([toSI(6.33, unitOf('mm')), fromSI(0.00633, unitOf('mm'))]).toEqual([0.00633, 6.33]);
  });
});

// Source: mathjs, a general library with a unit table of its own.
describe('conversions against mathjs', () => {
  it.each([
    ['3.7', 'inch', 'mm', 'in', 'mm'],
    ['12.5', 'foot', 'm', 'ft', 'm'],
    ['4', 'mil', 'mm', 'mil', 'mm'],
    ['250', 'lbf', 'N', 'lbf', 'N'],
    // The library's own kip and psi are rounded to eight and thirteen digits; its lbf and inch are exact.
    ['2500', 'lbf', 'kN', '2.5 kip', 'kN'],
    ['7', 'kgf', 'N', 'kgf', 'N'],
    ['8', 'lbm', 'kg', 'lb', 'kg'],
    ['45000', 'lbf/inch^2', 'MPa', 'psi', 'MPa'],
    ['45000', 'lbf/inch^2', 'MPa', '45 ksi', 'MPa'],
    ['30000000', 'lbf/inch^2', 'GPa', '30 Mpsi', 'GPa'],
    ['3', 'bar', 'kPa', 'bar', 'kPa'],
    ['90', 'lbf inch', 'N m', 'lbf·in', 'N·m'],
    ['90', 'lbf foot', 'N m', 'lbf·ft', 'N·m'],
    ['0.0075', 'inch^4', 'mm^4', 'in^4', 'mm^4'],
    ['0.02', 'inch^3', 'mm^3', 'in^3', 'mm^3'],
    ['1750', 'm/minute', 'm/s', 'm/min', 'm/s'],
    ['36', 'hour', 'day', 'h', 'd'],
    ['5', 'day', 's', 'd', 's'],
    ['30', 'deg', 'rad', '°', 'rad'],
    ['72', 'degF', 'degC', '°F', '°C'],
    ['18', 'degC', 'degF', '°C', '°F'],
    ['5', 'J', 'N m', 'J', 'N·m'],
    ['12', 'mV', 'V', 'mV', 'V'],
    ['4.7', 'kohm', 'ohm', 'kohm', 'ohm'],
    ['0.3', 'lbf/inch', 'N/mm', 'lbf/in', 'N/mm'],
  ])('%s %s in %s', (value, from, to, ourFrom, ourTo) => {
    const theirs = libraryUnit(Number(value), from).toNumber(to);
    const ours = valueOf(parseQuantity(/^\d/u.test(ourFrom) ? ourFrom : `${value} ${ourFrom}`, unitOf(ourTo)), ourFrom);
    expect(relativeDifference(fromSI(ours.value, unitOf(ourTo)), theirs)).toBeLessThanOrEqual(1e-12);
  });
});
