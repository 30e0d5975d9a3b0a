import { isMap, isScalar, isSeq } from 'yaml';
import type { ParsedNode } from 'yaml';
import { fail, ok } from '../core/problem/index.ts';
import type { Problem, Result } from '../core/problem/index.ts';
import { applyCuts, newEntry } from './body-edit.ts';
import type { Cut } from './body-edit.ts';
import { lineStart, nextLine } from './text-lines.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import type { Plain } from './reads-as.ts';
import { writeScalar } from './scalar-text.ts';
import { unsafeProblem } from './set-entry.ts';
import { cutsInGroup } from './set-in-group.ts';
import { readBody } from './yaml-body.ts';

/**
 * The body of a checklist with one item ticked at a time, or open again. A plain item becomes a group of text and time.
 * Problems: `item-missing`, `edit-unsafe`.
 */
export function setDone(body: string, index: number, time: string | undefined, lineEnd: string): Result<string> {
  const reading = readBody(body);
  const list = reading.entries.find(({ key }) => key === 'items')?.node;
  const item = isSeq(list) ? (list.items[index] as ParsedNode | undefined) : undefined;
  if (!isSeq(list) || item === undefined) return fail(itemMissingProblem(index));
  const cuts = isMap(item)
    ? cutsInGroup(body, item, 'done', time, lineEnd)
    : isScalar(item) && time !== undefined
      ? tickText(body, item, time, lineEnd, list.flow === true)
      : [];
  const changed = applyCuts(body, cuts ?? []);
  const expected = plainGroup(body, reading);
  const items = expected.get('items');
  if (Array.isArray(items)) items[index] = doneItem(items[index], time);
  return readsAs(changed, expected, 'items') ? ok(changed) : fail(unsafeProblem('items'));
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

function doneItem(item: Plain | undefined, time: string | undefined): Plain {
  if (!(item instanceof Map) && time === undefined) return item ?? '';
  const group: Map<string, Plain> = item instanceof Map ? new Map(item) : new Map([['text', item ?? '']]);
  if (time === undefined) group.delete('done');
  else group.set('done', time);
  return group;
}

function itemMissingProblem(index: number): Problem {
  return {
    code: 'item-missing',
    what: `This checklist has no item ${index + 1} any more.`,
    mend: 'Look at the list as it stands now.',
    key: 'items',
  };
}
