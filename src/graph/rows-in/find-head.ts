import { readHeader, type TableColumn } from '../../sheet/index.ts';
import { optionMeant } from '../table/outcome-words.ts';
import { numberParts } from './number-marks.ts';

/** Lines above a head that can be titles. */
const TITLES = 10;

type Lines = readonly (readonly string[])[];

/** The line that names the columns; undefined where none does. Lines above it say something else. */
export function findHead(lines: Lines, columns: readonly TableColumn[], said: boolean | undefined): number | undefined {
  if (said === false) return undefined;
  const named = lines.slice(0, TITLES).findIndex((fields, line) => isHead(fields, columns, line));
  if (named >= 0) return named;
  if (said === true) return 0;
  const [first = [], ...others] = lines;
  const holdsWords = first.length > 1 && !first.some(isNumber);
  return holdsWords && others.some((fields) => fields.some(isNumber)) ? 0 : undefined;
}

function isHead(fields: readonly string[], columns: readonly TableColumn[], line: number): boolean {
  const options = columns.flatMap((column) => column.options);
  // “Failed” can be a head and what stands below one.
  const names = readHeader(fields, columns).filter(({ key, ignored, typed }) => (key !== undefined || ignored !== undefined) && optionMeant(typed, options) === undefined);
  return names.length >= 2 || (line === 0 && names.length === 1 && !fields.some(isNumber));
}

function isNumber(field: string): boolean {
  return numberParts(field.trim()) !== undefined;
}
