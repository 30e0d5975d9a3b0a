import { isMap, isScalar, isSeq } from 'yaml';
import type { ParsedNode, YAMLMap } from 'yaml';
import { fail, ok } from '../core/problem/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import { applyCuts, beginsLine, entryEnd, entryLines, newEntry, replaceValue, valueEnd, writeKey } from './body-edit.ts';
import type { Cut } from './body-edit.ts';
import { lineStart, nextLine } from './lines.ts';
import { writeScalar } from './scalar-text.ts';
import { groupOf } from './tree.ts';
import type { Tree } from './tree.ts';
import { entriesOf, readBody } from './yaml-body.ts';
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
  const attempts = [cutsFor(body, reading, order, key, value, lineEnd), rewrite(body, reading, key, value, lineEnd)];
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
  key: string,
  value: string | undefined,
  lineEnd: string,
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
function removal(body: string, entry: Entry, lineEnd: string, isInline: boolean): readonly Cut[] {
  if (isInline || !beginsLine(body, entry)) return replaceValue(body, entry, '', lineEnd, isInline) ?? [];
  return [{ ...entryLines(body, entry), text: '' }];
}

/** After the nearest key that comes before it in the order of the kind, else first. */
function placeOf(body: string, entries: readonly Entry[], order: readonly string[], key: string): number {
  const rank = order.includes(key) ? order.indexOf(key) : order.length;
  const earlier = entries.filter((entry) => !order.includes(key) || order.indexOf(entry.key) < rank);
  const known = earlier.filter((entry) => !order.includes(key) || order.includes(entry.key));
  const last = known.toSorted((a, b) => order.indexOf(a.key) - order.indexOf(b.key)).at(-1);
  if (last !== undefined) return entryEnd(body, order.includes(key) ? last : (entries.at(-1) ?? last));
  return entries.length === 0 ? body.length : 0;
}

function columnOf(body: string, entries: readonly Entry[]): number {
  const [first] = entries;
  return first === undefined ? 0 : first.keyStart - lineStart(body, first.keyStart);
}

function insertInline(body: string, entries: readonly Entry[], key: string, value: string): readonly Cut[] {
  const last = entries.at(-1);
  if (last === undefined) return [];
  const at = valueEnd(body, last);
  return [{ start: at, end: at, text: `, ${writeKey(key)}: ${writeScalar(value, 'plain', true).head}` }];
}

/**
 * The body of a checklist with one item ticked at a time, or open again. A plain item becomes a group of text and time.
 * Problems: `item-missing`, `body-unreadable`, `edit-unsafe`.
 */
export function setDone(body: string, index: number, time: string | undefined, lineEnd: string): Result<string> {
  const reading = readBody(body);
  const list = reading.entries.find(({ key }) => key === 'items')?.node;
  const item = isSeq(list) ? (list.items[index] as ParsedNode | undefined) : undefined;
  if (!isSeq(list) || item === undefined) return fail(itemMissingProblem(index));
  const cuts = isMap(item)
    ? setDoneInGroup(body, item, time, lineEnd)
    : isScalar(item) && time !== undefined
      ? tickText(body, item, time, lineEnd, list.flow === true)
      : [];
  const changed = applyCuts(body, cuts ?? []);
  const expected = plainGroup(body, reading);
  const items = expected.get('items');
  if (Array.isArray(items)) items[index] = doneItem(items[index], time);
  return readsAs(changed, expected, 'items') ? ok(changed) : fail(unsafeProblem('items'));
}

function setDoneInGroup(body: string, item: YAMLMap, time: string | undefined, lineEnd: string): readonly Cut[] | undefined {
  const entries = entriesOf(item);
  const isInline = item.flow === true;
  const done = entries.find(({ key }) => key === 'done');
  if (time === undefined) return done === undefined ? [] : removal(body, done, lineEnd, isInline);
  if (done !== undefined) return replaceValue(body, done, time, lineEnd, isInline);
  const last = entries.at(-1);
  if (last === undefined || isInline) return insertInline(body, entries, 'done', time);
  const at = entryEnd(body, last);
  return [{ start: at, end: at, text: newEntry('done', time, columnOf(body, entries), lineEnd) }];
}

/** `- Guard closed` becomes `- text: Guard closed` with a line for the time below. */
function tickText(body: string, item: ParsedNode, time: string, lineEnd: string, isInline: boolean): readonly Cut[] {
  const [start, end] = item.range;
  const source = body.slice(start, end);
  const text = isScalar(item) && typeof item.value === 'string' ? item.value : '';
  const isOneLine = !/[\r\n]/.test(source) && source !== '';
  const written = isOneLine ? source : writeScalar(text, 'double', true).head;
  const stamp = writeScalar(time, 'plain', true).head;
  if (isInline) return [{ start, end, text: `{text: ${written}, done: ${stamp}}` }];
  const column = start - lineStart(body, start);
  const tail = isOneLine ? '' : /[\r\n]*$/.exec(source)?.[0] ?? '';
  const below = tail === '' ? nextLine(body, end) : end;
  return [
    { start, end, text: `text: ${written}${tail}` },
    { start: below, end: below, text: newEntry('done', time, column, lineEnd) },
  ];
}

type Plain = string | Plain[] | Map<string, Plain>;

function plainGroup(body: string, reading: BodyReading): Map<string, Plain> {
  return plain(groupOf(body, reading.entries, [])) as Map<string, Plain>;
}

function plain(tree: Tree): Plain {
  if (tree.kind === 'text') return tree.text;
  if (tree.kind === 'list') return tree.items.map(plain);
  return new Map([...tree.entries].map(([key, inner]) => [key, plain(inner)]));
}

function doneItem(item: Plain | undefined, time: string | undefined): Plain {
  const group = item instanceof Map ? new Map(item) : new Map<string, Plain>([['text', typeof item === 'string' ? item : '']]);
  if (time === undefined && !(item instanceof Map)) return item ?? '';
  if (time === undefined) group.delete('done');
  else group.set('done', time);
  return group;
}

/**
 * Whether a body reads as expected, and the changed key without a slip: the safety net under every cut. An entry without
 * a value counts as absent.
 */
function readsAs(body: string, expected: Map<string, Plain>, key: string): boolean {
  const reading = readBody(body);
  if (reading.problems.some((problem) => problem.key === key)) return false;
  return signature(plainGroup(body, reading)) === signature(expected);
}

function signature(value: Plain): string {
  if (typeof value === 'string') return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(signature).join()}]`;
  const entries = [...value].filter(([, inner]) => inner !== '').map(([key, inner]) => `${JSON.stringify(key)}:${signature(inner)}`);
  return `{${entries.toSorted().join()}}`;
}

function unreadableProblem(key: string): Problem {
  return {
    code: 'body-unreadable',
    what: `\`${key}\` can't be changed here, because the cell's own text can't be read.`,
    mend: "Mend the cell's own text first.",
    key,
  };
}

function unsafeProblem(key: string): Problem {
  return {
    code: 'edit-unsafe',
    what: `\`${key}\` can't be changed here without touching other lines of the cell's own text.`,
    mend: "Mend or change the cell's own text instead.",
    key,
  };
}

function itemMissingProblem(index: number): Problem {
  return {
    code: 'item-missing',
    what: `This checklist has no item ${index + 1} any more.`,
    mend: 'Look at the list as it stands now.',
    key: 'items',
  };
}
