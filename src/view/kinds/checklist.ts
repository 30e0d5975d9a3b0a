import { live } from 'lit-html/directives/live.js';
import { presentChecklist, type PresentedItem } from '../../report/index.ts';
import type { ChecklistCell } from '../../sheet/index.ts';
import { localTime } from '../clock.ts';
import type { Desk } from '../desk.ts';
import { note, partId, problemList, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** Boxes to tick; the time of each is stamped beside it. */
export function checklistParts(cell: ChecklistCell, desk: Desk): { line: Part; margin: Part; state: string } {
  const list = presentChecklist(cell, desk.context());
  const set = (index: number, done: boolean): void => {
    desk.apply({ do: 'tick', cellId: cell.id, item: index, time: done ? localTime(desk.session.now()) : undefined }, cell.id);
    desk.settle();
  };
  const item = ({ text, done, time }: PresentedItem, i: number): Part => html`<li class=${done ? 'done' : 'open'}>
    <label><input type="checkbox" .checked=${live(done)}
      @change=${(event: Event) => event.target instanceof HTMLInputElement && set(i, event.target.checked)}><span class="text">${text}</span></label>
    ${time === undefined ? '' : html`<span class="time">${time}</span>`}</li>`;
  return {
    state: list.openCount === 0 ? 'done' : 'open',
    line: html`<p class="label" id=${partId(cell.id, 'words')}>${list.label}</p>
      <ul class="items" aria-labelledby=${partId(cell.id, 'words')}>${list.items.map(item)}</ul>
      ${problemList(list, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`<p class="count">${list.openCount === 0 ? 'all done' : `${list.openCount} of ${list.items.length} open`}</p>${note(list.note)}`,
  };
}
