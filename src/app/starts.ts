import alternating from '../../worksheets/alternating-bending.md?raw';
import lever from '../../worksheets/loading-lever.md?raw';
import verification from '../../worksheets/load-verification.md?raw';
import materials from '../../worksheets/materials.md?raw';
import oneStress from '../../worksheets/one-stress.md?raw';
import rotating from '../../worksheets/rotating-bending.md?raw';
import line from '../../worksheets/sn-line.md?raw';
import spanErrors from '../../worksheets/span-errors.md?raw';
import specimen from '../../worksheets/specimen.md?raw';
import staircase from '../../worksheets/staircase.md?raw';
import { parseSheet, serialiseSheet } from '../sheet/index.ts';
import { emptied } from './empty-sheet.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { freshSheetId } from './shelf-store.ts';

const EMPTY_SHEET = '---\ntitle: New sheet\nunits: SI\n---\nWrite here what is to be found, and add cells below.\n';

export type Opening = Pick<KeptSheet, 'id' | 'revision' | 'text' | 'isCopy' | 'origin' | 'draft'>;

/** A sheet that lies nowhere else yet. */
export function newOpening(text: string, isCopy = false): Opening {
  return { id: freshSheetId(), revision: 0, text, isCopy };
}

const SHEETS = {
  example: rotating, alternating, line, staircase, 'one stress': oneStress, lever, verification, specimen, 'span errors': spanErrors, materials,
};

/** What another sheet may start from. */
export type Start = keyof typeof SHEETS | 'blank' | 'blank alternating' | 'empty';

export function startingText(from: Start): string {
  switch (from) {
    case 'empty': return EMPTY_SHEET;
    case 'blank': return blank(rotating);
    case 'blank alternating': return blank(alternating);
    default: return SHEETS[from];
  }
}

function blank(text: string): string {
  return serialiseSheet(emptied(parseSheet(text)));
}
