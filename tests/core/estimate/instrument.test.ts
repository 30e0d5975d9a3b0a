import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DISTRIBUTIONS, halfWidthAt, INSTRUMENT_CLASSES, inputUncertainty, instrumentClass, overrideInstrument, type InstrumentClass,
} from '../../../src/core/estimate/index.ts';
import { problemSentence } from '../../../src/core/problem/index.ts';
import { parseUnit, type Unit } from '../../../src/core/units/index.ts';
import { given, problemCode, value } from './inputs.ts';

const unit = (name: string): Unit => value(parseUnit(name));
const read = (text: string, measured?: string): InstrumentClass => value(instrumentClass(text, measured === undefined ? undefined : unit(measured)));
/** Standard uncertainty of one reading, in the unit. */
const u = (text: string, reading: number, name: string): number => {
  const { factor } = unit(name);
  return inputUncertainty(given({ id: 'x', readings: [reading * factor], instrument: read(text) })) / factor;
};

describe('the table', () => {
  // Limits of error: common practice, no published source. The rule: u² = (limit by its distribution)² + (share of
  // the reading, where that is the scale's, by its distribution)² + δ²/12. Rule and tape: 0.2 mm/m (Directive 2014/32/EU, annex X, class II; from memory).
  it.each<[text: string, reading: number, unit: string, halfWidth: number, resolution: number, scale?: number]>([
    ['steel rule, 0.5 mm', 200, 'mm', 0.5, 0.5, 0.04],
    ['steel rule, 1 mm', 200, 'mm', 1, 1, 0.04],
    ['steel rule', 200, 'mm', 0.5, 0.5, 0.04],
    ['tape measure', 2000, 'mm', 1, 1, 0.4],
    ['caliper, 0.01 mm', 7.5, 'mm', 0.02, 0.01],
    ['caliper, 0.02 mm', 7.5, 'mm', 0.03, 0.02],
    ['micrometer, 0.001 mm', 7.5, 'mm', 0.004, 0.001],
    ['micrometer, 0.01 mm', 7.5, 'mm', 0.01, 0.01],
    ['dial indicator, 0.01 mm', 1, 'mm', 0.02, 0.01],
    ['load cell, 0.5 N', 200, 'N', 2, 0.5],
    ['load cell, 0.5 N, 0.5 %', 200, 'N', 1, 0.5],
    ['weights', 200, 'N', 1, 0],
    ['weights, 0.1 %', 200, 'N', 0.2, 0],
    ['tachometer, 1 rev/min', 2800, 'rev/min', 1, 1, 2.8],
    ['counter', 123456, '1', 1, 1],
    ['counter, ×10', 123456, '1', 10, 10],
    ['table value', 205, 'GPa', 6.15, 0],
    ['table value, 2 %', 205, 'GPa', 4.1, 0],
    ['resolution only, 0.5 N', 200, 'N', 0, 0.5],
    ['resolution only', 200, 'N', 0, 0],
    ['steel rule, 1/64 in', 4, 'in', 1 / 64, 1 / 64, 0.0008],
  ])('%s at %d %s', (text, reading, name, halfWidth, resolution, scale = 0) => {
    const expected = Math.sqrt(halfWidth ** 2 / 3 + scale ** 2 / 3 + resolution ** 2 / 12);
    expect(Math.abs(u(text, reading, name) - expected)).toBeLessThanOrEqual(1e-12 * expected);
  });

  it('every class is read by its name and its other names', () => {
    expect(INSTRUMENT_CLASSES.length).toBeGreaterThan(10);
    for (const known of INSTRUMENT_CLASSES) {
      for (const name of [known.name, ...known.otherNames, known.name.toUpperCase(), `  ${known.name}  `]) {
        expect(read(name)).toEqual(known);
      }
    }
    const names = INSTRUMENT_CLASSES.flatMap(({ name, otherNames }) => [name, ...otherNames]);
    expect(new Set(names).size).toBe(names.length);
  });
});

