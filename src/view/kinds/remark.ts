import { live } from 'lit-html/directives/live.js';
import { presentRemark, remarkTemplate } from '../../report/index.ts';
import type { RemarkCell } from '../../sheet/index.ts';
import { setKey } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { hand, partId, templateParts, type LineParts } from '../parts.ts';
import { html } from '../template.ts';

/** The writer's own text: as it will read, and the text itself while it is written in or is empty. */
export function remarkParts(cell: RemarkCell, desk: Desk): LineParts {
  const remark = presentRemark(cell, desk.context());
  const name = remark.heading === '' ? 'Remark' : remark.heading;
  const id = partId(cell.id, 'text');
  const write = (event: Event): void => {
    if (!(event.target instanceof HTMLTextAreaElement)) return;
    desk.ui(cell.id).writing = event.target.value;
    desk.apply(setKey(cell.id, 'text', event.target.value), cell.id);
  };
  const enter = (): void => {
    if (desk.ui(cell.id).writing === undefined) desk.changeUi(cell.id, (ui) => void (ui.writing = written));
  };
  const leave = (): void => {
    desk.settle();
    desk.changeUi(cell.id, (ui) => void (ui.writing = undefined));
  };
  const { writing } = desk.ui(cell.id);
  const written = writing ?? remark.text.replace(/\n$/, '');
  const writingPlace = html`<div class="writing" ?data-empty=${remark.text.trim() === ''} ?data-open=${writing !== undefined}>
    <label class="visually-hidden" for=${id}>${name}: your text</label>
    <textarea id=${id} rows=${Math.max(2, (written === '' ? (cell.hint ?? '') : written).split('\n').length)} placeholder=${cell.hint ?? 'Write here.'} .value=${live(written)}
      @focus=${enter} @input=${write} @blur=${leave}></textarea>
  </div>`;
  // One box: while the cell's own text is edited, its place to write is away.
  const isEdited = desk.ui(cell.id).editing !== undefined;
  return templateParts(cell.id, remarkTemplate(cell, remark, desk.context(), isEdited ? undefined : hand(writingPlace)), desk.ui(cell.id).refused);
}
