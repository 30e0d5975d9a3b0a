import type { Dimension } from './types.ts';
import {
  ANGLE_DIMENSION,
  CURRENT_DIMENSION,
  DIMENSIONLESS,
  FORCE_DIMENSION,
  FREQUENCY_DIMENSION,
  LENGTH_DIMENSION,
  MASS_DIMENSION,
  MOMENT_DIMENSION,
  STRESS_DIMENSION,
  TEMPERATURE_DIMENSION,
  TIME_DIMENSION,
} from './dimension.ts';

/** One row of the table: a unit that has a symbol of its own. */
export interface UnitDefinition {
  /** As the sheet writes it. */
  readonly symbol: string;
  readonly dimension: Dimension;
  /** Number of coherent SI units in one of this unit. */
  readonly factor: number;
  /** Zero of a temperature scale in kelvins. */
  readonly offset?: number;
  /** Where the symbol is not simply its letters set upright. */
  readonly tex?: string;
  /** Other spellings that nobody could misread: accepted without a word. */
  readonly same?: readonly string[];
  /** Other spellings, lower case, accepted in any case and shown as read. */
  readonly aliases?: readonly string[];
  /** The first letter is milli or mega: its case decides over a factor of a thousand million, so it is never guessed. */
  readonly casePrefix?: true;
}

const POWER_DIMENSION: Dimension = [2, 1, -3, 0, 0, 0];
const VOLTAGE_DIMENSION: Dimension = [2, 1, -3, -1, 0, 0];
const RESISTANCE_DIMENSION: Dimension = [2, 1, -3, -2, 0, 0];

/**
 * Units of the trade. Factors follow from exact definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg,
 * g_n = 9.80665 m/s² (NIST SP 811:2008, Appendix B; US customary factors printed there are these, rounded).
 * Quotients of whole numbers are written as such, so that they are rounded once:
 * 1 lbf = 0.45359237 · 9.80665 N = 4.4482216152605 N; 1 lbf/in² = 8896443230521/1290320000 Pa.
 */
