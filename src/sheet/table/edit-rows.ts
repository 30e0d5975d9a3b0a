import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { applyCuts } from '../body-edit.ts';
import type { TableCell } from '../types.ts';
import { cleanText } from './clean-text.ts';
import { readDelimited, readRecords } from './delimited.ts';
import * as problems from './row-problems.ts';
import { readRows, rowsText, stretchAt, textOfRows, withStretches } from './rows-text.ts';
import type { RowsText } from './rows-text.ts';
import { setBlock, setRows } from './set-block.ts';
import type { RowsPart, RowTexts } from './set-block.ts';

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
 * A table's rows after a command; what the command does not speak of stays sign for sign, and stretches of rows that it
 * does not touch stay the same objects. A command that changes nothing gives back the rows of the cell.
 * Problems: `row-gone`, `column-gone`, `paste-too-wide`, `row-too-long`, `order-incomplete`.
 */
export function editRows(cell: TableCell, command: TableCommand): Result<RowsText> {
  const rows = rowsText(cell);
  if (command.do === 'replace rows') return ok(readAnew(cell, replacement(command.text)));
  if (command.do === 'order rows') return inOrder(cell, rows, command.order);
  const change = changeOf(rows, command);
  if (!change.ok) return change;
  return changeNear(cell, rows, change.value);
}

/** A change of rows that stand together. */
interface RowsChange {
  /** Rows it touches, the first and the one after the last; the header is not among them. */
  readonly from: number;
  readonly to: number;
  /** Whether it may touch the header too, or the text after the last row. */
  readonly isWide: boolean;
  /** The text of a part of the rows after it; `from` is where the part says its first row stands among all rows. */
  readonly apply: (part: RowsPart, from: number) => Result<string>;
}

type NearCommand = Exclude<TableCommand, { do: 'replace rows' | 'order rows' }>;

function changeOf(rows: RowsText, command: NearCommand): Result<RowsChange> {
  const { count } = rows;
  if (command.do === 'set table cell' || command.do === 'paste cells') {
    const { row, column } = command;
    const block = command.do === 'paste cells' ? blockOf(command.text) : [[cleanText(command.text)]];
    if (!isRow(row, count + 1)) return fail(problems.rowGone(row, count));
    const first = rows.shown.findIndex(({ name }) => name === column);
    const width = block.reduce((widest, fields) => Math.max(widest, fields.length), 0);
    const isWide = rows.shown.slice(Math.max(0, first), first + width).some(({ place }) => place === undefined);
    return ok({ from: row, to: row + block.length, isWide, apply: (part, from) => setBlock(part, row - from, column, block) });
  }
  if (command.do === 'bring rows') {
    const gone = command.set.find(({ row }) => !isRow(row, count));
    if (gone !== undefined) return fail(problems.rowGone(gone.row, count));
    const lines = [...command.set.toSorted((a, b) => a.row - b.row), ...command.added.map((fields, i) => ({ row: count + i, fields }))];
    return ok({ from: 0, to: 0, isWide: true, apply: (part) => setRows(part, command.columns, lines) });
  }
  const { at } = command;
  const many = command.count;
  if (command.do === 'insert rows') {
    if (!isRow(at, count + 1) || !Number.isInteger(many) || many < 0) return fail(problems.rowGone(at, count));
    const blank = Array.from({ length: many }, () => `${blankRow(rows)}\n`);
    return ok({ from: at, to: at, isWide: false, apply: (part, from) => ok(joined(part, (lines) => [...lines.slice(0, at - from), ...blank, ...lines.slice(at - from)])) });
  }
  if (!isRow(at, count) || !isRow(at + many, count + 1) || many < 0) return fail(problems.rowGone(at + many - 1, count));
  if (command.do === 'delete rows') {
    return ok({ from: at, to: at + many, isWide: false, apply: (part, from) => ok(joined(part, (lines) => [...lines.slice(0, at - from), ...lines.slice(at - from + many)])) });
  }
  const { to } = command;
  if (!isRow(to, count - many + 1)) return fail(problems.rowGone(to, count));
  return ok({
    from: Math.min(at, to),
    to: Math.max(at, to) + many,
    isWide: false,
    apply: (part, from) => ok(joined(part, (lines) => {
      const rest = [...lines.slice(0, at - from), ...lines.slice(at - from + many)];
      return [...rest.slice(0, to - from), ...lines.slice(at - from, at - from + many), ...rest.slice(to - from)];
    })),
  });
}

/** Changes the stretches in question, or all of the text where that could read otherwise. */
function changeNear(cell: TableCell, rows: RowsText, { from, to, isWide, apply }: RowsChange): Result<RowsText> {
  const { stretches, firstRows } = rows;
  const first = stretchAt(firstRows, from);
  const after = to > from ? stretchAt(firstRows, to - 1) + 1 : first + 1;
  const text = stretches.slice(first, after).map((stretch) => stretch.text).join('');
  if (!isWide && !rows.isOpen && text.endsWith('\n')) {
    const start = firstRows[first] ?? 0;
    const { records } = readRecords(text, rows.separator, 0);
    // The first record of a part is its header, which nothing here looks at.
    const delimited = { text, separator: rows.separator, records: [{ start: 0, end: 0, fields: [] }, ...records], isOpen: false };
    const changed = apply({ ...rows, delimited }, start);
    if (!changed.ok) return changed;
    if (changed.value === text) return ok(rows);
    const near = withStretches(rows, first, after, changed.value);
    if (near !== undefined) return ok(near);
  }
  const whole = rows.isOffered ? rows.head : textOfRows(rows);
  const changed = apply({ ...rows, delimited: readDelimited(whole, rows.separator) }, 0);
  return changed.ok ? ok(readAnew(cell, changed.value)) : changed;
}

function readAnew(cell: TableCell, text: string): RowsText {
  return text === cell.rows ? rowsText(cell) : readRows(text, cell.columns);
}

function inOrder(cell: TableCell, rows: RowsText, order: readonly number[]): Result<RowsText> {
  const { count } = rows;
  const isWhole = order.length === count && new Set(order).size === count;
  if (!isWhole || !order.every((row) => isRow(row, count))) return fail(problems.orderIncomplete(count));
  const part = { ...rows, delimited: readDelimited(textOfRows(rows), rows.separator) };
  return ok(readAnew(cell, joined(part, (lines) => order.map((row) => lines[row] ?? ''))));
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

/** The text with its rows, each with its line end and blank lines below it, put in another order. */
function joined({ delimited: { text, records } }: RowsPart, change: (lines: readonly string[]) => readonly string[]): string {
  const whole = text.endsWith('\n') ? text : `${text}\n`;
  const starts = records.map(({ start }) => start);
  const lines = starts.slice(1).map((start, i) => whole.slice(start, starts[i + 2] ?? whole.length));
  const from = starts[1] ?? whole.length;
  return applyCuts(whole, [{ start: from, end: whole.length, text: change(lines).join('') }]);
}
