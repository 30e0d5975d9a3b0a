import type { KeyPress } from '../keys.ts';
import type { Place } from './table-ui.ts';

/** Where the caret stands in a field's text. */
export interface Caret {
  readonly start: number;
  readonly end: number;
  readonly length: number;
}

export interface TableShape {
  /** The last row that can be gone to: the blank one after the others, where there is one. */
  readonly lastRow: number;
  /** For each column whether something can be typed there. */
  readonly editable: readonly boolean[];
  /** Whether something stands in the row that the key is pressed in. */
  readonly holdsSomething: boolean;
  /** Whether the last row is a new one, in which nothing stands yet. */
  readonly endsWithNew: boolean;
}

const ROWS_OF_A_PAGE = 20;

/**
 * Where a key leads from a field; `out` of the table, to the next blank of the sheet; undefined where the key is the
 * field's own. Left and right lead on only at the ends of the text, or while all of it is selected.
 */
export function placeAfter(press: KeyPress, caret: Caret, from: Place, shape: TableShape): Place | 'out' | undefined {
  if (press.altKey || press.ctrlKey || press.metaKey) return undefined;
  if (press.key === 'Enter') return press.shiftKey ? backAlongRow(from, shape) : alongRow(from, shape);
  if (press.shiftKey) return undefined;
  const isWhole = caret.start === 0 && caret.end === caret.length;
  switch (press.key) {
    case 'ArrowUp': return down(from, -1, shape);
    case 'ArrowDown': return down(from, 1, shape);
    case 'PageUp': return down(from, -ROWS_OF_A_PAGE, shape);
    case 'PageDown': return down(from, ROWS_OF_A_PAGE, shape);
    case 'ArrowLeft': return isWhole || (caret.start === 0 && caret.end === 0) ? (across(from, -1, shape) ?? from) : undefined;
    case 'ArrowRight': return isWhole || caret.start === caret.length ? (across(from, 1, shape) ?? from) : undefined;
    default: return undefined;
  }
}

/** As a row is read and filled in. A new row is begun only from one that holds something: nothing is left behind half made. */
function alongRow(from: Place, shape: TableShape): Place | 'out' {
  const beside = across(from, 1, shape);
  if (beside !== undefined) return beside;
  const row = from.row + 1;
  const isNew = shape.endsWithNew && row === shape.lastRow;
  return row > shape.lastRow || (isNew && !shape.holdsSomething) ? 'out' : { row, column: shape.editable.indexOf(true) };
}

function backAlongRow(from: Place, shape: TableShape): Place {
  const beside = across(from, -1, shape);
  if (beside !== undefined || from.row === 0) return beside ?? from;
  return { row: from.row - 1, column: shape.editable.lastIndexOf(true) };
}

function down({ row, column }: Place, rows: number, { lastRow }: TableShape): Place {
  return { row: Math.min(Math.max(0, row + rows), lastRow), column };
}

/** The next column that can be typed in; undefined where none is left on this side. */
function across(from: Place, direction: 1 | -1, { editable }: TableShape): Place | undefined {
  for (let column = from.column + direction; column >= 0 && column < editable.length; column += direction) {
    if (editable[column] === true) return { row: from.row, column };
  }
  return undefined;
}

/** Whether a pasted text is several fields: lines or tabs, but for the line end that a spreadsheet puts after the last. */
export function isBlockOfFields(text: string): boolean {
  return /[\t\n\r]/.test(text.replace(/(?:\r\n|\n|\r)$/, ''));
}

/** Whether one line is a row of a file, several fields with a number among them, and not what belongs into one field. */
export function isLineOfFields(text: string): boolean {
  const fields = text.trim().split(/[;,]/);
  return fields.length > 3 && fields.some((field) => /^\s*\d[\d.]*\s*$/.test(field)) && fields.some((field) => /\p{L}/u.test(field));
}
