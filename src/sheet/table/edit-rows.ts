import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import type { TableCell } from '../types.ts';
import { cleanText } from './clean-text.ts';
import { readDelimited, readRecords } from './delimited.ts';
import * as problems from './row-problems.ts';
import { readRows, rowsFrom, rowsText } from './rows-text.ts';
import type { RowsText, TableRow } from './rows-text.ts';
import { endingLines, setBlock, setRows, textOf } from './set-block.ts';
import type { ChangedRows, RowTexts } from './set-block.ts';

/** Changes of the rows of a table. Rows are counted from 0, the header not among them. */
export type TableCommand =
  /**
   * The text of one cell. `column` is a key, or the header's own words for a column that is not understood. The row after
   * the last makes a new row; a column that the text does not have yet gets its place in the header.
   */
  | { readonly do: 'set table cell'; readonly cellId: string; readonly row: number; readonly column: string; readonly text: string }
  /** Empty rows before the row `at`, or after the last. */
  | { readonly do: 'insert rows'; readonly cellId: string; readonly at: number; readonly count: number }
  | { readonly do: 'delete rows'; readonly cellId: string; readonly at: number; readonly count: number }
  /** `to` is the row number that the first of them has afterwards. */
  | { readonly do: 'move rows'; readonly cellId: string; readonly at: number; readonly count: number; readonly to: number }
  /** All rows in another order: the numbers of the rows as they are now, each once. */
  | { readonly do: 'order rows'; readonly cellId: string; readonly order: readonly number[] }
  /**
   * A block of cells, lines of fields with tabs between as a spreadsheet hands them over, from a cell to the right and
   * down in the order in which the page shows the columns; rows are added where they are needed.
   */
  | { readonly do: 'paste cells'; readonly cellId: string; readonly row: number; readonly column: string; readonly text: string }
  /**
   * Texts of whole rows, in the order of `columns`: into rows there are, and as rows after the last. A column that the table
   * does not know gets a place in the header under its name.
   */
  | { readonly do: 'bring rows'; readonly cellId: string; readonly columns: readonly string[]; readonly set: readonly RowTexts[]; readonly added: readonly RowTexts['fields'][] }
  /** All rows from a delimited text with its own header. */
  | { readonly do: 'replace rows'; readonly cellId: string; readonly text: string };

/**
 * A table's rows after a command; what the command does not speak of stays sign for sign, and rows that it does not touch
 * stay the same objects. A command that changes nothing gives back the rows of the cell.
 * Problems: `row-gone`, `column-gone`, `paste-too-wide`, `row-too-long`, `order-incomplete`.
 */
export function editRows(cell: TableCell, command: TableCommand): Result<RowsText> {
  if (command.do === 'replace rows') return ok(readAnew(cell, replacement(command.text)));
  const before = rowsText(cell);
  const change = changeOf(before, command);
  return change.ok ? ok(withChanged(cell, before, change.value)) : change;
}

function changeOf(before: RowsText, command: Exclude<TableCommand, { do: 'replace rows' }>): Result<ChangedRows> {
  const { length } = before.rows;
  switch (command.do) {
    case 'set table cell':
    case 'paste cells': {
      const { row, column, text } = command;
      const block = command.do === 'paste cells' ? blockOf(text) : [[cleanText(text)]];
      return isRow(row, length + 1) ? setBlock(before, row, column, block) : fail(problems.rowGone(row, length));
    }
    case 'bring rows': {
      const gone = command.set.find(({ row }) => !isRow(row, length));
      if (gone !== undefined) return fail(problems.rowGone(gone.row, length));
      return setRows(before, command.columns, [...command.set, ...command.added.map((fields, i) => ({ row: length + i, fields }))]);
    }
    case 'order rows': {
      const { order } = command;
      const isWhole = order.length === length && new Set(order).size === length && order.every((row) => isRow(row, length));
      return isWhole ? ok(arranged(before, (rows) => order.flatMap((row) => rows[row] ?? []))) : fail(problems.orderIncomplete(length));
    }
    default:
      return arrange(before, command);
  }
}

