import { fail, ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { applyCuts } from '../body-edit.ts';
import type { TableCell } from '../types.ts';
import { readDelimited } from './delimited.ts';
import * as problems from './row-problems.ts';
import { rowsText } from './rows-text.ts';
import type { RowsText } from './rows-text.ts';
import { setBlock } from './set-block.ts';
import { cleanText } from './clean-text.ts';

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
  /** All rows from a delimited text with its own header. */
  | { readonly do: 'replace rows'; readonly cellId: string; readonly text: string };

/**
 * The text of a table's rows after a command; what the command does not speak of stays sign for sign.
 * Problems: `row-gone`, `column-gone`, `paste-too-wide`, `row-too-long`, `order-incomplete`.
 */
export function editRows(cell: TableCell, command: TableCommand): Result<string> {
  const rows = rowsText(cell);
  switch (command.do) {
    case 'set table cell':
      return setBlock(rows, command.row, command.column, [[cleanText(command.text)]]);
    case 'paste cells':
      return setBlock(rows, command.row, command.column, blockOf(command.text));
    case 'replace rows':
      return ok(replacement(command.text));
    default:
      return rearrange(rows, command);
  }
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

type Rearrangement = Extract<TableCommand, { do: 'insert rows' | 'delete rows' | 'move rows' | 'order rows' }>;

function rearrange(rows: RowsText, command: Rearrangement): Result<string> {
  const { count } = rows;
  if (command.do === 'order rows') {
    const isWhole = command.order.length === count && new Set(command.order).size === count;
    if (!isWhole || !command.order.every((row) => isRow(row, count))) return fail(problems.orderIncomplete(count));
    return ok(joined(rows, (lines) => command.order.map((row) => lines[row] ?? '')));
  }
  const { at } = command;
  const many = command.count;
  if (command.do === 'insert rows') {
    if (!isRow(at, count + 1) || !Number.isInteger(many) || many < 0) return fail(problems.rowGone(at, count));
    const blank = Array.from({ length: many }, () => `${blankRow(rows)}\n`);
    return ok(joined(rows, (lines) => [...lines.slice(0, at), ...blank, ...lines.slice(at)]));
  }
  if (!isRow(at, count) || !isRow(at + many, count + 1) || many < 0) return fail(problems.rowGone(at + many - 1, count));
  if (command.do === 'delete rows') {
    return ok(joined(rows, (lines) => [...lines.slice(0, at), ...lines.slice(at + many)]));
  }
  const { to } = command;
  if (!isRow(to, count - many + 1)) return fail(problems.rowGone(to, count));
  return ok(
    joined(rows, (lines) => {
      const rest = [...lines.slice(0, at), ...lines.slice(at + many)];
      return [...rest.slice(0, to), ...lines.slice(at, at + many), ...rest.slice(to)];
    }),
  );
}

function isRow(row: number, count: number): boolean {
  return Number.isInteger(row) && row >= 0 && row < count;
}

function blankRow({ header, delimited }: RowsText): string {
  const { separator } = delimited;
  return header.length <= 1 || separator === '\t' ? `""${separator.repeat(Math.max(0, header.length - 1))}` : separator.repeat(header.length - 1);
}

/** The text with its rows, each with its line end and blank lines below it, put in another order. */
function joined({ delimited: { text, records } }: RowsText, change: (lines: readonly string[]) => readonly string[]): string {
  const whole = text.endsWith('\n') ? text : `${text}\n`;
  const starts = records.map(({ start }) => start);
  const lines = starts.slice(1).map((start, i) => whole.slice(start, starts[i + 2] ?? whole.length));
  const from = starts[1] ?? whole.length;
  return applyCuts(whole, [{ start: from, end: whole.length, text: change(lines).join('') }]);
}
