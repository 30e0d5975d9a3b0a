import { whenAsked } from '../core/remembered/index.ts';
import { askedIn, pointsOf, type Marking } from './marks.ts';
import type { ReturnedSheet, ReturnedVerdict } from './types.ts';
import { nameOf } from './words.ts';

/** What a table of returned sheets is put in order by. */
export type SortBy = 'team' | 'points' | 'life' | `answer ${string}` | `value ${string}` | `check ${string}`;

/** Which sheets are shown. */
export type Only = 'all' | 'something wrong' | 'something open' | 'carried forward' | 'a check that does not hold' | 'altered';

/** How the table is looked at. */
export interface Look {
  /** A part of a team, a name, a specimen, a file or something typed. */
  readonly find: string;
  readonly only: Only;
  readonly by: SortBy;
  readonly isDown: boolean;
}

const names = whenAsked(() => new Intl.Collator('en', { numeric: true }));

/** The worst first: these are looked at first. */
const ORDER: readonly ReturnedVerdict[] = ['differs', 'unreadable', 'too few digits', 'for the marker', 'open', 'no result', 'carried', 'agrees'];

const KEEPS: Readonly<Record<Only, (sheet: ReturnedSheet) => boolean>> = {
  all: () => true,
  'something wrong': isWrong,
  'something open': ({ answers }) => answers.some(({ verdict }) => verdict === 'open'),
  'carried forward': ({ answers }) => answers.some(({ verdict }) => verdict === 'carried'),
  'a check that does not hold': ({ checks }) => checks.some(({ holds }) => holds === false),
  altered: ({ isAltered }) => isAltered,
};

/** Whether an own result is wrong, or can't be read. */
export function isWrong({ answers }: ReturnedSheet): boolean {
  return answers.some(({ verdict }) => verdict === 'differs' || verdict === 'unreadable');
}

/** The sheets that are looked at, in order; those that are alike in it stay as they came. */
export function sheetsShown(sheets: readonly ReturnedSheet[], { find, only, by, isDown }: Look, marking: Marking): readonly ReturnedSheet[] {
  const words = find.trim().toLowerCase();
  const kept = sheets.filter((sheet) => KEEPS[only](sheet) && (words === '' || saidIn(sheet).includes(words)));
  const asked = askedIn(sheets);
  const keys = new Map(kept.map((sheet) => [sheet, by === 'points' ? pointsOf(sheet, marking, asked).total : keyOf(sheet, by)]));
  return kept.toSorted((a, b) => compare(keys.get(a), keys.get(b), isDown ? -1 : 1));
}

/** Titles of the sheets that came, those of most sheets first. */
export function titlesIn(sheets: readonly ReturnedSheet[]): readonly string[] {
  const counts = new Map<string, number>();
  for (const { head } of sheets) counts.set(head.title, (counts.get(head.title) ?? 0) + 1);
  return [...counts].toSorted(([, a], [, b]) => b - a).map(([title]) => title);
}

function saidIn({ head, files, answers, values }: ReturnedSheet): string {
  return [...Object.values(head), ...files, ...answers.map(({ typed }) => typed), ...values.map(({ typed }) => typed)].join('\n').toLowerCase();
}

function keyOf(sheet: ReturnedSheet, by: Exclude<SortBy, 'points'>): string | number | undefined {
  if (by === 'team') return nameOf(sheet);
  if (by === 'life') return Number(sheet.tests.flatMap(({ row }) => row?.get('N')?.text ?? [])[0] ?? Number.NaN);
  const [what, name] = [by.slice(0, by.indexOf(' ')), by.slice(by.indexOf(' ') + 1)];
  if (what === 'value') return sheet.values.find(({ symbol }) => symbol === name)?.value;
  if (what === 'check') return ['false', 'undefined', 'true'].indexOf(String(sheet.checks.find(({ id }) => id === name)?.holds));
  return ORDER.indexOf(sheet.answers.find(({ symbol }) => symbol === name)?.verdict ?? 'open');
}

/** What has none comes last, whichever way it goes. */
function compare(a: string | number | undefined, b: string | number | undefined, sign: 1 | -1): number {
  if (typeof a === 'string' && typeof b === 'string') return sign * names().compare(a, b);
  const [one, other] = [Number(a ?? Number.NaN), Number(b ?? Number.NaN)];
  if (Number.isNaN(one) || Number.isNaN(other)) return Number(Number.isNaN(one)) - Number(Number.isNaN(other));
  return sign * (one - other);
}
