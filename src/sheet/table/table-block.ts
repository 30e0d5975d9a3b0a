import { bodyOf } from '../last-text.ts';
import type { LastTextPlace } from '../last-text.ts';
import { areLinesOfBlock } from '../scalar-text.ts';
import type { CellBlock, TableCell } from '../types.ts';
import { rememberRows, sizeOfRows, textOfRows } from './rows-text.ts';
import type { RowsText } from './rows-text.ts';

/*
 * A table whose rows were changed, made without reading its text again. The text itself (a few million characters with a
 * hundred thousand rows) is put together only where it is asked for, and not kept: a step to undo then holds a list of rows
 * that it shares with the other steps, and no text.
 */

/** Longest that a body with these rows can be, in characters. */
export function longestWith({ head, indent, lineEnd, tail }: LastTextPlace, rows: RowsText): number {
  const { length, lineEnds } = sizeOfRows(rows);
  return head.length + tail.length + length + (lineEnds + 1) * (indent.length + lineEnd.length);
}

/**
 * Whether rows can take the place of others as plain lines, and the fence around them still closes where it did. Rows
 * that stood in their place before are not looked at.
 */
export function canStandAfter(earlier: RowsText, { head, rows }: RowsText): boolean {
  if (head !== earlier.head) return false;
  const last = rows.at(-1)?.text ?? '';
  if (!last.endsWith('\n') || last.endsWith('\n\n')) return false;
  return rows.every((row, i) => row === earlier.rows[i] || (!/`{3}|~{3}/.test(row.text) && areLinesOfBlock(row.text.split('\n'))));
}

/** The text last put together, so that asking twice costs nothing. */
let latest: { readonly rows: RowsText; readonly text: string } | undefined;

function wholeText(rows: RowsText): string {
  if (latest?.rows !== rows) latest = { rows, text: textOfRows(rows) };
  return latest.text;
}

/** A table's own keys with other rows, whose text is put together when it is read. */
export function withRowsOf<T extends Pick<TableCell, 'rows'>>(fields: T, rows: RowsText): T {
  const { rows: _earlier, ...others } = Object.getOwnPropertyDescriptors(fields);
  return Object.defineProperties({}, { ...others, rows: { enumerable: true, get: () => wholeText(rows) } }) as T;
}

/** The block with other rows between the same fences. */
export function tableBlock(block: CellBlock, cell: TableCell, place: LastTextPlace, rows: RowsText, fences: Fences): CellBlock {
  rememberRows(cell, rows);
  const { kind, id, cellKind } = block;
  return {
    kind,
    id,
    cellKind,
    get source() {
      return fences.opening + bodyOf(place, wholeText(rows)) + fences.closing;
    },
    get body() {
      return bodyOf(place, wholeText(rows));
    },
    cell,
  };
}

/** The lines around a body, with their line ends. */
export interface Fences {
  readonly opening: string;
  readonly closing: string;
}
