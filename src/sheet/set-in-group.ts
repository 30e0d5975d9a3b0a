import { isMap } from 'yaml';
import type { YAMLMap } from 'yaml';
import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { applyCuts, entryEnd, newEntry, replaceValue } from './body-edit.ts';
import type { Cut } from './body-edit.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import { columnOf, insertInline, removal, setKey, unsafeProblem } from './set-entry.ts';
import { entriesOf, readBody } from './yaml-body.ts';

/**
 * The body with one entry of a group, such as a coefficient under `correlated`, set to a text or taken out where `value`
 * is undefined. The group is made where there is none, and goes with its last entry; all else stays byte for byte.
 * Problems: those of `setKey`.
 */
export function setInGroup(
  body: string,
  order: readonly string[],
  { group, key }: { readonly group: string; readonly key: string },
  value: string | undefined,
  lineEnd: string,
): Result<string> {
  const there = plainGroup(body, readBody(body)).get(group);
  const others = there instanceof Map ? [...there.keys()].filter((other) => other !== key) : [];
  if (value === undefined && others.length === 0) return setKey(body, order, group, undefined, lineEnd);
  const based = there instanceof Map ? ok(body) : setKey(body, order, group, '', lineEnd);
  if (!based.ok) return based;
  const reading = readBody(based.value);
  const entry = reading.entries.find((candidate) => candidate.key === group);
  if (entry === undefined) return fail(unsafeProblem(group));
  const expected = plainGroup(based.value, reading);
  const inner = new Map(there instanceof Map ? there : []);
  if (value === undefined) inner.delete(key);
  else inner.set(key, value);
  expected.set(group, inner);
  const end = entryEnd(based.value, entry);
  const cuts = isMap(entry.node)
    ? cutsInGroup(based.value, entry.node, key, value, lineEnd)
    : [{ start: end, end, text: newEntry(key, value ?? '', columnOf(based.value, reading.entries) + 2, lineEnd) }];
  const changed = applyCuts(based.value, cuts ?? []);
  return readsAs(changed, expected, group) ? ok(changed) : fail(unsafeProblem(group));
}

/** The cuts that set one entry of a group that stands in the body, or take it out. */
export function cutsInGroup(
  body: string,
  group: YAMLMap,
  key: string,
  value: string | undefined,
  lineEnd: string,
): readonly Cut[] | undefined {
  const entries = entriesOf(group);
  const isInline = group.flow === true;
  const entry = entries.find((candidate) => candidate.key === key);
  if (value === undefined) return entry === undefined ? [] : removal(body, entry, lineEnd, isInline);
  if (entry !== undefined) return replaceValue(body, entry, value, lineEnd, isInline);
  const last = entries.at(-1);
  if (last === undefined || isInline) return insertInline(body, entries, key, value);
  const at = entryEnd(body, last);
  return [{ start: at, end: at, text: newEntry(key, value, columnOf(body, entries), lineEnd) }];
}