describe('a class as typed', () => {
  it.each<[text: string, resolution: number]>([
    ['steel rule, 0.5 mm', 0.0005],
    ['steel rule; 0.5 mm', 0.0005],
    ['steel rule,0.5 mm', 0.0005],
    ['Steel Rule 0.5 mm', 0.0005],
    ['steel rules, 0.5 mm', 0.0005],
    ['steel rule, 0,5 mm', 0.0005],
    ['steel rule, 0.02 in', 0.000508],
    ['steel rule, 0.05 cm', 0.0005],
    ['caliper, 0.0005 in', 1.27e-5],
  ])('%s', (text, resolution) => {
    expect(read(text).resolution).toBeCloseTo(resolution, 12);
  });

  it('a limit of error may follow, in any order', () => {
    for (const text of ['caliper, 0.01 mm, ±0.05 mm', 'caliper, ±0.05 mm, 0.01 mm', 'caliper, limit 0.05 mm', 'caliper, limit of error 0.05 mm']) {
      expect(halfWidthAt(read(text), 1)).toBeCloseTo(5e-5, 15);
      expect(read(text).resolution).toBeCloseTo(1e-5, 15);
    }
  });

  it('a bare number is read in the unit of the quantity, else of the class', () => {
    expect(read('steel rule, 0.5').resolution).toBeCloseTo(5e-4, 12);
    expect(read('steel rule, 0.02', 'in').resolution).toBeCloseTo(5.08e-4, 12);
    expect(read('resolution only, 5', 'N').resolution).toBe(5);
  });

  it('a thermometer\'s steps are intervals, whatever its zero', () => {
    const thermometer = read('thermometer, 0.5 °C');
    expect(thermometer.resolution).toBe(0.5);
    expect(halfWidthAt(thermometer, 293.15)).toBe(1);
    expect(read('thermometer, 1 °F').resolution).toBeCloseTo(5 / 9, 12);
  });

  it('says where components come from', () => {
    const sources = (text: string): readonly string[] =>
      given({ id: 'x', readings: [0.2], instrument: read(text) }).components.map(({ source }) => source);
    expect(sources('caliper, 0.01 mm')).toEqual(['limit ±0.02 mm', 'resolution 0.01 mm']);
    expect(sources('load cell, 0.5 N')).toEqual(['limit ±1 % of the reading', 'resolution 0.5 N']);
    expect(sources('tachometer, 1 rev/min')).toEqual(['limit ±1 rev/min', 'limit ±0.1 % of the reading', 'resolution 1 rev/min']);
    expect(sources('steel rule, 1/64 in')).toEqual(['limit ±0.015625 in', 'limit ±0.02 % of the reading', 'resolution 0.015625 in']);
  });

  it.each<[text: string, measured: string | undefined, code: string]>([
    ['', undefined, 'instrument-unknown'],
    ['0.5 mm', undefined, 'instrument-unknown'],
    ['steal rule, 0.5 mm', undefined, 'instrument-unknown'],
    ['sonic screwdriver', undefined, 'instrument-unknown'],
    ['steel rule, -0.5 mm', undefined, 'resolution-negative'],
    ['caliper, ±-0.5 mm', undefined, 'limit-negative'],
    ['resolution only, -5', undefined, 'resolution-negative'],
    ['steel rule, 0.5 N', undefined, 'unit-dimension'],
    ['steel rule, 0.5 mm', 'N', 'unit-dimension'],
    ['steel rule', 'N', 'instrument-dimension'],
    ['load cell', 'mm', 'instrument-dimension'],
    ['steel rule, fine', undefined, 'number-missing'],
    [`steel rule, ${'9'.repeat(1000)}`, undefined, 'text-too-long'],
  ])('%s for %s is refused: %s', (text, measured, code) => {
    expect(problemCode(instrumentClass(text, measured === undefined ? undefined : unit(measured)))).toBe(code);
  });

  it('proposes the near name, and marks the place in the text', () => {
    const slip = instrumentClass('steal rule, 0.5 mm');
    expect(slip.ok ? '' : problemSentence(slip.problem)).toBe('The sheet knows no instrument “steal rule”. Did you mean steel rule?');
    const wrong = instrumentClass('steel rule, 0.5 N');
    expect(wrong).toMatchObject({ ok: false, problem: { text: 'steel rule, 0.5 N', span: { start: 16, end: 17 } } });
    const other = instrumentClass('load cell', unit('mm'));
    expect(other.ok ? '' : problemSentence(other.problem)).toBe(
      'A reading of the load cell is a force (N), but this is a length. '
      + 'Name an instrument that shows a length, or write its resolution in mm.',
    );
  });

  it('any text gives a class or a problem with words', () => {
    const pieces = ['steel rule', 'load cell', 'resolution only', ', ', '; ', ',', '0.5', '1/4', ' mm', ' N', '%', '±', 'limit ', '×', '-', 'é', '1e999', ' '];
    const text = fc.array(fc.constantFrom(...pieces), { maxLength: 9 });
    fc.assert(fc.property(text, fc.constantFrom(undefined, 'mm', 'N', '1', '°C'), (some, measured) => {
      const result = instrumentClass(some.join(''), measured === undefined ? undefined : unit(measured));
      const sound = result.ok
        ? (result.value.resolution ?? 0) >= 0 && halfWidthAt(result.value, 1) >= 0 && Number.isFinite(halfWidthAt(result.value, 1))
        : result.problem.what !== '' && result.problem.mend !== '';
      expect(sound).toBe(true);
    }), { numRuns: 500 });
  });
});

