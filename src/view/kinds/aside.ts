import { nothing } from 'lit-html';
import { asideOf, asideTemplate, presentAside } from '../../report/index.ts';
import { cellIn, type AsideCell, type EndCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { hand, note, problemList, templateParts, type LineParts } from '../parts.ts';
import { html } from '../template.ts';

/** A part on demand: its heading opens and closes it. */
export function asideParts(cell: AsideCell, desk: Desk): LineParts {
  const { folds } = desk;
  const aside = presentAside(cell, desk.context());
  const isOpen = folds.isOpen(cell.id);
  const opener = html`<button type="button" class="aside-opener" aria-expanded=${String(isOpen)} @click=${() => folds.set(cell.id, !isOpen)}>
    <svg viewBox="0 0 12 12" aria-hidden="true"><path d="M3.5 1.5 8.5 6l-5 4.5"></path></svg>${aside.label === '' ? 'A part on demand' : aside.label}</button>`;
  const template = asideTemplate(aside, {
    isOpen,
    opener: hand(opener),
    place: ({ cellId, label }) => hand(html`<button type="button" class="quiet place" @click=${() => desk.go(cellId, '')}>${label}</button>`),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

/** Where an open part ends it can be closed again, by who has read down to here. */
export function endParts(cell: EndCell, desk: Desk): LineParts {
  const context = desk.context();
  const notes = { problems: [...cell.problems, ...(context.states.cell(cell.id)?.problems ?? [])], warnings: [] };
  const begun = asideOf(cell.id, context);
  const words = cellIn(begun === undefined ? undefined : desk.block(begun), 'aside')?.label ?? 'this part';
  const close = (): void => {
    if (begun === undefined) return;
    desk.folds.set(begun, false);
    desk.go(begun, '');
  };
  return {
    line: html`${begun === undefined ? nothing : html`<p class="aside-end"><button type="button" class="quiet" @click=${close}>close “${words}”</button></p>`}${problemList(notes)}`,
    margin: note(cell.note),
  };
}
