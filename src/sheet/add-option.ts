import { fail } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { appendItem } from './list-items.ts';
import { unsafeProblem } from './set-entry.ts';
import type { ChoiceOption } from './types.ts';
import { readBody } from './yaml-body.ts';

/** What a new option says: quantities or formulas by symbol, and where they come from. */
export type NewOption = Pick<ChoiceOption, 'key' | 'label' | 'sets' | 'note' | 'material'> & { readonly source: string };

/**
 * The body of a choice with one option more at the end of its list; all else stays byte for byte.
 * Problem: `edit-unsafe`, where there is no list, or it is written so that a line more would change something else, too.
 */
export function addOption(body: string, { key, label, sets, source, note, material }: NewOption, lineEnd: string): Result<string> {
  if (!readBody(body).entries.some((entry) => entry.key === 'options')) return fail(unsafeProblem('options'));
  const about = [...(note === undefined ? [] : [['note', note] as const]), ...(material === undefined ? [] : [['material', material] as const])];
  return appendItem(body, 'options', new Map<string, string | ReadonlyMap<string, string>>([['key', key], ['label', label], ...(sets.size === 0 ? [] : [['sets', sets] as const]), ['source', source], ...about]), lineEnd);
}
