import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import { columnHead, leftOutWords, tableTemplate, type PresentedColumn, type PresentedRow, type PresentedTable } from '../../report/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import { budgetLines } from '../cells/budget.ts';
import { movedHand } from '../cells/shift.ts';
import { rowForm } from '../cells/row-form.ts';
import { tableHand, type TableHand } from '../cells/table-edit.ts';
import { lookAt, lookLine, pickedLine, type TableLook } from '../cells/table-look.ts';
import { lastWindow, ROWS_AT_ONCE, type TableUi } from '../cells/table-ui.ts';
import type { Desk } from '../desk.ts';
import { panels } from '../panels-at-hand.ts';
import { hand, partId, problemLine, templateParts, type LineParts, type Part } from '../parts.ts';
import { entered } from '../entered.ts';
import { html, shown } from '../template.ts';

/** Rows to type in, ruled as in a printed report. Only a window of a long table is in the page. */
export function tableParts(cell: TableCell, desk: Desk): LineParts {
  const look = lookAt(cell, desk);
  const { table } = look;
  const ui = desk.ui(cell.id).table;
  const keys = tableHand(cell, desk);
  const first = Math.min(ui.first, lastWindow(table.rowCount));
  const template = tableTemplate(cell, desk.context(), {
    fields: ui.isPrinting ? undefined : hand(table.columns.length === 0 ? html`<p class="label">${table.label}</p>` : fieldRows({ cell, look, ui, first }, keys)),
    below: ui.isPrinting || table.columns.length === 0 ? undefined : hand(html`${budgetLines(cell.id, table.gives.map(({ symbol }) => symbol), desk)}
      ${pager(look, first, keys, partId(cell.id, 'from'))}
      ${pickedLine(look, ui, keys)}
      ${actions(look, ui, keys)}
      ${ui.rowsIn === undefined ? nothing : panels.use().rowsInPart(partId(cell.id, 'rows-in'), ui.rowsIn, cell, keys.rowsIn)}
      ${lookLine(cell, table, ui, desk, keys)}`),
    moved: (symbol) => movedHand(symbol, desk),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function fieldRows(setting: Omit<RowSetting, 'sizes'>, keys: TableHand): TemplateResult {
  const { look: { table, isPicked }, first } = setting;
  const rows = table.rows(first, first + ROWS_AT_ONCE);
  const all = rows.length < ROWS_AT_ONCE && !isPicked ? [...rows, blankRow(table)] : rows;
  const sizes = sizesOf(table.columns, all);
  return html`<div class="ruled"><table @click=${keys.click} @focusin=${keys.focus} @focusout=${keys.leave} @input=${keys.type} @keydown=${keys.press} @paste=${keys.paste}
        aria-rowcount=${table.rowCount + 1}>
        <caption>${table.label}</caption>
        <thead><tr aria-rowindex="1"><th scope="col" class="number"><span class="visually-hidden">Row</span></th>${table.columns.map((column) => shown(columnHead(column)))}</tr></thead>
        <tbody>${all.map((one, i) => tableRow(one, first + i, { ...setting, sizes }))}</tbody></table></div>`;
}

/** The row after the last, to go on in. */
function blankRow({ columns, rowCount }: PresentedTable): PresentedRow {
  return { number: rowCount + 1, fields: columns.map(() => ({ text: '', printed: '', marks: [], isWrong: false })), marks: [], isLeftOut: false, isNotCounted: false };
}

const NARROWEST = 3;
const WIDEST = 24;

/** How many figures a column is wide: as many as the longest of its fields in the page. */
function sizesOf(columns: readonly PresentedColumn[], rows: readonly PresentedRow[]): readonly number[] {
  return columns.map(({ standsFor }, i) =>
    rows.reduce((widest, { fields }) => Math.min(WIDEST, Math.max(widest, figuresWide(fields[i]?.text ?? ''))), Math.max(NARROWEST, figuresWide(standsFor))));
}

/** A capital letter, an m and a w are wider than a figure; other small letters are not, one with another. */
const figuresWide = (text: string): number => text.length + (text.match(/[\p{Lu}mw]/gu)?.length ?? 0) * 0.5;

interface RowSetting {
  readonly cell: TableCell;
  readonly look: TableLook;
  readonly ui: TableUi;
  readonly first: number;
  readonly sizes: readonly number[];
}

function tableRow(row: PresentedRow, place: number, setting: RowSetting): Part {
  const { cell, look: { table, all }, ui } = setting;
  const told = [...row.marks, ...row.fields.flatMap(({ marks }) => marks)];
  const toldId = partId(cell.id, `row-${row.number}`);
  const isForm = ui.form === place;
  return html`<tr class=${row.isLeftOut ? 'left-out' : row.isNotCounted ? 'not-counted' : nothing} aria-rowindex=${row.number + 1}>
    <th scope="row" class="number"><button type="button" class="plain" tabindex="-1" data-row=${place} aria-expanded=${isForm ? 'true' : 'false'}
      aria-label=${row.number > all ? 'new row as a form' : `row ${row.number} as a form`}>${row.number > all ? '+' : row.number}</button></th>${table.columns.map((column, i) =>
    tableField(column, { i, place }, row, told.length > 0 ? toldId : undefined, setting))}</tr>
    ${isForm ? rowForm(row, place, { cellId: cell.id, look: setting.look, ui }) : nothing}
    ${told.length === 0 ? nothing : html`<tr class="told"><td colspan=${table.columns.length + 1} id=${toldId}>
      ${row.isLeftOut ? html`<p class="out">${leftOutWords(row)}</p>` : nothing}${told.map((problem) => problemLine(problem, row.isLeftOut ? 'problem' : 'problem warning'))}</td></tr>`}`;
}

function tableField(
  column: PresentedColumn, { i, place }: { readonly i: number; readonly place: number }, row: PresentedRow, toldId: string | undefined, { look, ui, first, sizes }: RowSetting,
): Part {
  const field = row.fields[i];
  const classes = [column.isFigures ? 'figures' : '', field?.isWrong === true ? 'marked' : ''].join(' ').trim();
  if (column.isDerived) return html`<td class=${`${classes} derived`.trim()}>${field?.printed}</td>`;
  const { table } = look;
  const isBlank = row.number > look.all;
  const { draft, at } = ui;
  const text = draft?.row === place && draft.column === i ? draft.text : (field?.text ?? '');
  const isHere = at.row === place && at.column === i;
  // One field alone can be reached by Tab; from there the arrow keys go on, and Tab leaves the table.
  const isAway = at.row < first || at.row > Math.min(first + ROWS_AT_ONCE - 1, table.rowCount);
  const isReached = isHere || (isAway && place === first && i === table.columns.findIndex(({ isDerived }) => !isDerived));
  return html`<td class=${classes === '' ? nothing : classes}><input class="field" data-row=${place} data-column=${i} style=${`--signs: ${sizes[i] ?? NARROWEST}`}
    tabindex=${isReached ? 0 : -1} inputmode=${column.isFigures ? 'decimal' : nothing} enterkeyhint="next"
    autocomplete="off" autocapitalize="off" spellcheck="false" placeholder=${isBlank || column.standsFor === '' ? nothing : column.standsFor}
    aria-label=${composed`${column.label}, ${isBlank ? 'new row' : `row ${row.number}`}`} aria-invalid=${field?.isWrong === true ? 'true' : nothing}
    aria-describedby=${toldId !== undefined && (field?.marks.length ?? 0) > 0 ? toldId : nothing} .value=${live(text)}>${
    field?.printed.endsWith('→') === true ? html`<span class="runs-on" aria-hidden="true">→</span>` : nothing}</td>`;
}

/** Which rows are in the page, and the way to the others. */
function pager({ table: { rowCount } }: TableLook, first: number, hand: TableHand, id: string): Part {
  if (rowCount < ROWS_AT_ONCE) return nothing;
  const last = Math.min(first + ROWS_AT_ONCE, rowCount);
  const jump = ({ target }: Event): void => {
    const row = target instanceof HTMLInputElement ? Number(target.value) : Number.NaN;
    if (Number.isInteger(row)) hand.show(Math.min(Math.max(0, row - 1), lastWindow(rowCount)));
  };
  return html`<p class="pager"><span>Rows</span> <label class="visually-hidden" for=${id}>First row shown</label>
    <input class="blank" id=${id} inputmode="numeric" size="7" autocomplete="off" .value=${entered(String(first + 1))} @change=${jump}>
    <span>to ${last} of ${rowCount}</span>
    <button type="button" class="quiet" ?disabled=${first === 0} @click=${() => hand.show(Math.max(0, first - ROWS_AT_ONCE))}>earlier rows</button>
    <button type="button" class="quiet" ?disabled=${last >= rowCount} @click=${() => hand.show(Math.min(first + ROWS_AT_ONCE, lastWindow(rowCount)))}>later rows</button></p>`;
}

function actions({ table, isPicked, all, rowOf }: TableLook, { at, form }: TableUi, hand: TableHand): Part {
  const next = table.nextLeftOut(rowOf(at.row) + 1);
  const name = table.columns[at.column]?.typed ?? '';
  const isRow = at.row < table.rowCount;
  // Tab comes here from the rows before it comes to the buttons: the keys that are pressed next do nothing by accident.
  return html`<div class="line-actions" role="group" tabindex="0" aria-label=${composed`What can be done with the rows of ${table.label}`}>
    ${isPicked ? nothing : html`<button type="button" class="quiet" @click=${hand.addRow}>${isRow ? `add a row below row ${at.row + 1}` : 'add a row'}</button>`}
    <button type="button" class="quiet" aria-expanded=${form === at.row ? 'true' : 'false'} @click=${() => hand.openRow(at.row)}>${isRow ? `row ${rowOf(at.row) + 1}` : 'new row'} as a form</button>
    ${isRow ? html`<button type="button" class="quiet" @click=${hand.deleteRow}>delete row ${rowOf(at.row) + 1}</button>` : nothing}
    ${all < 2 ? nothing : html`<span class="order">show by ${name}
      <button type="button" class="quiet" aria-label=${composed`show by ${name}, rising`} @click=${() => hand.order('rising')}>rising</button>
      <button type="button" class="quiet" aria-label=${composed`show by ${name}, falling`} @click=${() => hand.order('falling')}>falling</button></span>`}
    ${next === undefined ? nothing : html`<button type="button" class="quiet" @click=${() => hand.goToRow(next)}>next row left out</button>`}
    <label class="file"><input type="file" class="visually-hidden" accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
      @change=${hand.bringIn}><span>bring in rows</span></label>
    ${all === 0 ? nothing : html`<button type="button" class="quiet" @click=${hand.takeAway}>take away rows</button>`}
  </div>`;
}
