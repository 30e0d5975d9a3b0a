import { seedOfText } from '../../core/numeric/index.ts';
import { cellsOf } from '../cells-of.ts';
import type { SheetDocument } from '../types.ts';

/** The entry of the front matter that says which numbers a team has. */
export const VARIANT = 'variant';

/** As it stands in a file: the seed of the numbers, and a sum over the numbers themselves. */
const WRITTEN = /^[0-9A-F]{4}-[0-9A-F]{4}-([0-9A-F]{4})$/u;

type Entries = readonly { readonly symbol: string; readonly text: string }[];

/** `4F1C-22A0-9B1C`: seed and numbers of one team; without numbers the seed alone. */
export function variantText(seed: number, entries: Entries): string {
  const digits = (seed >>> 0).toString(16).toUpperCase().padStart(8, '0');
  return [digits.slice(0, 4), digits.slice(4), ...(entries.length === 0 ? [] : [sumOf(entries)])].join('-');
}

/** Sixteen bits over the numbers: it tells a slip of the hand, and hinders nobody who reckons it anew. */
function sumOf(entries: Entries): string {
  const lines = entries.map(({ symbol, text }) => `${symbol}=${text.trim()}`).toSorted().join('\n');
  return (seedOfText(lines) & 0xffff).toString(16).toUpperCase().padStart(4, '0');
}

/** Whether a sheet is the file of one team, as it was handed out: how it asks and judges is not for its reader to change at a press. */
export function isTeamFile({ frontMatter }: SheetDocument): boolean {
  return WRITTEN.test(frontMatter.entries.get(VARIANT)?.trim() ?? '');
}

/** Whether the numbers in a team's file are no longer those that were set: one was changed, or the entry that names them. */
export function areNumbersChanged(document: SheetDocument): boolean {
  const sum = WRITTEN.exec(document.frontMatter.entries.get(VARIANT)?.trim() ?? '')?.[1];
  if (sum === undefined) return false;
  return sum !== sumOf(cellsOf(document, 'given').flatMap(({ origin, symbol, value }) => (origin === 'set' ? [{ symbol, text: value ?? '' }] : [])));
}