export const UNIT_TABLE: readonly UnitDefinition[] = [
  { symbol: 'm', dimension: LENGTH_DIMENSION, factor: 1, aliases: ['metre', 'metres', 'meter', 'meters'] },
  {
    symbol: 'mm',
    dimension: LENGTH_DIMENSION,
    factor: 1e-3,
    casePrefix: true,
    aliases: ['millimetre', 'millimetres', 'millimeter', 'millimeters'],
  },
  {
    symbol: 'cm',
    dimension: LENGTH_DIMENSION,
    factor: 1e-2,
    aliases: ['centimetre', 'centimetres', 'centimeter', 'centimeters'],
  },
  {
    symbol: 'km',
    dimension: LENGTH_DIMENSION,
    factor: 1e3,
    aliases: ['kilometre', 'kilometres', 'kilometer', 'kilometers'],
  },
  {
    // The micro sign U+00B5; the Greek letter U+03BC looks the same.
    symbol: '\u00b5m',
    dimension: LENGTH_DIMENSION,
    factor: 1e-6,
    tex: '\\mu\\mathrm{m}',
    same: ['\u03bcm', 'um'],
    aliases: ['micron', 'microns', 'micrometre', 'micrometres', 'micrometer', 'micrometers'],
  },
  { symbol: 'in', dimension: LENGTH_DIMENSION, factor: 0.0254, aliases: ['inch', 'inches', '"', '\u2033', '\u201d', "''"] },
  { symbol: 'ft', dimension: LENGTH_DIMENSION, factor: 0.3048, aliases: ['foot', 'feet'] },
  { symbol: 'mil', dimension: LENGTH_DIMENSION, factor: 2.54e-5, aliases: ['mils'] },
  { symbol: 'thou', dimension: LENGTH_DIMENSION, factor: 2.54e-5, aliases: ['thous'] },

  { symbol: 'kg', dimension: MASS_DIMENSION, factor: 1, aliases: ['kgs', 'kilogram', 'kilograms'] },
  { symbol: 'g', dimension: MASS_DIMENSION, factor: 1e-3, aliases: ['gram', 'grams'] },
  { symbol: 'lb', dimension: MASS_DIMENSION, factor: 0.45359237, same: ['lbm'], aliases: ['lbs', 'pound', 'pounds'] },

  { symbol: 'N', dimension: FORCE_DIMENSION, factor: 1, aliases: ['newton', 'newtons'] },
  { symbol: 'kN', dimension: FORCE_DIMENSION, factor: 1e3, aliases: ['kilonewton', 'kilonewtons'] },
  { symbol: 'mN', dimension: FORCE_DIMENSION, factor: 1e-3, casePrefix: true, aliases: ['millinewton', 'millinewtons'] },
  { symbol: 'MN', dimension: FORCE_DIMENSION, factor: 1e6, casePrefix: true, aliases: ['meganewton', 'meganewtons'] },
  { symbol: 'lbf', dimension: FORCE_DIMENSION, factor: 4.4482216152605, aliases: ['lbsf', 'lbfs'] },
  { symbol: 'kip', dimension: FORCE_DIMENSION, factor: 4448.2216152605, aliases: ['kips'] },
  { symbol: 'kgf', dimension: FORCE_DIMENSION, factor: 9.80665, aliases: ['kp'] },
  { symbol: 'gf', dimension: FORCE_DIMENSION, factor: 0.00980665 },
  { symbol: 'ozf', dimension: FORCE_DIMENSION, factor: 4.4482216152605 / 16 },

  { symbol: 'Pa', dimension: STRESS_DIMENSION, factor: 1, aliases: ['pascal', 'pascals'] },
  { symbol: 'hPa', dimension: STRESS_DIMENSION, factor: 1e2, aliases: ['hectopascal'] },
  { symbol: 'kPa', dimension: STRESS_DIMENSION, factor: 1e3, aliases: ['kilopascal', 'kilopascals'] },
  { symbol: 'MPa', dimension: STRESS_DIMENSION, factor: 1e6, casePrefix: true, aliases: ['megapascal', 'megapascals'] },
  { symbol: 'GPa', dimension: STRESS_DIMENSION, factor: 1e9, aliases: ['gigapascal', 'gigapascals'] },
  { symbol: 'bar', dimension: STRESS_DIMENSION, factor: 1e5, aliases: ['bars'] },
  { symbol: 'psi', dimension: STRESS_DIMENSION, factor: 8896443230521 / 1290320000 },
  { symbol: 'ksi', dimension: STRESS_DIMENSION, factor: 8896443230521 / 1290320 },
  { symbol: 'Mpsi', dimension: STRESS_DIMENSION, factor: 889644323052100 / 129032, casePrefix: true },

  { symbol: 's', dimension: TIME_DIMENSION, factor: 1, aliases: ['sec', 'secs', 'second', 'seconds'] },
  { symbol: 'ms', dimension: TIME_DIMENSION, factor: 1e-3, casePrefix: true, aliases: ['millisecond', 'milliseconds'] },
  { symbol: 'min', dimension: TIME_DIMENSION, factor: 60, aliases: ['mins', 'minute', 'minutes'] },
  { symbol: 'h', dimension: TIME_DIMENSION, factor: 3600, aliases: ['hr', 'hrs', 'hour', 'hours'] },
  { symbol: 'd', dimension: TIME_DIMENSION, factor: 86400, aliases: ['day', 'days'] },

  { symbol: 'cycles', dimension: DIMENSIONLESS, factor: 1 },
  { symbol: 'cycle', dimension: DIMENSIONLESS, factor: 1 },
  { symbol: 'rev', dimension: DIMENSIONLESS, factor: 1, same: ['r'], aliases: ['revs', 'revolution', 'revolutions'] },
  { symbol: '%', dimension: DIMENSIONLESS, factor: 1e-2, tex: '\\%', aliases: ['percent'] },
  { symbol: 'ppm', dimension: DIMENSIONLESS, factor: 1e-6 },
  { symbol: 'rpm', dimension: FREQUENCY_DIMENSION, factor: 1 / 60 },
  { symbol: 'Hz', dimension: FREQUENCY_DIMENSION, factor: 1, aliases: ['hertz'] },
  { symbol: 'kHz', dimension: FREQUENCY_DIMENSION, factor: 1e3, aliases: ['kilohertz'] },

  { symbol: 'rad', dimension: ANGLE_DIMENSION, factor: 1, aliases: ['radian', 'radians'] },
  { symbol: 'mrad', dimension: ANGLE_DIMENSION, factor: 1e-3, casePrefix: true },
  {
    symbol: '\u00b0',
    dimension: ANGLE_DIMENSION,
    factor: Math.PI / 180,
    tex: '{}^{\\circ}',
    same: ['deg', '\u00ba'],
    aliases: ['degs', 'degree', 'degrees'],
  },

  { symbol: 'V', dimension: VOLTAGE_DIMENSION, factor: 1, aliases: ['volt', 'volts'] },
  { symbol: 'mV', dimension: VOLTAGE_DIMENSION, factor: 1e-3, casePrefix: true, aliases: ['millivolt', 'millivolts'] },
  { symbol: 'A', dimension: CURRENT_DIMENSION, factor: 1, aliases: ['amp', 'amps', 'ampere', 'amperes'] },
  { symbol: 'mA', dimension: CURRENT_DIMENSION, factor: 1e-3, casePrefix: true },
  // The Greek letter U+03A9; the ohm sign U+2126 looks the same.
  {
    symbol: '\u03a9',
    dimension: RESISTANCE_DIMENSION,
    factor: 1,
    tex: '\\Omega',
    same: ['\u2126', 'ohm'],
    aliases: ['ohms'],
  },
  {
    symbol: 'k\u03a9',
    dimension: RESISTANCE_DIMENSION,
    factor: 1e3,
    tex: '\\mathrm{k}\\Omega',
    same: ['k\u2126', 'kohm'],
    aliases: ['kohms'],
  },
  { symbol: 'W', dimension: POWER_DIMENSION, factor: 1, aliases: ['watt', 'watts'] },
  { symbol: 'J', dimension: MOMENT_DIMENSION, factor: 1, aliases: ['joule', 'joules'] },

  { symbol: 'K', dimension: TEMPERATURE_DIMENSION, factor: 1, aliases: ['kelvin', 'kelvins'] },
  {
    symbol: '\u00b0C',
    dimension: TEMPERATURE_DIMENSION,
    factor: 1,
    offset: 273.15,
    tex: '{}^{\\circ}\\mathrm{C}',
    same: ['\u00baC', '\u2103', 'degC'],
    aliases: ['celsius'],
  },
  {
    symbol: '\u00b0F',
    dimension: TEMPERATURE_DIMENSION,
    factor: 5 / 9,
    offset: 45967 / 180,
    tex: '{}^{\\circ}\\mathrm{F}',
    same: ['\u00baF', '\u2109', 'degF'],
    aliases: ['fahrenheit'],
  },
];

