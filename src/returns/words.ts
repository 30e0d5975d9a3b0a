import type { ReturnedSheet, ReturnedVerdict } from './types.ts';

/** What a verdict is called in tables and files. */
export const VERDICT_WORDS: Readonly<Record<ReturnedVerdict, string>> = {
  agrees: 'right',
  carried: 'carried forward',
  'too few digits': 'too few digits',
  differs: 'wrong',
  unreadable: 'unreadable',
  'no result': 'no result to compare with',
  'for the marker': 'for you to mark',
  open: 'open',
};

/** Whose sheet it is: the team, else the specimen, else the file. */
export function nameOf({ head: { team, specimen }, files }: Pick<ReturnedSheet, 'head' | 'files'>): string {
  return [team, specimen, files[0] ?? ''].find((one) => one !== '') ?? '';
}
