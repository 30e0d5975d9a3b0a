import type { UnknownCell } from '../../sheet/types.ts';
import type { Form, Place } from '../form.ts';
import { html } from '../markup.ts';
import type { CellTemplate } from '../parts.ts';
import { notesOf } from '../present/notes.ts';
import type { PresentContext } from '../present/types.ts';

export const unknownForm: Form<UnknownCell> = { template: unknownTemplate };

/** What this version does not understand: kept, and shown as it is written. */
export function unknownTemplate(cell: UnknownCell, context: PresentContext, { block }: Pick<Place, 'block'>): CellTemplate {
  return { notes: notesOf(cell, context), line: html`<pre>${block.source}</pre>`, margin: [] };
}
