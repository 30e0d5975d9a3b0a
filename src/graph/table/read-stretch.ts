import { composed, type Problem } from '../../core/problem/index.ts';
import { ONE } from '../../core/units/index.ts';
import type { RowStretch } from '../../sheet/index.ts';
import * as problems from './field-problems.ts';
import { numberReader, optionReader, truthReader } from './read-field.ts';
import type { FieldReading } from './read-field.ts';
import type { RowValues } from './rows.ts';
import type { ColumnState } from './types.ts';

/** How the fields of one column are read: the same for every stretch of rows. */
export interface ColumnReader {
  readonly state: ColumnState;
  /** A column that is needed and is not in the text: it has no values, and the table says so. */
  readonly isLost: boolean;
  readonly kind: 'number' | 'text' | 'truth';
  readonly read: (typed: string) => FieldReading<number | string | boolean>;
  /** Echoes of one kind are told as one. */
  readonly kindOf: (typed: string) => string;
  /** What is wrong with the column's own ranges. */
  readonly problems: readonly Problem[];
}

/** What is wrong at a cell, by the row's number in its stretch. */
export interface StretchMark {
  readonly row: number;
  readonly problem: Problem;
  readonly leavesOut: boolean;
}

interface ColumnReading {
  readonly values: RowValues;
  readonly marks: readonly StretchMark[];
  /** By kind: the first sentence, and how many there are. */
  readonly echoes: ReadonlyMap<string, { readonly first: string; readonly count: number }>;
}

/** What a stretch of rows was read as; kept with the stretch, so that an edit elsewhere does not read it again. */
export interface StretchReading {
  /** By row: 1 where all its fields are empty. Such a row says nothing, so nothing is missing in it. */
  readonly blank: Uint8Array;
  /** By row: 1 where it is left out. */
  readonly out: Uint8Array;
  /** Of whole rows. */
  readonly marks: readonly StretchMark[];
  readonly columns: readonly ColumnReading[];
}

/** Everything that the reading of a stretch depends on beside its text: the same objects, the same reading. */
export interface ReadingRules {
  readonly columns: unknown;
  readonly header: { readonly length: number };
  readonly decimalComma: boolean;
  /** Places of columns whose numbers are grouped by points. */
  readonly grouped: string;
}

export function columnReader(state: ColumnState, isLost: boolean, decimalComma: boolean, pointMayGroup: boolean): ColumnReader {
  const { column } = state;
  const none = { state, isLost, problems: [], kindOf: () => '' };
  switch (column?.type) {
    case 'quantity':
    case 'count': {
      const comma = decimalComma ? 'decimal' : 'ask';
      const reader = numberReader(column, { unit: state.unit ?? ONE, comma, pointMayGroup });
      return { ...none, kind: 'number', ...reader, kindOf: () => 'number' };
    }
    case 'option':
      return { ...none, kind: 'text', read: optionReader(column), kindOf: (typed) => typed.toLowerCase() };
    case 'yes-no':
      return { ...none, kind: 'truth', read: truthReader(column) };
    default:
      return { ...none, kind: 'text', read: (typed) => ({ value: typed }) };
  }
}

const known = new WeakMap<RowStretch, { readonly rules: ReadingRules; readonly reading: StretchReading }>();

export function readStretch(stretch: RowStretch, rules: ReadingRules, readers: readonly ColumnReader[]): StretchReading {
  const before = known.get(stretch);
  if (before !== undefined && sameRules(before.rules, rules)) return before.reading;
  const reading = readAnew(stretch, rules, readers);
  known.set(stretch, { rules, reading });
  return reading;
}

function sameRules(a: ReadingRules, b: ReadingRules): boolean {
  return a.columns === b.columns && a.header === b.header && a.decimalComma === b.decimalComma && a.grouped === b.grouped;
}

function readAnew({ records }: RowStretch, { header }: ReadingRules, readers: readonly ColumnReader[]): StretchReading {
  const blank = new Uint8Array(records.length);
  const out = new Uint8Array(records.length);
  const marks: StretchMark[] = [];
  for (const [row, { fields }] of records.entries()) {
    if (fields.every((field) => field.trim() === '')) blank[row] = 1;
    // A row with more fields than the header names would put values into the wrong columns without anyone seeing it.
    else if (fields.length > header.length && fields.slice(header.length).some((field) => field.trim() !== '')) {
      marks.push({ row, problem: problems.rowTooLong(fields.length, header.length), leavesOut: true });
      out[row] = 1;
    }
  }
  return { blank, out, marks, columns: readers.map((reader) => readColumn(reader, records, blank, out)) };
}

function readColumn(
  { state: { place, column }, isLost, kind, read, kindOf }: ColumnReader,
  records: RowStretch['records'],
  blank: Uint8Array,
  out: Uint8Array,
): ColumnReading {
  const values = emptyValues(kind, records.length);
  const marks: StretchMark[] = [];
  const echoes = new Map<string, { first: string; count: number }>();
  for (let row = 0; row < records.length && !isLost; row++) {
    if (blank[row] === 1) continue;
    const typed = (place === undefined ? '' : records[row]?.fields[place] ?? '').trim() || (column?.default ?? '');
    const reading = read(typed);
    if ('problem' in reading) {
      marks.push({ row, problem: reading.problem, leavesOut: true });
      out[row] = 1;
      continue;
    }
    values[row] = reading.value;
    if (reading.warning !== undefined) marks.push({ row, problem: reading.warning, leavesOut: false });
    if (reading.echo === undefined) continue;
    const echo = echoes.get(kindOf(typed));
    if (echo === undefined) echoes.set(kindOf(typed), { first: composed`${column?.label ?? ''}: ${reading.echo()}`, count: 1 });
    else echo.count++;
  }
  return { values: values as RowValues, marks, echoes };
}

/** Values of a column before anything is read: no number, no text, and yes. */
function emptyValues(kind: ColumnReader['kind'], length: number): { [row: number]: number | string | boolean } {
  if (kind === 'number') return new Float64Array(length).fill(Number.NaN);
  return Array.from({ length }, () => (kind === 'truth' ? true : ''));
}
