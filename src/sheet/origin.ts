import { nearNames } from '../core/problem/index.ts';
import type { Fields, Slip } from './fields.ts';
import type { Origin } from './cell-base.ts';
import type { Cell } from './types.ts';
import * as v from 'valibot';

export const ORIGINS: readonly Origin[] = ['assumed', 'example'];

/** The entry of the front matter that lists the entries of the title block which are the example's. */
export const HEAD_FROM_EXAMPLE = 'from_example';

/** What a reader enters in each kind of cell: whoever changes one of these makes the cell their own. */
const ENTERED: Readonly<Partial<Record<Cell['kind'], readonly string[]>>> = {
  given: ['value', 'readings'], choice: ['chosen'], table: ['rows'], remark: ['text'], record: ['counter_multiplier', 'counter_digits'],
};

const slip: Slip = (typed) => {
  const near = nearNames(typed, ORIGINS);
  return {
    code: 'origin-unknown',
    what: `\`origin\` takes the words assumed and example only, not \`${typed}\`.`,
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
  const isEntered = (ENTERED[cell.kind] ?? []).some((key) => values.has(key) && values.get(key) !== enteredIn(cell, key));
  return isEntered ? new Map([...values, ['origin', undefined]]) : values;
}

function enteredIn(cell: Cell, key: string): string | undefined {
  switch (cell.kind) {
    case 'given': return key === 'readings' ? cell.readings : cell.value;
    case 'choice': return cell.chosen;
    case 'remark': return cell.text;
    case 'record': return cell.texts.get(key);
    default: return undefined;
  }
}

/** The entries of the title block that are the example's, as `from_example` lists them. */
export function headFromExample(entries: ReadonlyMap<string, string>): readonly string[] {
  return (entries.get(HEAD_FROM_EXAMPLE) ?? '').split(',').map((key) => key.trim()).filter((key) => key !== '');
}
