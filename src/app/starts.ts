import alternating from '../../worksheets/alternating-bending.md?raw';
import alternatingExample from '../../worksheets/examples/alternating-bending.yaml?raw';
import verificationExample from '../../worksheets/examples/load-verification.yaml?raw';
import leverExample from '../../worksheets/examples/loading-lever.yaml?raw';
import oneStressExample from '../../worksheets/examples/one-stress.yaml?raw';
import rotatingExample from '../../worksheets/examples/rotating-bending.yaml?raw';
import lineExample from '../../worksheets/examples/sn-line.yaml?raw';
import spanErrorsExample from '../../worksheets/examples/span-errors.yaml?raw';
import specimenExample from '../../worksheets/examples/specimen.yaml?raw';
import staircaseExample from '../../worksheets/examples/staircase.yaml?raw';
import lever from '../../worksheets/loading-lever.md?raw';
import writing from '../../worksheets/writing-a-sheet.md?raw';
import verification from '../../worksheets/load-verification.md?raw';
import materials from '../../worksheets/materials.md?raw';
import oneStress from '../../worksheets/one-stress.md?raw';
import rotating from '../../worksheets/rotating-bending.md?raw';
import line from '../../worksheets/sn-line.md?raw';
import spanErrors from '../../worksheets/span-errors.md?raw';
import specimen from '../../worksheets/specimen.md?raw';
import staircase from '../../worksheets/staircase.md?raw';
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
  /** The neutral sheet. */
  readonly text: string;
  /** What makes it the example. */
  readonly example?: string;
}

/** The sheets that ship, in the order of the list. */
export const START_SHEETS = {
  rotating: { label: 'Rotating bending', text: rotating, example: rotatingExample },
  alternating: { label: 'Alternating plane bending', text: alternating, example: alternatingExample },
  line: { label: 'The S-N line of a class', text: line, example: lineExample },
  staircase: { label: 'Fatigue strength by a staircase', text: staircase, example: staircaseExample },
  oneStress: { label: 'Lives at one stress', text: oneStress, example: oneStressExample },
  lever: { label: 'Loading lever with sliding weights', text: lever, example: leverExample },
  verification: { label: 'Verification of load and alignment by a strain-gauged bar', text: verification, example: verificationExample },
  specimen: { label: 'The specimen: notch, stress along the axis', text: specimen, example: specimenExample },
  spanErrors: { label: 'For the lecture: how errors of span, diameter and load move the life', text: spanErrors, example: spanErrorsExample },
  materials: { label: 'Materials with their sources', text: materials },
  writing: { label: 'Writing a sheet: the book, every kind of cell with its text', text: writing },
} satisfies Readonly<Record<string, StartSheet>>;

export type StartName = keyof typeof START_SHEETS;

/** What another sheet may start from: one that ships, blank or with its example, or nothing. */
export type Start = { readonly sheet: StartName; readonly hasExample: boolean } | 'empty';

/** What lies open on a first visit. */
export const FIRST_START: Start = { sheet: 'rotating', hasExample: true };

export function startingText(from: Start): string {
  if (from === 'empty') return EMPTY_SHEET;
  const { text, example }: StartSheet = START_SHEETS[from.sheet];
  if (!from.hasExample || example === undefined) return text;
  const laid = withExample(parseSheet(text), example);
  if (!laid.ok) throw new Error(`the example of ${from.sheet} does not fit its sheet: ${laid.problem.what}`);
  return serialiseSheet(laid.value);
}
