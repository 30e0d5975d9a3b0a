import type { TableCell, TableColumn } from '../types.ts';
import { readDelimited, writeRecord } from './delimited.ts';
import type { DelimitedText } from './delimited.ts';
import { headerName, readHeader } from './header.ts';
import type { HeaderField } from './header.ts';

/** A column as the page shows it: those of the table in its order, then those that only the header has. */
export interface ShownColumn {
  /** Key of the column, or the header's own words where it is not understood: what edits call it by. */
  readonly name: string;
  /** Absent where it is not understood. */
  readonly column?: TableColumn;
  /** Place of its field in the text; absent where the text does not have it. */
  readonly place?: number;
}

/** The rows of a table as fields of text, before anything is said of their meaning. */
export interface RowsText {
  readonly delimited: DelimitedText;
  readonly header: readonly HeaderField[];
  /** Derived columns are not among them: they have no place in the text. */
  readonly shown: readonly ShownColumn[];
  /** Number of rows, the header not counted. */
  readonly count: number;
}

const known = new WeakMap<TableCell, RowsText>();

/** The rows of a table; where it has none yet, the header that its columns ask for. */
export function rowsText(cell: TableCell): RowsText {
  const remembered = known.get(cell);
  if (remembered !== undefined) return remembered;
  const read = readRows(cell.rows, cell.columns);
  known.set(cell, read);
  return read;
}

export function readRows(rows: string, columns: readonly TableColumn[]): RowsText {
  const stated = columns.filter(({ type }) => type !== 'derived');
  const given = readDelimited(rows);
  const delimited = given.records.length > 0 ? given : readDelimited(`${writeRecord(stated.map(headerName), ',')}\n`, ',');
  const header = readHeader(delimited.records[0]?.fields ?? [], columns);
  const places = new Map(header.flatMap(({ key }, place): [string, number][] => (key === undefined ? [] : [[key, place]])));
  const ours = stated.map((column): ShownColumn => {
    const place = places.get(column.key);
    return place === undefined ? { name: column.key, column } : { name: column.key, column, place };
  });
  const others = header.flatMap(({ key, typed, ignored }, place): ShownColumn[] =>
    key === undefined && ignored !== 'derived' ? [{ name: typed, place }] : [],
  );
  return { delimited, header, shown: [...ours, ...others], count: Math.max(0, delimited.records.length - 1) };
}
