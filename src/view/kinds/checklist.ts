import { live } from 'lit-html/directives/live.js';
import { checklistTemplate, presentChecklist, type Hand, type PresentedItem } from '../../report/index.ts';
import type { ChecklistCell } from '../../sheet/index.ts';
import { localTime } from '../clock.ts';
import type { Desk } from '../desk.ts';
import { hand, templateParts, type LineParts } from '../parts.ts';
import { html } from '../template.ts';

/** Boxes to tick; the time of each is stamped beside it. */
export function checklistParts(cell: ChecklistCell, desk: Desk): LineParts {
  const set = (index: number, done: boolean): void => {
    desk.apply({ do: 'tick', cellId: cell.id, item: index, time: done ? localTime(desk.session.now()) : undefined }, cell.id);
    desk.settle();
  };
  const tick = ({ text, done }: PresentedItem, i: number): Hand => hand(html`<label><input type="checkbox" .checked=${live(done)}
    @change=${(event: Event) => event.target instanceof HTMLInputElement && set(i, event.target.checked)}><span class="text">${text}</span></label>`);
  return templateParts(cell.id, checklistTemplate(cell, presentChecklist(cell, desk.context()), tick), desk.ui(cell.id).refused);
}
