import { roundByUncertainty, type RoundedValue } from '../../core/estimate/index.ts';
import type { Unit } from '../../core/units/types.ts';
import { parseUnit, unitTex } from '../../core/units/index.ts';

/** Narrow and not broken at a line's end. */
const THIN_SPACE = '\u202f';
const MINUS = '\u2212';
const SUPERSCRIPTS = '⁰¹²³⁴⁵⁶⁷⁸⁹';

/** A plain decimal (`-12345.678901`) with groups of three from five digits on, on each side of the point. */
function groupDigits(decimal: string, space: string): string {
  const [whole = '', decimals] = decimal.replace('-', '').split('.');
  const left = whole.length < 5 ? whole : whole.replace(/\B(?=(\d{3})+$)/g, space);
  if (decimals === undefined) return left;
  const right = decimals.length < 5 ? decimals : decimals.replace(/(\d{3})(?=\d)/g, `$1${space}`);
  return `${left}.${right}`;
}

function isNegative(decimal: string): boolean {
  return decimal.startsWith('-') && /[1-9]/.test(decimal);
}

function superscript(exponent: number): string {
  const digits = [...String(Math.abs(exponent))].map((digit) => SUPERSCRIPTS[Number(digit)]).join('');
  return (exponent < 0 ? '⁻' : '') + digits;
}

/** A count of things: `1234`, `12 345`. */
export function countText(count: number): string {
  return groupDigits(String(count), THIN_SPACE);
}

/** `decimal` times ten to the `exponent` as plain text: `−1.23·10⁵`. */
export function decimalText(decimal: string, exponent: number): string {
  const sign = isNegative(decimal) ? MINUS : '';
  const digits = groupDigits(decimal, THIN_SPACE);
  if (exponent === 0) return sign + digits;
  return digits === '1' ? `${sign}10${superscript(exponent)}` : `${sign}${digits}·10${superscript(exponent)}`;
}

/** The same for KaTeX. */
export function decimalTex(decimal: string, exponent: number): string {
  const sign = isNegative(decimal) ? '-' : '';
  const digits = groupDigits(decimal, '\\,');
  if (exponent === 0) return sign + digits;
  return digits === '1' ? `${sign}10^{${exponent}}` : `${sign}${digits}\\cdot 10^{${exponent}}`;
}

/** The unit as the page writes it, `mm⁴` and not `mm^4`, `√m` and not `m^0.5`; '' for a plain number. */
export function unitText(unit: Unit): string {
  if (unit.name === '1') return '';
  return unit.name.replace(/([^·/()^]+)\^0\.5(?!\d)/g, '√$1').replace(/\^(-?\d+)(?![\d.])/g, (_power, exponent: string) => superscript(Number(exponent)));
}

/** A unit as somebody typed it, as text shows it; as it stands where it is none. */
export function unitWords(typed: string): string {
  const unit = parseUnit(typed);
  return unit.ok ? unitText(unit.value) : typed;
}

/** Number and unit in running text; the degree sign alone follows its number without a space. */
export function withUnit(number: string, unit: string): string {
  if (unit === '') return number;
  return unit === '°' ? number + unit : `${number} ${unit}`;
}

export function withUnitTex(number: string, unit: Unit): string {
  if (unit.name === '1') return number;
  return unit.name === '°' ? `${number}${unitTex(unit)}` : `${number}\\,${unitTex(unit)}`;
}

/** `value` to the decimal place of `rounded`'s uncertainty and with its power of ten. */
export function atSamePlace(value: number, rounded: RoundedValue): string {
  const uncertainty = Number(rounded.uncertainty ?? Number.NaN);
  const place = uncertainty > 0 ? Math.floor(Math.log10(uncertainty) + 1e-9) - 1 : -4;
  const scaled = timesPower(value, -rounded.exponent);
  const decimals = Math.min(Math.max(0, -place), 20);
  const stepped = place > 0 ? Math.round(scaled / 10 ** place) * 10 ** place : scaled;
  return decimalText(stepped.toFixed(decimals), rounded.exponent);
}

/** An end nearer to zero than this part of the uncertainty is zero but for rounding. */
const ROUNDING = 1e-9;

/** What is written for a number that is larger than any: `∞`, `−∞`. */
export function beyondAllNumbers(value: number): string {
  return value < 0 ? '−∞' : '∞';
}

/** An end of an interval: to the place of the uncertainty, as the value is, but never to fewer than two figures of its own. An end beyond all numbers is ∞. */
export function intervalEnd(value: number, rounded: RoundedValue): string {
  if (!Number.isFinite(value)) return beyondAllNumbers(value);
  const uncertainty = timesPower(Number(rounded.uncertainty ?? Number.NaN), rounded.exponent);
  const size = Math.abs(value);
  const place = 10 ** Math.floor(Math.log10(uncertainty) + 1e-9);
  if (!(uncertainty > 0) || !(size < place) || size < ROUNDING * uncertainty) return atSamePlace(value, rounded);
  const own = roundByUncertainty(value, size / 10);
  return decimalText(own.number, own.exponent);
}

/** Two or three figures for a quantity that is only a measure, such as a sensitivity: `−148`, `0.0123`, `1.5·10⁻⁷`. */
export function figures(value: number, count: number): string {
  if (value === 0 || !Number.isFinite(value)) return value === 0 ? '0' : '∞';
  const [mantissa = '0', power = '0'] = value.toExponential(count - 1).split('e');
  const exponent = Number(power);
  if (exponent < -3 || exponent > 5) return decimalText(mantissa, exponent);
  const decimals = Math.max(0, count - 1 - exponent);
  const rounded = Number(`${mantissa}e${power}`);
  return decimalText(rounded.toFixed(decimals), 0);
}

/** Measured numbers that are told, not rounded results: without zeros that say nothing. */
export function plainFigures(value: number, count: number): string {
  return figures(value, count).replace(/(\.\d*?)0+(?=·|$)/, '$1').replace(/\.(?=·|$)/, '');
}

/** A number times a power of ten, also where the power by itself is none: below 1e-323. */
function timesPower(value: number, power: number): number {
  if (power < -300) return (value / 1e300) / 10 ** (-power - 300);
  if (power > 300) return value * 1e300 * 10 ** (power - 300);
  return power < 0 ? value / 10 ** -power : value * 10 ** power;
}
