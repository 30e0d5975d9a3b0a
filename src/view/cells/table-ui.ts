import type { Problem } from '../../core/problem/index.ts';
import type { Look, RowsIn } from '../../graph/index.ts';

/** A field of a table: row and column as shown, from 0. The row after the last is the blank one to go on in. */
export interface Place {
  readonly row: number;
  readonly column: number;
}

/** Some of the rows, or all in another order, as they were picked; a field typed over since leaves its row in its place. */
export interface PickedRows {
  readonly look: Look;
  /** Number of rows that the table had: with another one the rows are picked anew. */
  readonly rowCount: number;
  readonly rows: readonly number[];
  /** Why the condition picked nothing. */
  readonly problem?: Problem;
}

/** A field as it is being typed. */
interface FieldDraft extends Place {
  readonly text: string;
}

/** How the page looks at a table: no part of the document. */
export interface TableUi {
  /** First row of those in the page. */
  readonly first: number;
  /** The field that has the focus, or had it last: the one that Tab comes to, and what the buttons speak of. */
  readonly at: Place;
  /** Kept until the field is left. */
  readonly draft: FieldDraft | undefined;
  readonly look: Look;
  /** The rows that this very look picks; absent while all are shown as they lie. */
  readonly picked: PickedRows | undefined;
  /** Whether the rows stand in the page as they are printed. */
  readonly isPrinting: boolean;
  /** Whether the lines that pick and add are unfolded. */
  readonly isOpen: boolean;
  /** Rows that were pasted or opened, looked at before they go in. */
  readonly rowsIn: RowsIn | undefined;
  /** The row, as shown, that stands as a form below its line. */
  readonly form: number | undefined;
}

/** Rows that are in the page at once, however long the table is. */
export const ROWS_AT_ONCE = 100;

export function createTableUi(): TableUi {
  return { first: 0, at: { row: 0, column: 0 }, draft: undefined, look: { only: '' }, picked: undefined, isPrinting: false, isOpen: false, rowsIn: undefined, form: undefined };
}

/** First row of the window that shows `row`: the one there is if it does, or else one with as much before the row as after it. */
export function windowFor(row: number, first: number, rowCount: number): number {
  if (row >= first && row < first + ROWS_AT_ONCE) return Math.min(first, lastWindow(rowCount));
  return Math.min(Math.max(0, row - ROWS_AT_ONCE / 2), lastWindow(rowCount));
}

/** Start of the last window, which ends with the blank row. */
export function lastWindow(rowCount: number): number {
  return Math.max(0, rowCount + 1 - ROWS_AT_ONCE);
}
