import { ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { writeScalar } from './scalar-text.ts';
import { readBody } from './yaml-body.ts';
import type { BodyReading } from './yaml-body.ts';

/*
 * The rows of a table, or a picture, as a text block at the end of a body. A hundred thousand lines of plain text need no
 * YAML reader: the block is taken off before the body is read, and put back with one line changed. Whatever is written
 * another way takes the way of all other keys, and reads the same.
 */

interface LastTextBlock extends LastTextPlace {
  readonly key: string;
  /** What the body without the text's lines says; its last entry is the key. */
  readonly reading: BodyReading;
  readonly text: string;
}

/** What stands around the lines of the text. */
export interface LastTextPlace {
  /** The body up to the text's first line. */
  readonly head: string;
  readonly indent: string;
  readonly lineEnd: string;
  /** Blank lines behind the text. */
  readonly tail: string;
}

/** Kinds with a key that holds a long text and stands last, and the longest body that they may have, in characters. */
export const LAST_TEXTS: ReadonlyMap<string, { readonly key: 'rows' | 'picture'; readonly longest: number }> = new Map([
  // A hundred thousand rows with a hundred characters each (specimen, group, stress, life, outcome, whether it counts, a short note). Reading takes time
  // in proportion, whatever stands there.
  ['table', { key: 'rows', longest: 12_000_000 }],
  // Some 800 kB of JPEG.
  ['photo', { key: 'picture', longest: 1_100_000 }],
]);

/** The key of a kind that holds a long text and stands last; undefined for the other kinds. */
export function lastTextKey(kindWord: string): 'rows' | 'picture' | undefined {
  return LAST_TEXTS.get(kindWord)?.key;
}

const OPENINGS = {
  rows: /(?:^|\n)rows:[ ]*\|[ ]*(\r?\n)( +)(?=\S)/,
  picture: /(?:^|\n)picture:[ ]*\|[ ]*(\r?\n)( +)(?=\S)/,
};

/** The text of a body whose last key is `KEY: |` with sound lines below; undefined for any other body. */
export function lastTextBlock(body: string, key: 'rows' | 'picture'): LastTextBlock | undefined {
  const opening = OPENINGS[key].exec(body);
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
  const isSound = reading.problems.length === 0 && reading.form === 'lines' && reading.entries.filter((entry) => entry.key === key).length === 1;
  if (!isSound || last?.key !== key || last.keyStart !== head.lastIndexOf(`${key}:`)) return undefined;
  const text = `\n${lines}`.replaceAll(`\n${indent}`, '\n').slice(1).replaceAll('\r\n', '\n');
  return { key, reading, text: `${text}\n`, head, indent, lineEnd, tail: body.slice(to).replace(/^\r?\n/, '') };
}

/** The body with another text there; undefined where it can't stand as plain lines. */
export function withLastText(place: LastTextPlace, text: string): string | undefined {
  return writeScalar(text, 'block', false).head === '|' ? bodyOf(place, text) : undefined;
}

/** The body with a text that can stand as plain lines. */
export function bodyOf({ head, indent, lineEnd, tail }: LastTextPlace, text: string): string {
  const lines = text.slice(0, -1).replace(/\n(?=[^\n])/g, `\n${indent}`);
  return `${head}${indent}${lines.replaceAll('\n', lineEnd)}${lineEnd}${tail}`;
}

/**
 * A change of the other keys of a body, made while one short line stands in for the last text; undefined where that is
 * written another way, or the change did not leave them last.
 */
export function changeAround(body: string, key: 'rows' | 'picture', change: (short: string) => Result<string>): Result<string> | undefined {
  const block = lastTextBlock(body, key);
  if (block === undefined) return undefined;
  const { head, indent, lineEnd } = block;
  const standIn = `${indent}x${lineEnd}`;
  const changed = change(head + standIn);
  if (!changed.ok) return changed;
  return changed.value.endsWith(standIn) ? ok(changed.value.slice(0, -standIn.length) + body.slice(head.length)) : undefined;
}
