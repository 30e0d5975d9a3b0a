import { FRONT_MATTER, HELD_STATES, INNER_PARTS, KINDS, type KnownKind } from './parts.ts';
import type { InnerPart, KeyEntry } from './types.ts';

/** What is said of a key beside what it means, in sentences. Code stands between backticks. */
interface EntryWords {
  readonly takes: string;
  readonly absent: string;
  readonly wrong?: string;
}

export function entryWords({ takes, example, required, usual, wrong }: KeyEntry): EntryWords {
  const absent = required === true
    ? 'Has to be there.'
    : [...(required === undefined ? [] : [`Has to be there ${required}.`]), ...(usual === undefined ? [] : [`Where absent: ${usual}.`])].join(' ');
  return {
    takes: example === undefined ? `${takes}.` : `${takes}; such as \`${example}\`.`,
    absent: absent === '' ? 'May be left out.' : absent,
    ...(wrong === undefined ? {} : { wrong: `${wrong.typed === '' ? 'An empty one' : `\`${wrong.typed}\``}: ${wrong.said}` }),
  };
}

/** One section of the reference: a kind of cell, or the front matter, with its tables. */
export interface Section {
  readonly name: KnownKind | 'front matter';
  readonly says: string;
  readonly tables: readonly InnerPart[];
}

export const SECTIONS: readonly Section[] = [
  { name: 'front matter', says: FRONT_MATTER.says, tables: [{ title: 'Its keys', ...FRONT_MATTER }, HELD_STATES] },
  ...(Object.keys(KINDS) as KnownKind[]).map((kind): Section => ({
    name: kind, says: KINDS[kind].says, tables: [{ ...KINDS[kind], title: 'Its keys' }, ...(INNER_PARTS[kind] ?? [])],
  })),
];
