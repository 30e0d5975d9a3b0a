import { symbolInWords } from '../core/formula/index.ts';

/** More names than these say no more to a reader who fills in blanks. */
const MOST = 6;

/** What is waited for, as one line: `d, L`. */
export function someNames(names: readonly string[]): string {
  const shown = names.length <= MOST ? names : names.slice(0, MOST - 1);
  return `${shown.map(symbolInWords).join(', ')}${shown.length < names.length ? ` and ${names.length - shown.length} more` : ''}`;
}
