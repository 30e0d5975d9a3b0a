import { isSeq } from 'yaml';
import type { ParsedNode } from 'yaml';
import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { applyCuts, entryEnd, newEntry } from './body-edit.ts';
import { lineStart } from './lines.ts';
import { plainGroup, readsAs } from './reads-as.ts';
import type { Plain } from './reads-as.ts';
import { unsafeProblem } from './set-entry.ts';
import type { ChoiceOption } from './types.ts';
import { readBody } from './yaml-body.ts';

/** What a new option says: quantities or formulas by symbol, and where they come from. */
export type NewOption = Pick<ChoiceOption, 'key' | 'label' | 'sets'> & { readonly source: string };

/**
 * The body of a choice with one option more at the end of its list; all else stays byte for byte.
 * Problem: `edit-unsafe`, where the list is written so that a line more would change something else, too.
 */
export function addOption(body: string, { key, label, sets, source }: NewOption, lineEnd: string): Result<string> {
  const reading = readBody(body);
  const entry = reading.entries.find((one) => one.key === 'options');
  const list = entry?.node;
  const last = isSeq(list) ? (list.items.at(-1) as ParsedNode | undefined) : undefined;
  if (entry === undefined || !isSeq(list) || list.flow === true || last === undefined) return fail(unsafeProblem('options'));
  const column = last.range[0] - lineStart(body, last.range[0]);
  const lines = [
    newEntry('key', key, column, lineEnd),
    newEntry('label', label, column, lineEnd),
    `${' '.repeat(column)}sets:${lineEnd}`,
    ...[...sets].map(([symbol, text]) => newEntry(symbol, text, column + 2, lineEnd)),
    newEntry('source', source, column, lineEnd),
  ].join('');
  const at = entryEnd(body, entry);
  const before = at > 0 && !/[\r\n]/.test(body.charAt(at - 1)) ? lineEnd : '';
  const dashed = `${' '.repeat(Math.max(0, column - 2))}- ${lines.slice(column)}`;
  const changed = applyCuts(body, [{ start: at, end: at, text: before + dashed }]);
  const expected = plainGroup(body, reading);
  const options = expected.get('options');
  if (Array.isArray(options)) options.push(new Map<string, Plain>([['key', key], ['label', label], ['sets', new Map(sets)], ['source', source]]));
  return readsAs(changed, expected, 'options') ? ok(changed) : fail(unsafeProblem('options'));
}
