import { isMap, isSeq } from 'yaml';
import type { ParsedNode, YAMLSeq } from 'yaml';
import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { applyCuts, entryEnd, newEntry, writeKey } from './body-edit.ts';
import type { Cut } from './body-edit.ts';
import { lineStart } from './text-lines.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import type { Plain } from './reads-as.ts';
import { columnOf, setKey, unsafeProblem } from './set-entry.ts';
import { cutsInGroup } from './set-in-group.ts';
import { readBody } from './yaml-body.ts';
import type { Entry } from './yaml-body.ts';

/*
 * One item of a list of groups put in, changed or taken out; the other items stay byte for byte. Each edit is a Problem
 * (`edit-unsafe`) where the list is written so that it would change something else, too.
 */

/** A group of texts, or of groups of texts. */
export type Item = ReadonlyMap<string, string | ReadonlyMap<string, string>>;

/** The body with an item at the end of a list, which is made where there is none. */
export function appendItem(body: string, key: string, item: Item, lineEnd: string): Result<string> {
  const opened = listUnder(body, key) === undefined ? setKey(body, [], key, '', lineEnd) : ok(body);
  if (!opened.ok) return opened;
  const reading = readBody(opened.value);
  const entry = reading.entries.find((one) => one.key === key);
  if (entry === undefined) return fail(unsafeProblem(key));
  const list = isSeq(entry.node) ? entry.node : undefined;
  const last = list?.items.at(-1) as ParsedNode | undefined;
  if (list !== undefined && (list.flow === true || last === undefined)) return fail(unsafeProblem(key));
  const column = last === undefined ? columnOf(opened.value, reading.entries) + 4 : last.range[0] - lineStart(opened.value, last.range[0]);
  const at = entryEnd(opened.value, entry);
  const before = at > 0 && !/[\r\n]/.test(opened.value.charAt(at - 1)) ? lineEnd : '';
  const dashed = `${' '.repeat(Math.max(0, column - 2))}- ${itemLines(item, column, lineEnd).slice(column)}`;
  const expected = plainGroup(opened.value, reading);
  const items = expected.get(key);
  expected.set(key, [...(Array.isArray(items) ? items : []), plainItem(item)]);
  return checked(opened.value, [{ start: at, end: at, text: before + dashed }], expected, key);
}

/** The body with one text of an item set, or taken out. Items are counted from 0. */
export function setInItem(
  body: string, key: string, { index, inner }: { readonly index: number; readonly inner: string }, value: string | undefined, lineEnd: string,
): Result<string> {
  const item = listUnder(body, key)?.list.items[index];
  const expected = plainGroup(body, readBody(body));
  const items = expected.get(key);
  const before = Array.isArray(items) ? items[index] : undefined;
  if (!isMap(item) || !(before instanceof Map) || !Array.isArray(items)) return fail(unsafeProblem(key));
  const after = new Map(before);
  if (value === undefined) after.delete(inner);
  else after.set(inner, value);
  items[index] = after;
  return checked(body, cutsInGroup(body, item, inner, value, lineEnd) ?? [], expected, key);
}

/** The body with one item less; the list goes with its last item. */
export function removeItem(body: string, key: string, index: number, lineEnd: string): Result<string> {
  const found = listUnder(body, key);
  const items = (found?.list.items ?? []) as readonly ParsedNode[];
  const item = items[index];
  if (found === undefined || item === undefined) return fail(unsafeProblem(key));
  if (items.length === 1) return setKey(body, [], key, undefined, lineEnd);
  const next = items[index + 1];
  const end = next === undefined ? entryEnd(body, found.entry) : lineStart(body, next.range[0]);
  const expected = plainGroup(body, readBody(body));
  const left = expected.get(key);
  if (Array.isArray(left)) left.splice(index, 1);
  return checked(body, [{ start: lineStart(body, item.range[0]), end, text: '' }], expected, key);
}

function checked(body: string, cuts: readonly Cut[], expected: Map<string, Plain>, key: string): Result<string> {
  const changed = applyCuts(body, cuts);
  return readsAs(changed, expected, key) ? ok(changed) : fail(unsafeProblem(key));
}

function listUnder(body: string, key: string): { readonly entry: Entry; readonly list: YAMLSeq } | undefined {
  const entry = readBody(body).entries.find((one) => one.key === key);
  return entry !== undefined && isSeq(entry.node) ? { entry, list: entry.node } : undefined;
}

function itemLines(item: Item, column: number, lineEnd: string): string {
  return [...item].map(([key, value]) => {
    if (typeof value === 'string') return newEntry(key, value, column, lineEnd);
    const inner = [...value].map(([name, text]) => newEntry(name, text, column + 2, lineEnd)).join('');
    return `${' '.repeat(column)}${writeKey(key)}:${lineEnd}${inner}`;
  }).join('');
}

function plainItem(item: Item): Plain {
  // A key with nothing below reads as one without a value.
  return new Map([...item].map(([key, value]): [string, Plain] => [key, plainValue(value)]));
}

function plainValue(value: string | ReadonlyMap<string, string>): Plain {
  if (typeof value === 'string') return value;
  return value.size === 0 ? '' : new Map(value);
}