describe('overrides', () => {
  const mm = unit('mm');
  const caliper = read('caliper, 0.01 mm');

  it('replace what they name and leave the rest', () => {
    expect(value(overrideInstrument(caliper, {}, mm))).toEqual(caliper);
    expect(value(overrideInstrument(caliper, { resolution: '0.05 mm' }, mm))).toMatchObject({ resolution: 5e-5, distribution: 'rectangular' });
    expect(halfWidthAt(value(overrideInstrument(caliper, { limit: '0.1 mm' }, mm)), 1)).toBeCloseTo(1e-4, 15);
    expect(halfWidthAt(value(overrideInstrument(caliper, { limit: '±0.1' }, mm)), 1)).toBeCloseTo(1e-4, 15);
    expect(halfWidthAt(value(overrideInstrument(caliper, { limit: '2 %' }, mm)), 0.5)).toBeCloseTo(0.01, 15);
    expect(halfWidthAt(value(overrideInstrument(caliper, { limit: '0 mm' }, mm)), 1)).toBe(0);
    expect(value(overrideInstrument(caliper, { distribution: 'Triangular' }, mm)).distribution).toBe('triangular');
    expect(value(overrideInstrument(caliper, { resolution: '', limit: ' ', distribution: '' }, mm))).toEqual(caliper);
  });

  it('a limit needs no class', () => {
    const bare = value(overrideInstrument(read('resolution only'), { limit: '0.03 in' }, mm));
    expect(given({ id: 'x', readings: [1], instrument: bare }).components)
      .toMatchObject([{ source: 'limit ±0.03 in', distribution: 'rectangular' }]);
  });

  it.each<[typed: Parameters<typeof overrideInstrument>[1], key: string, code: string]>([
    [{ resolution: '0.1 N' }, 'resolution', 'unit-dimension'],
    [{ resolution: '-0.1 mm' }, 'resolution', 'resolution-negative'],
    [{ limit: 'much' }, 'limit', 'number-missing'],
    [{ limit: '-1 %' }, 'limit', 'limit-negative'],
    [{ distribution: 'bell' }, 'distribution', 'distribution-unknown'],
  ])('%o is refused at its key', (typed, key, code) => {
    expect(overrideInstrument(caliper, typed, mm)).toMatchObject({ ok: false, problem: { code, key } });
  });
});

it('distributions of a limit a: a/√3, a/√6, a/√2, 95 % within for the endless ones, and a little more than a/√3', () => {
  const t95 = 2.306; // 8 degrees of freedom, JCGM 100:2008, Table G.2
  const expected = {
    rectangular: 0.57735, triangular: 0.40825, arcsine: 0.70711, normal: 1 / 1.959964, 'curvilinear trapezoid': 0.583333, t: 1 / t95,
  };
  for (const distribution of DISTRIBUTIONS) {
    const input = given({ id: 'x', readings: [0], stated: { kind: 'limit', value: 1, distribution } });
    expect(Math.abs(inputUncertainty(input) - expected[distribution])).toBeLessThan(6e-5);
  }
  expect(Object.keys(expected)).toHaveLength(DISTRIBUTIONS.length);
});
