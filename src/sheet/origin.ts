import { nearNames } from '../core/problem/index.ts';
import type { Fields, Slip } from './fields.ts';
import type { Origin } from './cell-base.ts';
import { asKind } from './cells-of.ts';
import type { Cell, GivenCell } from './types.ts';
import * as v from 'valibot';

export const ORIGINS: readonly Origin[] = ['assumed', 'example', 'set'];

/** The entry of the front matter that lists the entries of the title block which are the example's. */
export const HEAD_FROM_EXAMPLE = 'from_example';

const slip: Slip = (typed) => {
  const near = nearNames(typed, ORIGINS);
  return {
    code: 'origin-unknown',
    what: `\`origin\` takes the words assumed, example and set only, not \`${typed}\`.`,
    mend: near.length > 0 ? `Did you mean \`origin: ${near.join('` or `origin: ')}\`?` : 'Delete the line where the value is your own.',
  };
};

/** Reads the key, where the kind takes it. */
export function readOrigin(fields: Fields): Origin | undefined {
  return fields.formed('origin', v.picklist(ORIGINS), slip);
}

/** The keys that an edit sets, and with them what it does to the cell's origin: another entry is the reader's own. */
export function asOwn(cell: Cell, values: ReadonlyMap<string, string | undefined>): ReadonlyMap<string, string | undefined> {
  if (cell.origin === undefined || values.has('origin')) return values;
  const isEntered = [...entered(cell)].some(([key, text]) => values.has(key) && values.get(key) !== text);
  return isEntered ? new Map([...values, ['origin', undefined]]) : values;
}

/** What a reader enters in a cell, by key: whoever changes it makes the cell their own. Rows of tables have edits of their own. */
function entered(cell: Cell): ReadonlyMap<string, string | undefined> {
  const [given, choice, remark, record] = [asKind(cell, 'given'), asKind(cell, 'choice'), asKind(cell, 'remark'), asKind(cell, 'record')];
  return new Map([
    ...(given === undefined ? [] : [['value', given.value], ['readings', given.readings]] as const),
    ...(choice === undefined ? [] : [['chosen', choice.chosen]] as const),
    ...(remark === undefined ? [] : [['text', remark.text]] as const),
    ...(record === undefined ? [] : ['counter_multiplier', 'counter_digits'].map((key) => [key, record.texts.get(key)] as const)),
  ]);
}

/** Whether what stands in a given is what was taken over from another sheet, and nothing that was typed over it. */
export function isTakenOver({ taken, value, readings }: Pick<GivenCell, 'taken' | 'value' | 'readings'>): boolean {
  return taken !== undefined && readings === undefined && value === taken.get('value');
}

/** Whether it is of the invented example, or is a line that was taken from one. */
export function isOfExample(cell: Cell): boolean {
  return cell.origin === 'example' || asKind(cell, 'fit')?.snapshot?.get('invented') === 'yes';
}

/** The entries of the title block that are the example's, as `from_example` lists them. */
export function headFromExample(entries: ReadonlyMap<string, string>): readonly string[] {
  return (entries.get(HEAD_FROM_EXAMPLE) ?? '').split(',').map((key) => key.trim()).filter((key) => key !== '');
}
