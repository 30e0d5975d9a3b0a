import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { applyCuts, entryEnd, newEntry } from './body-edit.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import type { Plain } from './reads-as.ts';
import { columnOf, setKey, unsafeProblem } from './set-entry.ts';
import { readBody } from './yaml-body.ts';

/** A group of key and text, or a list of such groups. */
export type Entries = ReadonlyMap<string, string> | readonly ReadonlyMap<string, string>[];

/**
 * The body with a whole group, or a whole list of groups, under a key in place of what stands there; taken out where there
 * is nothing in it. Texts that are empty are left out. Problems: those of `setKey`.
 */
export function setEntries(body: string, order: readonly string[], key: string, entries: Entries, lineEnd: string): Result<string> {
  const without = setKey(body, order, key, undefined, lineEnd);
  const wanted = filled(entries);
  if (!without.ok || (wanted instanceof Map ? wanted.size : wanted.length) === 0) return without;
  const opened = setKey(without.value, order, key, '', lineEnd);
  if (!opened.ok) return opened;
  const reading = readBody(opened.value);
  const entry = reading.entries.find((candidate) => candidate.key === key);
  if (entry === undefined) return fail(unsafeProblem(key));
  const column = columnOf(opened.value, reading.entries) + 2;
  const at = entryEnd(opened.value, entry);
  const lines = wanted instanceof Map ? groupLines(wanted, column, lineEnd) : wanted.map((group) => itemLines(group, column, lineEnd)).join('');
  const changed = applyCuts(opened.value, [{ start: at, end: at, text: lines }]);
  const expected = plainGroup(opened.value, reading);
  expected.set(key, wanted instanceof Map ? wanted : [...wanted]);
  return readsAs(changed, expected, key) ? ok(changed) : fail(unsafeProblem(key));
}

function filled(entries: Entries): Map<string, Plain> | readonly Map<string, Plain>[] {
  const texts = (group: ReadonlyMap<string, string>): Map<string, Plain> => new Map([...group].filter(([, text]) => text !== ''));
  return isList(entries) ? entries.map(texts).filter(({ size }) => size > 0) : texts(entries);
}

function isList(entries: Entries): entries is readonly ReadonlyMap<string, string>[] {
  return Array.isArray(entries);
}

function groupLines(group: ReadonlyMap<string, Plain>, column: number, lineEnd: string): string {
  return [...group].map(([key, text]) => newEntry(key, String(text), column, lineEnd)).join('');
}

function itemLines(group: ReadonlyMap<string, Plain>, column: number, lineEnd: string): string {
  return `${' '.repeat(column)}- ${groupLines(group, column + 2, lineEnd).slice(column + 2)}`;
}
