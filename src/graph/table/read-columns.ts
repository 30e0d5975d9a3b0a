import { composed, type Problem } from '../../core/problem/index.ts';
import { ONE } from '../../core/units/index.ts';
import type { TableRow } from '../../sheet/index.ts';
import type { NumberMarks } from './decimal-comma.ts';
import * as problems from './field-problems.ts';
import { numberReader, optionReader, truthReader } from './read-field.ts';
import type { FieldReading } from './read-field.ts';
import type { RowValues } from '../../core/rows/index.ts';
import type { CellMark, ColumnState } from './types.ts';

/** How the fields of one column are read. */
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

interface ReadColumns {
  readonly values: ReadonlyMap<string, RowValues>;
  /** By row: 1 where all its fields are empty. Such a row says nothing, so nothing is missing in it. */
  readonly blank: Uint8Array;
  /** By row: 1 where it is left out. */
  readonly out: Uint8Array;
  /** Of whole rows, then those of the columns one by one, each from the first row on. */
  readonly marks: readonly CellMark[];
  /** One sentence for each column and kind of reading. */
  readonly echoes: readonly string[];
}

/** @param pointMayGroup whether a point before three digits may group them */
export function columnReader(state: ColumnState, isLost: boolean, { decimalComma, grouped }: NumberMarks, pointMayGroup: boolean): ColumnReader {
  const { column, place } = state;
  const none = { state, isLost, problems: [], kindOf: () => '' };
  switch (column?.type) {
    case 'quantity':
    case 'count': {
      const rules = { unit: state.unit ?? ONE, comma: decimalComma ? 'decimal' as const : 'ask' as const, pointMayGroup: pointMayGroup || grouped.has(place ?? -1) };
      return { ...none, kind: 'number', ...numberReader(column, rules), kindOf: () => 'number' };
    }
    case 'option':
      return { ...none, kind: 'text', read: optionReader(column), kindOf: (typed) => typed.toLowerCase() };
    case 'yes-no':
      return { ...none, kind: 'truth', read: truthReader(column) };
    default:
      return { ...none, kind: 'text', read: (typed) => ({ value: typed }) };
  }
}

export function readColumns(rows: readonly TableRow[], width: number, readers: readonly ColumnReader[]): ReadColumns {
  const blank = new Uint8Array(rows.length);
  const out = new Uint8Array(rows.length);
  const marks: CellMark[] = [];
  for (const [row, { fields }] of rows.entries()) {
    if (fields.every((field) => field.trim() === '')) blank[row] = 1;
    // A row with more fields than the header names would put values into the wrong columns without anyone seeing it.
    else if (fields.length > width && fields.slice(width).some((field) => field.trim() !== '')) {
      marks.push({ row, problem: problems.rowTooLong(fields.length, width), leavesOut: true });
      out[row] = 1;
    }
  }
  const columns = readers.map((reader) => readColumn(reader, rows, blank));
  for (const { marks: own } of columns) {
    for (const mark of own) {
      if (mark.leavesOut) out[mark.row] = 1;
      marks.push(mark);
    }
  }
  return {
    values: new Map(columns.map(({ values }, i) => [readers[i]?.state.name ?? '', values])),
    blank, out, marks,
    echoes: columns.flatMap(({ echoes }) => echoes),
  };
}

interface ReadColumn {
  readonly values: RowValues;
  readonly marks: readonly CellMark[];
  readonly echoes: readonly string[];
}

function readColumn({ state: { place, column, name }, isLost, kind, read, kindOf }: ColumnReader, rows: readonly TableRow[], blank: Uint8Array): ReadColumn {
  const values = emptyValues(kind, rows.length);
  const marks: CellMark[] = [];
  const echoes = new Map<string, { readonly first: string; count: number }>();
  for (let row = 0; row < rows.length && !isLost; row++) {
    if (blank[row] === 1) continue;
    const typed = (place === undefined ? '' : rows[row]?.fields[place] ?? '').trim() || (column?.default ?? '');
    const reading = read(typed);
    if ('problem' in reading) {
      marks.push({ row, column: name, problem: reading.problem, leavesOut: true });
      continue;
    }
    values[row] = reading.value;
    if (reading.warning !== undefined) marks.push({ row, column: name, problem: reading.warning, leavesOut: false });
    if (reading.echo === undefined) continue;
    const echo = echoes.get(kindOf(typed));
    if (echo === undefined) echoes.set(kindOf(typed), { first: composed`${column?.label ?? ''}: ${reading.echo()}`, count: 1 });
    else echo.count++;
  }
  return {
    values: values as RowValues, marks,
    echoes: [...echoes.values()].map(({ first, count }) => (count === 1 ? first : `${first}, and ${count - 1} more like it`)),
  };
}

/** Values of a column before anything is read: no number, no text, and yes. */
function emptyValues(kind: ColumnReader['kind'], length: number): { [row: number]: number | string | boolean } {
  if (kind === 'number') return new Float64Array(length).fill(Number.NaN);
  return Array<string | boolean>(length).fill(kind === 'truth' ? true : '');
}
