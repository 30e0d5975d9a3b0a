import type { KeyPress } from '../keys.ts';
import type { Place } from './table-ui.ts';

/** Where the caret stands in a field's text. */
export interface Caret {
  readonly start: number;
  readonly end: number;
  readonly length: number;
}

export interface TableShape {
  readonly rowCount: number;
  /** For each column whether something can be typed there. */
  readonly editable: readonly boolean[];
}

const ROWS_OF_A_PAGE = 20;

/**
 * Where a key leads from a field; undefined where the key is the field's own. Left and right lead on only at the ends of
 * the text, or while all of it is selected, as it is on coming into a field.
 */
export function placeAfter(press: KeyPress, caret: Caret, from: Place, shape: TableShape): Place | undefined {
  if (press.altKey || press.ctrlKey || press.metaKey) return undefined;
  if (press.key === 'Enter') return press.shiftKey ? down(from, -1, shape) : down(from, 1, shape);
  if (press.shiftKey) return undefined;
  const isWhole = caret.start === 0 && caret.end === caret.length;
  switch (press.key) {
    case 'ArrowUp': return down(from, -1, shape);
    case 'ArrowDown': return down(from, 1, shape);
    case 'PageUp': return down(from, -ROWS_OF_A_PAGE, shape);
    case 'PageDown': return down(from, ROWS_OF_A_PAGE, shape);
    case 'ArrowLeft': return isWhole || (caret.start === 0 && caret.end === 0) ? across(from, -1, shape) : undefined;
    case 'ArrowRight': return isWhole || caret.start === caret.length ? across(from, 1, shape) : undefined;
    default: return undefined;
  }
}

function down({ row, column }: Place, rows: number, { rowCount }: TableShape): Place {
  return { row: Math.min(Math.max(0, row + rows), rowCount), column };
}

/** The next column that can be typed in; where none is left on this side, the place itself. */
function across(from: Place, direction: 1 | -1, { editable }: TableShape): Place {
  for (let column = from.column + direction; column >= 0 && column < editable.length; column += direction) {
    if (editable[column] === true) return { row: from.row, column };
  }
  return from;
}

/** Whether a pasted text is several fields: lines or tabs, but for the line end that a spreadsheet puts after the last. */
export function isBlockOfFields(text: string): boolean {
  return /[\t\n\r]/.test(text.replace(/(?:\r\n|\n|\r)$/, ''));
}
