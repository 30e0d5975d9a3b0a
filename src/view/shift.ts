import { instrumentClass } from '../core/estimate/index.ts';
import { intervalFromSI, parseNumber, parseQuantity, parseUnit } from '../core/units/index.ts';
import type { Unit } from '../core/units/types.ts';
import type { GivenCell } from '../sheet/types.ts';
import { blanksOf, readingOf, textOfBlanks, type GivenText } from './readings.ts';

/** Where a given names no instrument: half a millimetre on a rule, or the sixty-fourth of an inch, m. */
const HALF_MILLIMETRE = 0.5e-3;
const SIXTY_FOURTH_INCH = 0.0254 / 64;
const INCH_UNITS = /^(in|ft|")$/;
const MOST_DECIMALS = 9;

/**
 * The text of a given with every reading shifted by the same amount: number and unit stay as they are written, with as
 * many decimals as the number had, or as the step needs. Undefined where the text holds no number.
 * @param by SI
 * @param defaultUnit unit of a bare number
 */
export function shiftText(text: GivenText, by: number, defaultUnit: string): GivenText | undefined {
  const blanks = blanksOf(text);
  const shifted = blanks.map((blank) => shiftReading(blank, by, defaultUnit));
  return shifted.length === 0 || shifted.includes(undefined) ? undefined : keepKey(text, shifted.map(String));
}

/** A single reading under `readings` stays there. */
function keepKey(before: GivenText, blanks: readonly string[]): GivenText {
  const after = textOfBlanks(blanks);
  return before.readings !== undefined && after.value !== undefined && !/,/u.test(after.value)
    ? { value: before.value, readings: after.value }
    : after;
}

function shiftReading(blank: string, by: number, defaultUnit: string): string | undefined {
  const { number, unit: rest } = readingOf(blank);
  const read = parseNumber(number);
  const name = /^[^±+(;]*/u.exec(rest)?.[0].trim() ?? '';
  const unit = parseUnit(name === '' ? unitAfterUncertainty(rest) || defaultUnit : name);
  if (number === '' || !read.ok || !unit.ok) return undefined;
  const change = intervalFromSI(by, unit.value);
  const places = Math.max(decimals(number), decimals(String(Number(change.toPrecision(MOST_DECIMALS)))));
  const text = (read.value.value + change).toFixed(Math.min(places, MOST_DECIMALS)).replace(/^-(?=0(?:\.0*)?$)/, '');
  const written = number.includes(',') && !number.includes('.') ? text.replace('.', ',') : text;
  return blank.replace(number, written);
}

/** The unit of `± 0.02 mm`, where it is said once at the end. */
function unitAfterUncertainty(rest: string): string {
  return /([^\d\s.,±+\-()]+)\s*(?:limit.*)?$/u.exec(rest)?.[1] ?? '';
}

/** Digits behind the decimal mark. */
export function decimals(number: string): number {
  if (number.includes('/')) return 0;
  const [digits = '', exponent = '0'] = number.toLowerCase().split('e');
  return Math.max(0, (digits.split(/[.,]/)[1]?.length ?? 0) - Number(exponent.replace('−', '-')));
}

/** The smallest step of what a given was measured with, SI: its resolution, or half a millimetre, or 1/64 in. */
export function stepOf(cell: GivenCell, typedUnit: Unit | undefined): number {
  const stated = parseUnit(cell.unit);
  const unit = typedUnit ?? (stated.ok ? stated.value : undefined);
  if (cell.resolution !== undefined && unit !== undefined) {
    const own = parseQuantity(cell.resolution, unit);
    if (own.ok && own.value.value > 0) return own.value.value;
  }
  const instrument = cell.instrument === undefined ? undefined : instrumentClass(cell.instrument);
  if (instrument?.ok === true && instrument.value.resolution !== undefined && instrument.value.resolution > 0) {
    return instrument.value.resolution;
  }
  return unit !== undefined && INCH_UNITS.test(unit.name) ? SIXTY_FOURTH_INCH : HALF_MILLIMETRE;
}

/** Whether two texts begin with the same number and go on the same: `101.5 mm`, `101.50 mm`. */
export function sameNumber(a: string, b: string): boolean {
  const [one, other] = [readingOf(a), readingOf(b)];
  const [first, second] = [parseNumber(one.number), parseNumber(other.number)];
  return one.unit === other.unit && first.ok && second.ok && first.value.value === second.value.value;
}
