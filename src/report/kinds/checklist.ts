import type { ChecklistCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html } from '../markup.ts';
import { box, label, note, type CellTemplate } from '../parts.ts';
import { presentChecklist } from '../present/cells.ts';
import type { PresentContext } from '../present/types.ts';

export const checklistForm: Form<ChecklistCell> = { template: checklistTemplate };

/** Boxes to tick, with the times they were ticked at. */
export function checklistTemplate(cell: ChecklistCell, context: PresentContext): CellTemplate {
  const { label: words, items, openCount, ...rest } = presentChecklist(cell, context);
  return {
    notes: rest,
    state: openCount === 0 ? 'done' : 'open',
    line: html`${label(words)}
<ul class="items">${items.map((item) => html`<li class="${item.done ? 'done' : 'open'}">${box(item.done)}<span class="visually-hidden">${item.done ? 'done: ' : 'open: '}</span><span class="text">${item.text}</span>${item.time !== undefined && html` <span class="time">${item.time}</span>`}</li>`)}</ul>`,
    margin: [
      html`<p class="count">${openCount === 0 ? 'all done' : `${openCount} of ${items.length} open`}</p>`,
      note(rest.note),
    ],
  };
}
