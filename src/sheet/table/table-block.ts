import { bodyOf } from '../last-text.ts';
import type { LastTextPlace } from '../last-text.ts';
import { areLinesOfBlock } from '../scalar-text.ts';
import type { CellBlock, TableCell } from '../types.ts';
import { rememberRows, textOfRows } from './rows-text.ts';
import type { RowsText } from './rows-text.ts';

/*
 * A table whose rows were changed, made without reading its text again. The text itself (a few million characters with a
 * hundred thousand rows) is put together only where it is asked for, and not kept: a hundred steps of undo then hold a
 * hundred stretches of rows and not a hundred texts.
 */

/** Longest that a body with these rows can be, in characters. */
export function longestWith({ head, indent, lineEnd, tail }: LastTextPlace, { length, lineEnds }: RowsText): number {
  return head.length + tail.length + length + (lineEnds + 1) * (indent.length + lineEnd.length);
}

/**
 * Whether rows can take the place of others as plain lines, and the fence around them still closes where it did. Only the
 * stretches that the earlier rows do not have are looked at.
 */
export function canStandAfter(earlier: RowsText, rows: RowsText): boolean {
  if (rows.head !== earlier.head || rows.count === 0) return false;
  const known = new Set(earlier.stretches);
  const last = rows.stretches.at(-1)?.text ?? '';
  if (!last.endsWith('\n') || last.endsWith('\n\n')) return false;
  return rows.stretches.every((stretch) => known.has(stretch) || (!/`{3}|~{3}/.test(stretch.text) && areLinesOfBlock(stretch.text.split('\n'))));
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