function arrange(before: RowsText, command: Extract<TableCommand, { do: 'insert rows' | 'delete rows' | 'move rows' }>): Result<ChangedRows> {
  const { length } = before.rows;
  const { at, count } = command;
  if (command.do === 'insert rows') {
    if (!isRow(at, length + 1) || !Number.isInteger(count) || count < 0) return fail(problems.rowGone(at, length));
    const blank = Array.from({ length: count }, () => `${blankRow(before)}\n`);
    return ok(arranged(before, (rows) => putIn(rows, at, blank)));
  }
  if (!isRow(at, length) || !isRow(at + count, length + 1) || count < 0) return fail(problems.rowGone(at + count - 1, length));
  if (command.do === 'delete rows') return ok(arranged(before, (rows) => without(rows, at, count)));
  const { to } = command;
  if (!isRow(to, length - count + 1)) return fail(problems.rowGone(to, length));
  return ok(arranged(before, (rows) => putIn(without(rows, at, count), to, rows.slice(at, at + count))));
}

type Rows = ChangedRows['rows'];

/** The rows, each with its line end and blank lines below it, put together otherwise. */
function arranged(before: RowsText, change: (rows: Rows) => Rows): ChangedRows {
  const { head, rows } = endingLines(before);
  return { head, rows: change(rows) };
}

function putIn(rows: Rows, at: number, more: Rows): Rows {
  return [...rows.slice(0, at), ...more, ...rows.slice(at)];
}

function without(rows: Rows, at: number, count: number): Rows {
  return [...rows.slice(0, at), ...rows.slice(at + count)];
}

/** Reads the rows that changed, or all of them where those could read otherwise. */
function withChanged(cell: TableCell, before: RowsText, { head, rows }: ChangedRows): RowsText {
  const isSameHead = head === before.head;
  if (isSameHead && rows.length === before.rows.length && rows.every((row, i) => row === before.rows[i] || textOf(row) === before.rows[i]?.text)) return before;
  const isNear = isSameHead && !before.isOffered && !before.isOpen;
  const read = isNear ? rows.map((row) => (typeof row === 'string' ? rowAlone(row, before) : row)) : [undefined];
  const next = read.filter((row) => row !== undefined);
  return next.length === read.length ? { ...before, rows: next } : readAnew(cell, head + rows.map(textOf).join(''));
}

/** A row read from its own text; undefined where that is more or less than one row. */
function rowAlone(text: string, { separator }: RowsText): TableRow | undefined {
  const read = readRecords(text, separator, 0);
  const isOne = read.records.length === 1 && read.records[0]?.start === 0 && !read.isOpen;
  return isOne ? rowsFrom(read, 0)[0] : undefined;
}

function readAnew(cell: TableCell, text: string): RowsText {
  return text === cell.rows ? rowsText(cell) : readRows(text, cell.columns);
}

function blockOf(text: string): readonly (readonly string[])[] {
  const lines = cleanText(text).replace(/\n+$/, '');
  // A blank line of a single column is an empty cell, which reading delimited text passes over.
  if (!/["\t]/.test(lines)) return lines.split('\n').map((line) => [line]);
  return readDelimited(lines, '\t').records.map(({ fields }) => fields);
}

function replacement(text: string): string {
  const lines = cleanText(text).replace(/^\s*\n|\s+$/g, '');
  return lines === '' ? '' : `${lines}\n`;
}

function isRow(row: number, count: number): boolean {
  return Number.isInteger(row) && row >= 0 && row < count;
}

function blankRow({ header, separator }: RowsText): string {
  return header.length <= 1 || separator === '\t' ? `""${separator.repeat(Math.max(0, header.length - 1))}` : separator.repeat(header.length - 1);
}
