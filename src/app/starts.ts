import { parseSheet, serialiseSheet, withExample } from '../sheet/index.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { freshSheetId } from './shelf-store.ts';

const EMPTY_SHEET = '---\ntitle: New sheet\nunits: SI\n---\nWrite here what is to be found, and add cells below.\n';

export type Opening = Pick<KeptSheet, 'id' | 'revision' | 'text' | 'isCopy' | 'origin' | 'draft'>;

/** A sheet that lies nowhere else yet. */
export function newOpening(text: string, isCopy = false): Opening {
  return { id: freshSheetId(), revision: 0, text, isCopy };
}

interface StartSheet {
  readonly label: string;
  /** Whether it has an example. */
  readonly hasExample: boolean;
}

/** The sheets that ship, in the order of the list. */
export const START_SHEETS = {
  rotating: { label: 'Rotating bending', hasExample: true },
  alternating: { label: 'Alternating plane bending', hasExample: true },
  line: { label: 'The S-N line of a class', hasExample: true },
  staircase: { label: 'Fatigue strength by a staircase', hasExample: true },
  oneStress: { label: 'Lives at one stress', hasExample: true },
  lever: { label: 'Loading lever with sliding weights', hasExample: true },
  verification: { label: 'Verification of load and alignment by a strain-gauged bar', hasExample: true },
  specimen: { label: 'The specimen: notch, stress along the axis', hasExample: true },
  spanErrors: { label: 'For the lecture: how errors of span, diameter and load move the life', hasExample: true },
  materials: { label: 'Materials with their sources', hasExample: false },
  writing: { label: 'Writing a sheet: the book, every kind of cell with its text', hasExample: false },
} satisfies Readonly<Record<string, StartSheet>>;

export type StartName = keyof typeof START_SHEETS;

/** What another sheet may start from: one that ships, blank or with its example, or nothing. */
export type Start = { readonly sheet: StartName; readonly hasExample: boolean } | 'empty';

/** What lies open on a first visit: the example of a sheet, or an empty sheet where this file's copy of it is damaged. */
export function firstText(): Promise<string> {
  return startingText({ sheet: 'rotating', hasExample: true }).catch(() => EMPTY_SHEET);
}

/** Rejected where the part of the page with the texts is damaged. */
export async function startingText(from: Start): Promise<string> {
  if (from === 'empty') return EMPTY_SHEET;
  const { START_TEXTS } = await import('./start-texts.ts');
  const { text, example } = START_TEXTS[from.sheet];
  if (!from.hasExample || example === undefined) return text;
  const laid = withExample(parseSheet(text), example);
  if (!laid.ok) throw new Error(`the example of ${from.sheet} does not fit its sheet: ${laid.problem.what}`);
  return serialiseSheet(laid.value);
}
