import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import {
  PRINTED_ROWS, presentRowsThen, withheldWords, type PresentedColumn, type PresentedRow, type PresentedTable, type PresentedTableSymbol, turnedLine,
} from '../../report/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { note, part, partId, problemLine, problemList, resultText, uncertaintyLines, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { budgetLines } from '../cells/budget.ts';
import { changeMarks } from '../cells/shift.ts';
import { rowsInPart } from '../cells/rows-in.ts';
import { tableHand, type TableHand } from '../cells/table-edit.ts';
import { lookAt, lookLine, pickedLine, type TableLook } from '../cells/table-look.ts';
import { lastWindow, ROWS_AT_ONCE, type TableUi } from '../cells/table-ui.ts';

/** Rows to type in, ruled as in a printed report. Only a window of a long table is in the page. */
export function tableParts(cell: TableCell, desk: Desk): { line: Part; margin: Part } {
  const look = lookAt(cell, desk);
  const { table } = look;
  const ui = desk.ui(cell.id).table;
  const hand = tableHand(cell, desk);
  if (ui.isPrinting) return printedParts(table, withheldWords(cell.id, desk.context()));
  const first = Math.min(ui.first, lastWindow(table.rowCount));
  const rows = table.rows(first, first + ROWS_AT_ONCE);
  const shown = rows.length < ROWS_AT_ONCE && !look.isPicked ? [...rows, blankRow(table)] : rows;
  const sizes = sizesOf(table.columns, shown);
  const row = (one: PresentedRow, place: number): Part => tableRow(one, place, { cell, look, ui, first, sizes });
  return {
    line: html`${table.columns.length === 0 ? html`<p class="label">${table.label}</p>` : html`
      <div class="ruled"><table @focusin=${hand.focus} @focusout=${hand.leave} @input=${hand.type} @keydown=${hand.press} @paste=${hand.paste}
        aria-rowcount=${table.rowCount + 1}>
        <caption>${table.label}</caption>
        <thead><tr aria-rowindex="1">${table.columns.map((column) =>
          html`<th scope="col" class=${column.isFigures ? 'figures' : nothing} title=${column.label === column.head ? nothing : column.label}>${headPart(column)}</th>`)}</tr></thead>
        <tbody>${shown.map((one, i) => row(one, first + i))}</tbody></table></div>
      ${table.gives.map((given) => givenLine(given, withheldWords(cell.id, desk.context())))}
      ${budgetLines(cell.id, table.gives.map(({ symbol }) => symbol), desk)}
      ${pager(look, first, hand, partId(cell.id, 'from'))}
      ${pickedLine(look, ui, hand)}
      ${actions(look, ui, hand)}
      ${ui.rowsIn === undefined ? nothing : rowsInPart(partId(cell.id, 'rows-in'), ui.rowsIn, cell, hand.rowsIn)}
      ${lookLine(cell, table, ui, desk, hand)}`}
      ${problemList(table, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${table.gives.map((given) => besideGiven(given, desk))}<p class="count">${table.counts}</p>${part(turnedLine(presentRowsThen(cell, desk.context())))}
      ${table.groups.map((group) => html`<p class="group">${group}</p>`)}
      ${table.echoes.map((echo) => html`<p class="echo">${echo}</p>`)}${note(table.note)}`,
  };
}

/** Quantity and unit, with the quantity's subscript below the line. */
function headPart({ head, subscripted }: PresentedColumn): Part {
  return subscripted === undefined ? html`${head}` : html`${subscripted[0]}<sub>${subscripted[1]}</sub>${subscripted[2]}`;
}

/** What the rows give the sheet, below them as a sum stands below its column. */
function givenLine({ prefixTex, result, hidden }: PresentedTableSymbol, withheld: string): Part {
  if (result.kind === 'problem' && !hidden) return nothing;
  const shown = hidden
    ? html`<span class="withheld">${withheld}</span>`
    : result.kind === 'value'
      ? html`<span class="double-underlined">${resultText(result)}</span>`
      : html`<span class="range">${result.kind === 'range' ? result.text : ''}</span>`;
  return html`<div class="result-row"><div class="result"><span class="before" ${setEquation(prefixTex)}></span> ${shown}</div></div>`;
}

/** Whether it has moved, and the uncertainty of what the rows give, under its symbol. */
function besideGiven({ symbol, symbolTex, result, hidden }: PresentedTableSymbol, desk: Desk): Part {
  const moved = changeMarks(symbol, desk);
  const lines = uncertaintyLines(result);
  if (hidden || (moved === nothing && lines === nothing)) return nothing;
  return html`<div class="beside"><p class="uncertainty" ${setEquation(`${symbolTex}:`)}></p>${moved}${lines}</div>`;
}

