import { ok } from '../../core/problem/index.ts';
import type { Result } from '../../core/problem/index.ts';
import { writeScalar } from '../scalar-text.ts';
import { readBody } from '../yaml-body.ts';
import type { BodyReading } from '../yaml-body.ts';

/*
 * The rows of a table as a text block at the end of its body. A hundred thousand lines of plain text need no YAML reader:
 * the block is taken off before the body is read, and put back with one line changed. Whatever is written another way
 * takes the way of all other keys, and reads the same.
 */

export interface RowsBlock extends RowsPlace {
  /** What the body without the rows' lines says; its last entry is `rows`. */
  readonly reading: BodyReading;
  readonly rows: string;
}

/** What stands around the lines of the rows. */
export interface RowsPlace {
  /** The body up to the rows' first line. */
  readonly head: string;
  readonly indent: string;
  readonly lineEnd: string;
  /** Blank lines behind the rows. */
  readonly tail: string;
}

/** The rows of a body whose last key is `rows: |` with sound lines below; undefined for any other body. */
export function rowsBlock(body: string): RowsBlock | undefined {
  const opening = /(?:^|\n)rows:[ ]*\|[ ]*(\r?\n)( +)(?=\S)/.exec(body);
  if (opening === null) return undefined;
  const [whole, lineEnd = '\n', indent = ' '] = opening;
  const from = opening.index + whole.length - indent.length;
  const block = /(?:\r?\n)*$/.exec(body.slice(from));
  const to = from + (block?.index ?? 0);
  const lines = body.slice(from, to);
  const other = new RegExp(`\\n(?!${indent}[ ]*\\S|\\r?\\n)`);
  const carriages = lineEnd === '\r\n' ? /[^\r]\n|\r(?!\n)/ : /\r/;
  if (to === body.length || other.test(lines) || carriages.test(lines)) return undefined;
  const head = body.slice(0, from);
  const reading = readBody(head);
  const last = reading.entries.at(-1);
  const isSound = reading.problems.length === 0 && reading.form === 'lines' && reading.entries.filter(({ key }) => key === 'rows').length === 1;
  if (!isSound || last?.key !== 'rows' || last.keyStart !== head.lastIndexOf('rows:')) return undefined;
  const rows = `\n${lines}`.replaceAll(`\n${indent}`, '\n').slice(1).replaceAll('\r\n', '\n');
  return { reading, rows: `${rows}\n`, head, indent, lineEnd, tail: body.slice(to).replace(/^\r?\n/, '') };
}

/** The body with other rows; undefined where they can't stand as plain lines. */
export function withRows(place: RowsPlace, rows: string): string | undefined {
  return writeScalar(rows, 'block', false).head === '|' ? bodyOf(place, rows) : undefined;
}

/** The body with rows that can stand as plain lines. */
export function bodyOf({ head, indent, lineEnd, tail }: RowsPlace, rows: string): string {
  const lines = rows.slice(0, -1).replace(/\n(?=[^\n])/g, `\n${indent}`);
  return `${head}${indent}${lines.replaceAll('\n', lineEnd)}${lineEnd}${tail}`;
}

/**
 * A change of the other keys of a body, made while one short line stands in for the rows; undefined where the rows are
 * written another way, or the change did not leave them last.
 */
export function changeAround(body: string, change: (short: string) => Result<string>): Result<string> | undefined {
  const block = rowsBlock(body);
  if (block === undefined) return undefined;
  const { head, indent, lineEnd } = block;
  const standIn = `${indent}x${lineEnd}`;
  const changed = change(head + standIn);
  if (!changed.ok) return changed;
  return changed.value.endsWith(standIn) ? ok(changed.value.slice(0, -standIn.length) + body.slice(head.length)) : undefined;
}
