import type { ChecklistCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, type Hand, type Markup } from '../markup.ts';
import { box, cellAnchor, note, notesBeside, partId, type CellTemplate } from '../parts.ts';
import { presentChecklist } from '../present/cells.ts';
import type { PresentedChecklist, PresentedItem } from '../present/types.ts';
import { entry, OPEN_ITEMS } from '../report-part.ts';

export const checklistForm: Form<ChecklistCell> = {
  template: (cell, context) => checklistTemplate(cell, presentChecklist(cell, context)),
  report: (cell, context) => {
    const list = presentChecklist(cell, context);
    const open = list.items.filter(({ done }) => !done);
    return {
      here: entry(cellAnchor(cell.id), 'checklist', html`<span class="label">${list.label}</span> ${tickedWords(list)}`, { notes: list }),
      notes: { name: list.label, texts: [list.note] },
      ...(open.length === 0 ? {} : { open: { under: OPEN_ITEMS, name: html`<b>${list.label}:</b> ${open.length === list.items.length ? `all ${open.length}` : open.map(({ text }) => text).join('; ')}` } }),
    };
  },
};

/** `8 of 8 ticked, 2026-11-20 09:12 to 2026-11-20 09:20.` */
function tickedWords({ items, openCount }: PresentedChecklist): string {
  const times = items.flatMap(({ time }) => time ?? []).toSorted();
  const [first, last] = [times[0], times.at(-1)];
  const when = first === undefined || last === undefined ? '' : first === last ? `, ${first}` : `, ${first} to ${last}`;
  return `${items.length - openCount} of ${items.length} ticked${when}.`;
}

/** Boxes to tick, with the times they were ticked at. @param tick an item with a box that can be ticked */
export function checklistTemplate({ id }: ChecklistCell, { label, items, openCount, ...notes }: PresentedChecklist, tick?: (item: PresentedItem, place: number) => Hand): CellTemplate {
  const wordsId = partId(id, 'words');
  const row = (item: PresentedItem, place: number): Markup => html`<li class="${item.done ? 'done' : 'open'}">${tick?.(item, place) ?? ticked(item)}${item.time !== undefined && html` <span class="time">${item.time}</span>`}</li>`;
  return {
    notes,
    state: openCount === 0 ? 'done' : 'open',
    line: html`${label !== '' && html`<p class="label" id="${wordsId}">${label}</p>`}
<ul class="items" aria-labelledby="${label !== '' && wordsId}">${items.map(row)}</ul>`,
    margin: [
      html`<p class="count">${openCount === 0 ? 'all done' : `${openCount} of ${items.length} open`}</p>`,
      notesBeside(note(notes.note)),
    ],
  };
}

function ticked({ done, text }: PresentedItem): Markup {
  return html`${box(done)}<span class="visually-hidden">${done ? 'done: ' : 'open: '}</span><span class="text">${text}</span>`;
}
