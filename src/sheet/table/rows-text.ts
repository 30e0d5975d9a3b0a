import type { TableCell, TableColumn } from '../types.ts';
import { readDelimited, readRecords, writeRecord } from './delimited.ts';
import type { DelimitedRecord, DelimitedText, Separator } from './delimited.ts';
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

/**
 * Some two hundred rows with all text that belongs to them, blank lines below them included. An edit makes anew only the
 * stretches that it touches; the others stay the same objects, also in what is remembered of them elsewhere.
 */
export interface RowStretch {
  readonly text: string;
  readonly records: readonly DelimitedRecord[];
  /** What the records' offsets count from. */
  readonly base: number;
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
  readonly stretches: readonly RowStretch[];
  /** Number of the first row of each stretch. */
  readonly firstRows: readonly number[];
  /** Number of rows, the header not counted. */
  readonly count: number;
  /** Characters of the whole text, and line ends in it. */
  readonly length: number;
  readonly lineEnds: number;
  /** Whether a quotation mark is left open, so that a change has to read all rows anew. */
  readonly isOpen: boolean;
}

const ROWS_OF_A_STRETCH = 256;

const known = new WeakMap<TableCell, RowsText>();

/** The rows of a table; where it has none yet, the header that its columns ask for. */
export function rowsText(cell: TableCell): RowsText {
  const remembered = known.get(cell);
  if (remembered !== undefined) return remembered;
  const read = readRows(cell.rows, cell.columns);
  known.set(cell, read);
  return read;
}

/** Remembers the rows of a cell that was made from them. */
export function rememberRows(cell: TableCell, rows: RowsText): void {
  known.set(cell, rows);
}

/** The whole text; '' where it has no header yet. */
export function textOfRows({ head, isOffered, stretches }: RowsText): string {
  return isOffered ? '' : head + stretches.map(({ text }) => text).join('');
}

/** The fields of a row, without quotation marks; none where there is no such row. */
export function fieldsOfRow({ stretches, firstRows }: RowsText, row: number): readonly string[] {
  const at = stretchAt(firstRows, row);
  return stretches[at]?.records[row - (firstRows[at] ?? 0)]?.fields ?? [];
}

/** The stretch that holds a row; for the row after the last, the last stretch. */
export function stretchAt(firstRows: readonly number[], row: number): number {
  let low = 0;
  let high = firstRows.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((firstRows[middle] ?? Infinity) <= row) low = middle + 1;
    else high = middle;
  }
  return Math.max(0, low - 1);
}

export function readRows(rows: string, columns: readonly TableColumn[]): RowsText {
  const stated = columns.filter(({ type }) => type !== 'derived');
  const given = readDelimited(rows);
  const isOffered = given.records.length === 0;
  const delimited = !isOffered ? given : readDelimited(`${writeRecord(stated.map(headerName), ',')}\n`, ',');
  const header = readHeader(delimited.records[0]?.fields ?? [], columns);
  const stretches = cutRows(delimited, 1);
  const { separator, isOpen } = delimited;
  const head = delimited.text.slice(0, delimited.records[1]?.start ?? delimited.text.length);
  return counted({ separator, isOpen, head, isOffered, header, shown: shownColumns(header, stated) }, stretches, delimited.text.length, lineEndsIn(delimited.text));
}

/** The records of a text from one on, as stretches; the text before that record belongs to none. */
function cutRows({ text, records }: DelimitedText, first: number): readonly RowStretch[] {
  const stretches: RowStretch[] = [];
  for (let from = first; from < records.length; from += ROWS_OF_A_STRETCH) {
    const base = records[from]?.start ?? 0;
    const end = records[from + ROWS_OF_A_STRETCH]?.start ?? text.length;
    stretches.push({ text: text.slice(base, end), records: records.slice(from, from + ROWS_OF_A_STRETCH), base });
  }
  return stretches;
}

/**
 * The rows with another text in place of some stretches, of which nothing else is read; undefined where that could read
 * otherwise than the whole text would.
 */
export function withStretches(rows: RowsText, from: number, to: number, text: string): RowsText | undefined {
  const before = rows.stretches.slice(from, to);
  const read = readRecords(text, rows.separator, 0);
  if (read.isOpen || (read.records[0]?.start ?? 0) !== 0 || (read.records.length === 0 && text !== '')) return undefined;
  const stretches = [...rows.stretches.slice(0, from), ...cutRows(read, 0), ...rows.stretches.slice(to)];
  const length = before.reduce((sum, stretch) => sum - stretch.text.length, rows.length + text.length);
  const lineEnds = before.reduce((sum, stretch) => sum - lineEndsIn(stretch.text), rows.lineEnds + lineEndsIn(text));
  return counted(rows, stretches, length, lineEnds);
}

function counted(
  { separator, isOpen, head, isOffered, header, shown }: Omit<RowsText, 'stretches' | 'firstRows' | 'count' | 'length' | 'lineEnds'>,
  stretches: readonly RowStretch[],
  length: number,
  lineEnds: number,
): RowsText {
  let count = 0;
  const firstRows = stretches.map(({ records }) => {
    count += records.length;
    return count - records.length;
  });
  return { separator, isOpen, head, isOffered, header, shown, stretches, firstRows, count, length, lineEnds };
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

function lineEndsIn(text: string): number {
  let count = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) count++;
  return count;
}

/** Each row's text without the blanks around it; what a table says, whatever its header. */
export function rowLines(cell: TableCell): readonly string[] {
  const { stretches } = rowsText(cell);
  return stretches.flatMap(({ records }) => records.map(({ fields }) => fields.map((field) => field.trim()).join('\t')));
}
