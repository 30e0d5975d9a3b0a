import { fail, ok } from '../core/problem/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import {
  applyCuts,
  beginsLine,
  entryEnd,
  entryLines,
  newEntry,
  replaceValue,
  valueEnd,
  writeKey,
} from './body-edit.ts';
import type { Cut } from './body-edit.ts';
import { lineStart } from './text-lines.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import { writeScalar } from './scalar-text.ts';
import { readBody } from './yaml-body.ts';
import type { BodyReading, Entry } from './yaml-body.ts';

/**
 * The body with one key set to a text, or taken out where `value` is undefined; all else stays byte for byte.
 * @param order the keys of the kind: says where a new line goes.
 * Problems: `body-unreadable`, `edit-unsafe` (the body is so broken that the change would change something else, too).
 */
export function setKey(
  body: string,
  order: readonly string[],
  key: string,
  value: string | undefined,
  lineEnd: string,
): Result<string> {
  const reading = readBody(body);
  if (reading.form === 'none') return fail(unreadableProblem(key));
  const expected = plainGroup(body, reading);
  if (value === undefined) expected.delete(key);
  else expected.set(key, value);
  const attempts = [cutsFor(body, reading, order, { key, value, lineEnd }), rewrite(body, reading, key, value, lineEnd)];
  for (const cuts of attempts) {
    const changed = cuts === undefined ? undefined : applyCuts(body, cuts);
    if (changed !== undefined && readsAs(changed, expected, key)) return ok(changed);
  }
  return fail(unsafeProblem(key));
}

/** All lines of a broken entry written anew: its value has no sure place of its own. */
function rewrite(
  body: string,
  reading: BodyReading,
  key: string,
  value: string | undefined,
  lineEnd: string,
): readonly Cut[] | undefined {
  const entry = reading.entries.find((candidate) => candidate.key === key);
  if (entry?.broken === undefined || !beginsLine(body, entry)) return undefined;
  const start = lineStart(body, entry.keyStart);
  const { end } = entry.broken;
  const text = value === undefined ? '' : newEntry(key, value, entry.keyStart - start, lineEnd);
  return [{ start, end, text }];
}

function cutsFor(
  body: string,
  reading: BodyReading,
  order: readonly string[],
  { key, value, lineEnd }: { readonly key: string; readonly value: string | undefined; readonly lineEnd: string },
): readonly Cut[] | undefined {
  const isInline = reading.form === 'braces';
  const found = reading.entries.filter((entry) => entry.key === key);
  const [first] = found;
  if (first?.broken !== undefined) return undefined;
  if (value === undefined) return found.flatMap((entry) => removal(body, entry, lineEnd, isInline));
  if (first !== undefined) return replaceValue(body, first, value, lineEnd, isInline);
  if (isInline) return insertInline(body, reading.entries, key, value);
  const at = placeOf(body, reading.entries, order, key);
  const column = columnOf(body, reading.entries);
  const before = at > 0 && !/[\r\n]/.test(body.charAt(at - 1)) ? lineEnd : '';
  return [{ start: at, end: at, text: before + newEntry(key, value, column, lineEnd) }];
}

/** An entry that can't be taken out by whole lines is left without a value, which reads the same. */
export function removal(body: string, entry: Entry, lineEnd: string, isInline: boolean): readonly Cut[] {
  if (isInline || !beginsLine(body, entry)) return replaceValue(body, entry, '', lineEnd, isInline) ?? [];
  return [{ ...entryLines(body, entry), text: '' }];
}

/** After the nearest key that comes before it in the order of the kind, else first; a key of no kind goes last. */
function placeOf(body: string, entries: readonly Entry[], order: readonly string[], key: string): number {
  const last = entries.at(-1);
  if (last === undefined) return body.length;
  if (!order.includes(key)) return entryEnd(body, last);
  const earlier = order.slice(0, order.indexOf(key));
  const ranked = entries.filter((entry) => earlier.includes(entry.key));
  const before = ranked.toSorted((a, b) => earlier.indexOf(a.key) - earlier.indexOf(b.key)).at(-1);
  return before === undefined ? 0 : entryEnd(body, before);
}

export function columnOf(body: string, entries: readonly Entry[]): number {
  const [first] = entries;
  return first === undefined ? 0 : first.keyStart - lineStart(body, first.keyStart);
}

export function insertInline(body: string, entries: readonly Entry[], key: string, value: string): readonly Cut[] {
  const last = entries.at(-1);
  if (last === undefined) return [];
  const at = valueEnd(body, last);
  return [{ start: at, end: at, text: `, ${writeKey(key)}: ${writeScalar(value, 'plain', true).head}` }];
}

function unreadableProblem(key: string): Problem {
  return {
    code: 'body-unreadable',
    what: `\`${key}\` can't be changed here, because the cell's own text can't be read.`,
    mend: "Mend the cell's own text first.",
    key,
  };
}

export function unsafeProblem(key: string): Problem {
  return {
    code: 'edit-unsafe',
    what: `\`${key}\` can't be changed here without touching other lines of the cell's own text.`,
    mend: "Mend or change the cell's own text instead.",
    key,
  };
}
