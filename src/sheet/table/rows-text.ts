import { remembered } from '../../core/remembered/index.ts';
import type { TableCell, TableColumn } from '../types.ts';
import { readDelimited, writeRecord } from './delimited.ts';
import type { DelimitedText, Separator } from './delimited.ts';
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

/** A row with all text that belongs to it: its line end, and blank lines below it. An edit leaves the other rows the same objects. */
export interface TableRow {
  readonly text: string;
  /** Place in the text just after the last field. */
  readonly end: number;
  /** Without quotation marks; blanks around a field stay. */
  readonly fields: readonly string[];
}

/** The rows of a table as fields of text, before anything is said of their meaning. */
export interface RowsText {
  readonly separator: Separator;
  /** The text before the first row: the header with its line end. */
  readonly head: string;
  /** Whether the text has no header yet: `head` is then the one that the columns ask for. */
  readonly isOffered: boolean;
  readonly header: readonly HeaderField[];
  /** Derived columns are not among them: they have no place in the text. */
  readonly shown: readonly ShownColumn[];
  readonly rows: readonly TableRow[];
  /** Whether a quotation mark is left open, so that a change has to read all rows anew. */
  readonly isOpen: boolean;
}

const known = new WeakMap<TableCell, RowsText>();

/** The rows of a table; where it has none yet, the header that its columns ask for. */
export function rowsText(cell: TableCell): RowsText {
  const before = known.get(cell);
  if (before !== undefined) return before;
  const read = readRows(cell.rows, cell.columns);
  known.set(cell, read);
  return read;
}

/** Remembers the rows of a cell that was made from them. */
export function rememberRows(cell: TableCell, rows: RowsText): void {
  known.set(cell, rows);
}

/** The whole text; '' where it has no header yet. */
export function textOfRows({ head, isOffered, rows }: RowsText): string {
  return isOffered ? '' : head + rows.map(({ text }) => text).join('');
}

/** The fields of a row, without quotation marks; none where there is no such row. */
export function fieldsOfRow({ rows }: RowsText, row: number): readonly string[] {
  return rows[row]?.fields ?? [];
}

export function readRows(text: string, columns: readonly TableColumn[]): RowsText {
  const stated = columns.filter(({ type }) => type !== 'derived');
  const given = readDelimited(text);
  const isOffered = given.records.length === 0;
  const delimited = !isOffered ? given : readDelimited(`${writeRecord(stated.map(headerName), ',')}\n`, ',');
  const header = readHeader(delimited.records[0]?.fields ?? [], columns);
  const { separator, isOpen } = delimited;
  const head = delimited.text.slice(0, delimited.records[1]?.start ?? delimited.text.length);
  return { separator, isOpen, head, isOffered, header, shown: shownColumns(header, stated), rows: rowsFrom(delimited, 1) };
}

/** The records of a text from one on; what stands before that record belongs to none. */
export function rowsFrom({ text, records }: DelimitedText, first: number): readonly TableRow[] {
  return records.slice(first).map(({ start, end, fields }, i) =>
    ({ text: text.slice(start, records[first + i + 1]?.start ?? text.length), end: end - start, fields }));
}

/** Characters of the whole text, the header that is only offered included, and line ends in it. */
export const sizeOfRows = remembered(({ head, rows }: RowsText): { readonly length: number; readonly lineEnds: number } => {
  let [length, lineEnds] = [head.length, lineEndsIn(head)];
  for (const { text } of rows) {
    length += text.length;
    lineEnds += lineEndsIn(text);
  }
  return { length, lineEnds };
});

function lineEndsIn(text: string): number {
  let count = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count++;
  return count;
}

function shownColumns(header: readonly HeaderField[], stated: readonly TableColumn[]): readonly ShownColumn[] {
  const places = new Map(header.flatMap(({ key }, place): [string, number][] => (key === undefined ? [] : [[key, place]])));
  const ours = stated.map((column): ShownColumn => {
    const place = places.get(column.key);
    return place === undefined ? { name: column.key, column } : { name: column.key, column, place };
  });
  const others = header.flatMap(({ key, typed, ignored }, place): ShownColumn[] =>
    key === undefined && ignored !== 'derived' ? [{ name: typed, place }] : [],
  );
  return [...ours, ...others];
}

/** Each row's text without the blanks around it; what a table says, whatever its header. */
export function rowLines(cell: TableCell): readonly string[] {
  return rowsText(cell).rows.map(({ fields }) => fields.map((field) => field.trim()).join('\t'));
}
