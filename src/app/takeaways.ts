import { nameParts, presentSlipsOn, presentTrials, SLIPS_IN_NAME, TRIALS_IN_NAME, type PresentContext } from '../report/index.ts';
import { cellsOf, serialiseSheet, type SheetDocument } from '../sheet/index.ts';
import { fileName, saveFile } from '../view/index.ts';

/** The forms in which a sheet leaves the page. */
export type Takeaway =
  | { readonly what: 'report' | 'working file' | 'equations' }
  | { readonly what: 'document' }
  | { readonly what: 'svg' | 'png'; readonly cellId: string };

export const WHOLE_SHEET: readonly { readonly what: (Takeaway & { cellId?: never })['what']; readonly label: string; readonly help: string }[] = [
  { what: 'report', label: 'Report', help: 'One page to read, print or hand in; holds no script and can be brought in again' },
  { what: 'working file', label: 'Working file', help: 'The same page, and alive when it is opened in a browser' },
  { what: 'document', label: 'Document', help: 'The sheet’s text, for keeping and comparing' },
  { what: 'equations', label: 'Equations', help: 'Every step for LaTeX' },
];

/** A drawing or chart of the sheet that can be taken away. */
export interface SheetDrawing {
  readonly cellId: string;
  readonly label: string;
}

export function drawingsOf(document: SheetDocument): readonly SheetDrawing[] {
  return cellsOf(document, 'figure').map(({ id, label, drawing }) => ({ cellId: id, label: label ?? drawing }));
}

/** What a file of a sheet is called, in parts. */
export function stemOf(context: PresentContext): readonly (string | undefined)[] {
  const { document } = context;
  return [...nameParts(document), presentTrials(context).length > 0 ? TRIALS_IN_NAME : undefined, presentSlipsOn({ document }).length > 0 ? SLIPS_IN_NAME : undefined];
}

/** Hands the sheet's text to the reader: it needs no other part of the page, so that it can be had whatever is damaged. */
export function takeDocument(context: PresentContext): void {
  saveFile(fileName(stemOf(context), 'md'), serialiseSheet(context.document), 'text/markdown;charset=utf-8');
}
