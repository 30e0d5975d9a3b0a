import type { UnknownCell } from '../../sheet/types.ts';
import type { Form, Place } from '../form.ts';
import { html } from '../markup.ts';
import type { CellTemplate } from '../parts.ts';
import { notesOf } from '../present/notes.ts';
import type { PresentContext } from '../present/types.ts';

export const unknownForm: Form<UnknownCell> = { template: unknownTemplate };

/** What this version does not understand: kept, and shown as it is written. */
export function unknownTemplate(cell: UnknownCell, context: PresentContext, { block: { cellKind, source } }: Pick<Place, 'block'>): CellTemplate {
  return {
    notes: notesOf(cell, context),
    line: html`<p class="label">${cellKind === '' ? 'A block' : `“${cellKind}”`} is not understood here and kept as it is.</p>
<pre tabindex="0" aria-label="Its text">${source}</pre>`,
    margin: [],
  };
}