/** The rows as they are printed: as many as the report prints, and how many more there are. */
function printedParts(table: PresentedTable, withheld: string): { line: Part; margin: Part } {
  const columns = table.columns.flatMap((column, place) => (column.isPresent ? [{ ...column, place }] : []));
  const more = table.rowCount - PRINTED_ROWS;
  return {
    line: html`<div class="ruled"><table><caption>${table.label}</caption>
      <thead><tr>${columns.map((column) => html`<th scope="col" class=${column.isFigures ? 'figures' : nothing}>${headPart(column)}</th>`)}</tr></thead>
      <tbody>${table.rows(0, PRINTED_ROWS).map((row) => html`<tr class=${row.isLeftOut ? 'left-out' : row.isNotCounted ? 'not-counted' : nothing}>${columns.map(({ isFigures, place }) =>
        html`<td class=${isFigures ? 'figures' : nothing}>${row.fields[place]?.printed}</td>`)}</tr>`)}</tbody></table></div>
      ${table.gives.map((given) => givenLine(given, withheld))}
      ${more > 0 ? html`<p class="more">${more} more ${more === 1 ? 'row' : 'rows'}, which the document holds.</p>` : nothing}${problemList(table)}`,
    margin: html`<p class="count">${table.counts}</p>${table.groups.map((group) => html`<p class="group">${group}</p>`)}${note(table.note)}`,
  };
}

/** The row after the last, to go on in. */
function blankRow({ columns, rowCount }: PresentedTable): PresentedRow {
  return { number: rowCount + 1, fields: columns.map(() => ({ text: '', printed: '', marks: [], isWrong: false })), marks: [], isLeftOut: false, isNotCounted: false };
}

const NARROWEST = 4;
const WIDEST = 24;

/** Signs that a column is wide: the longest of its fields in the page. */
function sizesOf(columns: readonly PresentedColumn[], rows: readonly PresentedRow[]): readonly number[] {
  return columns.map(({ standsFor }, i) =>
    rows.reduce((widest, { fields }) => Math.min(WIDEST, Math.max(widest, fields[i]?.text.length ?? 0)), Math.max(NARROWEST, standsFor.length)));
}

interface RowSetting {
  readonly cell: TableCell;
  readonly look: TableLook;
  readonly ui: TableUi;
  readonly first: number;
  readonly sizes: readonly number[];
}

function tableRow(row: PresentedRow, place: number, setting: RowSetting): Part {
  const { cell, look: { table } } = setting;
  const told = [...row.marks, ...row.fields.flatMap(({ marks }) => marks)];
  const toldId = partId(cell.id, `row-${row.number}`);
  return html`<tr class=${row.isLeftOut ? 'left-out' : row.isNotCounted ? 'not-counted' : nothing} aria-rowindex=${row.number + 1}>${table.columns.map((column, i) =>
    tableField(column, i, row, place, told.length > 0 ? toldId : undefined, setting))}</tr>
    ${told.length === 0 ? nothing : html`<tr class="told"><td colspan=${table.columns.length} id=${toldId}>
      ${row.isLeftOut ? html`<p class="out">Left out.</p>` : nothing}${told.map((problem) => problemLine(problem, row.isLeftOut ? 'problem' : 'problem warning'))}</td></tr>`}`;
}

function tableField(
  column: PresentedColumn, i: number, row: PresentedRow, place: number, toldId: string | undefined, { look, ui, first, sizes }: RowSetting,
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
  return html`<td class=${classes === '' ? nothing : classes}><input class="field" data-row=${place} data-column=${i} size=${sizes[i] ?? NARROWEST}
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
    <input class="blank" id=${id} inputmode="numeric" size="7" autocomplete="off" .value=${live(String(first + 1))} @change=${jump}>
    <span>to ${last} of ${rowCount}</span>
    <button type="button" class="quiet" ?disabled=${first === 0} @click=${() => hand.show(Math.max(0, first - ROWS_AT_ONCE))}>earlier rows</button>
    <button type="button" class="quiet" ?disabled=${last >= rowCount} @click=${() => hand.show(Math.min(first + ROWS_AT_ONCE, lastWindow(rowCount)))}>later rows</button></p>`;
}

function actions({ table, isPicked, all, rowOf }: TableLook, { at }: TableUi, hand: TableHand): Part {
  const next = table.nextLeftOut(rowOf(at.row) + 1);
  const name = table.columns[at.column]?.typed ?? '';
  const isRow = at.row < table.rowCount;
  // Tab comes here from the rows before it comes to the buttons: the keys that are pressed next do nothing by accident.
  return html`<div class="line-actions" role="group" tabindex="0" aria-label=${composed`What can be done with the rows of ${table.label}`}>
    ${isPicked ? nothing : html`<button type="button" class="quiet" @click=${hand.addRow}>${isRow ? `add a row below row ${at.row + 1}` : 'add a row'}</button>`}
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
