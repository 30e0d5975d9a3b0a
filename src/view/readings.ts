import { parseUnit } from '../core/units/index.ts';
import type { GivenCell } from '../sheet/types.ts';

/** A number and the unit behind it, as typed. */
interface TypedReading {
  readonly number: string;
  readonly unit: string;
}

/** What stands in the two keys of a given that hold what was typed. */
export interface GivenText {
  readonly value: string | undefined;
  readonly readings: string | undefined;
}

/** A number (also `1 1/4`, `12 345`, `1.2e-3`) and whatever follows it. */
const NUMBER_AND_REST = /^([+\-−]?\s*\d[\d.,/\s]*(?:[eE][+\-−]?\d+)?|[+\-−]?[.,]\d+(?:[eE][+\-−]?\d+)?)\s*(.*)$/su;

/**
 * The text of a given cut into what stands in its blanks, one entry a reading, each with its unit. Text that can't be cut
 * stands whole in one blank, so nothing typed is lost or changed.
 */
export function blanksOf({ value, readings }: GivenText): readonly string[] {
  const typed = (readings ?? '').trim();
  if (typed === '') return value === undefined || value.trim() === '' ? [] : [value.trim()];
  if (/±|\+-|\+\/-/u.test(typed)) return [typed];
  const bracketed = /^\[([^[\]]*)\]\s*(.*)$/su.exec(typed);
  const list = bracketed === null ? typed : (bracketed[1] ?? '');
  const pieces = list.split(separatorOf(list)).map((piece) => piece.trim()).filter((piece) => piece !== '');
  if (pieces.length === 0) return [typed];
  const behind = bracketed === null ? readingOf(pieces.at(-1) ?? '').unit : (bracketed[2] ?? '').trim();
  return pieces.map((piece) => {
    const { number, unit } = readingOf(piece);
    return unit === '' && number !== '' && behind !== '' ? `${number} ${behind}` : piece;
  });
}

/** Where readings are cut: as they are read, see core/estimate. A comma alone between digits is a decimal mark. */
function separatorOf(list: string): RegExp {
  if (list.includes(';')) return /;/u;
  if (/,(?:\s|$)/u.test(list)) return /,(?=\s|$)/u;
  return /\d\.|\.\d/u.test(list) ? /,/u : /$^/u;
}

/**
 * The blanks as the text of the cell. One reading is a value; several are readings, with the unit said once where they
 * share it. Empty blanks are no readings.
 */
export function textOfBlanks(blanks: readonly string[]): GivenText {
  const filled = blanks.map((blank) => blank.trim()).filter((blank) => blank !== '');
  if (filled.length < 2) return { value: filled[0], readings: undefined };
  const readings = filled.map(readingOf);
  const separator = filled.some((blank) => blank.includes(',')) ? '; ' : ', ';
  const units = new Set(readings.map(({ unit }) => unit).filter((unit) => unit !== ''));
  if (units.size > 1 || readings.some(({ number }) => number === '')) return { value: undefined, readings: filled.join(separator) };
  const [unit = ''] = units;
  return { value: undefined, readings: `${readings.map(({ number }) => number).join(separator)}${unit === '' ? '' : ` ${unit}`}` };
}

/** Both keys of a given as typed. */
export function givenText(cell: GivenCell): GivenText {
  return { value: cell.value, readings: cell.readings };
}

/**
 * Whether a text is one quantity, or none yet: a number with a unit and an uncertainty, or without. A list of readings is
 * several, and a note that begins with a number is none.
 */
export function holdsOneQuantity(text: string): boolean {
  if (text.trim() === '') return true;
  if (blanksOf({ value: undefined, readings: text }).length > 1) return false;
  const { number, unit: behind } = readingOf(text);
  const name = /^[^±+(]*/u.exec(behind)?.[0].trim() ?? '';
  return number !== '' && !/[,;]/u.test(name) && (name === '' || parseUnit(name).ok);
}

/** `number` is '' where the text does not begin with one. */
export function readingOf(text: string): TypedReading {
  const match = NUMBER_AND_REST.exec(text.trim());
  return { number: match?.[1]?.trim() ?? '', unit: match?.[2]?.trim() ?? (match === null ? text.trim() : '') };
}