/** Two units written together in one word, case as written. */
export const RUN_TOGETHER: ReadonlyMap<string, readonly [string, string]> = new Map([
  ['Nm', ['N', 'm']],
  ['Nmm', ['N', 'mm']],
  ['Ncm', ['N', 'cm']],
  ['kNm', ['kN', 'm']],
  ['KNm', ['kN', 'm']],
  ['kNmm', ['kN', 'mm']],
  ['mNm', ['mN', 'm']],
  ['MNm', ['MN', 'm']],
  ['inlbf', ['lbf', 'in']],
  ['lbfin', ['lbf', 'in']],
  ['ftlbf', ['lbf', 'ft']],
  ['lbfft', ['lbf', 'ft']],
]);

/**
 * Moments as the US shop writes them: the pound beside an inch or a foot is the pound-force. Lower case, with
 * whatever stands between the two words replaced by one hyphen.
 */
export const SHOP_MOMENTS: ReadonlyMap<string, readonly [string, string]> = new Map(
  ['lb', 'lbs', 'pound', 'pounds'].flatMap((pound) =>
    (
      [
        ['in', 'in'],
        ['inch', 'in'],
        ['inches', 'in'],
        ['ft', 'ft'],
        ['foot', 'ft'],
        ['feet', 'ft'],
      ] as const
    ).flatMap(([word, symbol]): [string, readonly [string, string]][] => [
      [`${pound}-${word}`, ['lbf', symbol]],
      [`${word}-${pound}`, ['lbf', symbol]],
      [`${pound}${word}`, ['lbf', symbol]],
      [`${word}${pound}`, ['lbf', symbol]],
    ]),
  ),
);

/** Words that have two readings here: what they may mean, and what to write instead. */
export const TWO_READINGS: ReadonlyMap<string, { readonly what: string; readonly write: readonly string[] }> = new Map([
  ['mpa', { what: 'a small m is milli and a large M is mega', write: ['MPa'] }],
  ['mPa', { what: 'a small m is milli and a large M is mega', write: ['MPa'] }],
  ['mpsi', { what: 'a small m is milli and a large M is mega', write: ['Mpsi'] }],
  ["'", { what: 'it can mean feet or minutes of arc', write: ['ft', '\u00b0'] }],
  ['\u2032', { what: 'it can mean feet or minutes of arc', write: ['ft', '\u00b0'] }],
  ['C', { what: 'C alone is the coulomb, a unit of charge', write: ['\u00b0C'] }],
  ['F', { what: 'F alone is the farad, a unit of capacitance', write: ['\u00b0F'] }],
]);

/** Units as the sheet writes them, in the order of the table. */
export const UNIT_NAMES: readonly string[] = UNIT_TABLE.map(({ symbol }) => symbol);
