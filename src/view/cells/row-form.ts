import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import type { PresentedColumn, PresentedField, PresentedRow } from '../../report/index.ts';
import { partId, type Part } from '../parts.ts';
import { html } from '../template.ts';
import type { TableLook } from './table-look.ts';
import type { TableUi } from './table-ui.ts';

/** What a row's form is made of. */
interface RowFormSetting {
  readonly cellId: string;
  readonly look: TableLook;
  readonly ui: TableUi;
}

/** A row with one field below the other, each under its name, so that any number can be read in full; words are pressed. What it writes is what the row's line writes. */
export function rowForm(row: PresentedRow, place: number, { cellId, look, ui }: RowFormSetting): Part {
  const { table: { columns, rowCount }, all, isPicked } = look;
  const name = row.number > all ? 'New row' : `Row ${row.number} of ${all}`;
  const last = isPicked ? rowCount - 1 : rowCount;
  const isNewNext = !isPicked && row.number === all;
  return html`<tr class="row-form"><td colspan=${columns.length + 1}><div role="group" aria-label=${name}>
    <p class="name"><strong>${name}</strong>
      <button type="button" class="quiet" data-by="-1" ?disabled=${place === 0} aria-label="row before">before</button>
      <button type="button" class="quiet" data-by="1" ?disabled=${place >= last} aria-label=${isNewNext ? 'new row' : 'next row'}>${isNewNext ? 'new row' : 'next'}</button>
      <button type="button" class="quiet" data-row=${place}>close</button></p>
    ${columns.map((column, i) => formField(column, row.fields[i], { row: place, column: i }, { id: partId(cellId, `form-${i}`), toldId: partId(cellId, `row-${row.number}`), ui }))}
  </div></td></tr>`;
}

interface FieldSetting {
  readonly id: string;
  /** Where it is told what is wrong in the row. */
  readonly toldId: string;
  readonly ui: TableUi;
}

function formField(column: PresentedColumn, field: PresentedField | undefined, at: { readonly row: number; readonly column: number }, { id, toldId, ui }: FieldSetting): Part {
  const { label, head } = column;
  const unit = head.includes(' / ') ? head.slice(head.indexOf(' / ') + 3).replace(/^\((.*)\)$/u, '$1') : '';
  const named = html`${label}${unit === '' ? nothing : html` <span class="unit">in ${unit}</span>`}`;
  if (column.isDerived) return html`<p><span>${named}</span> <output>${field?.printed}</output></p>`;
  if (column.options.length > 0) return html`<div class="of-words"><span id=${id}>${named}</span> ${wordPresses(column, field, at, id)}</div>`;
  const { draft } = ui;
  const text = draft?.row === at.row && draft.column === at.column ? draft.text : (field?.text ?? '');
  return html`<p><label for=${id}>${named}</label> <input class="blank" id=${id} data-row=${at.row} data-column=${at.column}
    inputmode=${column.isFigures ? 'decimal' : nothing} enterkeyhint="next" autocomplete="off" autocapitalize="off" spellcheck="false"
    placeholder=${column.standsFor === '' ? nothing : column.standsFor} aria-invalid=${field?.isWrong === true ? 'true' : nothing}
    aria-describedby=${(field?.marks.length ?? 0) > 0 ? toldId : nothing} .value=${live(text)}></p>`;
}

function wordPresses({ options, standsFor }: PresentedColumn, field: PresentedField | undefined, at: { readonly row: number; readonly column: number }, labelledBy: string): Part {
  const [typed, read] = [field?.text.trim() ?? '', (field?.printed ?? '').replace(/ →$/u, '').toLowerCase()];
  const there = typed === '' ? undefined : options.find((word) => word.toLowerCase() === read);
  return html`<span class="words" role="group" aria-labelledby=${labelledBy}>${options.map((word) => html`<button type="button" class="word-press" data-row=${at.row} data-column=${at.column} data-word=${word}
    aria-pressed=${word === there ? 'true' : 'false'}>${word}</button>`)}</span>
    ${typed !== '' && there === undefined ? html`<span class="help">${composed`written: “${typed}”`}</span>` : nothing}
    ${typed === '' && standsFor !== '' ? html`<span class="help">${`while none is pressed, ${standsFor}`}</span>` : nothing}`;
}
