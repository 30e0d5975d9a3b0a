import type { Problem } from '../../core/problem/index.ts';
import type { TableCell } from '../../sheet/types.ts';
import { publishedShifts, turnedLine } from '../held-parts.ts';
import type { Form } from '../form.ts';
import { html, math, type Markup } from '../markup.ts';
import { note, problemLine, uncertaintyLines, type CellTemplate } from '../parts.ts';
import { presentRowsThen } from '../present/held-rows.ts';
import { decimalText } from '../present/number.ts';
import { presentTable } from '../present/table.ts';
import type { PresentContext, PresentedColumn, PresentedRow, PresentedTableSymbol } from '../present/types.ts';

/** Rows of a table that are printed, some twenty pages; the document holds all of them. */
export const PRINTED_ROWS = 1000;

export const tableForm: Form<TableCell> = { template: tableTemplate };

/** Rows of typed columns, ruled as in a printed report. */
function tableTemplate(cell: TableCell, context: PresentContext): CellTemplate {
  const table = presentTable(cell, context);
  const columns = table.columns.map((column, place) => ({ column, place })).filter(({ column }) => column.isPresent);
  const more = table.rowCount - PRINTED_ROWS;
  return {
    notes: table,
    line: html`${table.rowCount > 0 && html`<div class="ruled" tabindex="0" role="region" aria-label="${table.label === '' ? 'Table' : table.label}"><table>
<caption>${table.label}</caption>
<thead><tr>${columns.map(({ column }) => headMarkup(column))}</tr></thead>
<tbody>${table.rows(0, PRINTED_ROWS).map((row) => rowMarkup(row, columns.map(({ place }) => place), table.columns))}</tbody>
</table></div>`}${table.rowCount === 0 && table.label !== '' && html`<p class="label">${table.label}</p>`}
${more > 0 && html`<p class="more">${decimalText(String(more), 0)} more ${more === 1 ? 'row' : 'rows'}, which the document holds.</p>`}
${table.gives.map(givenLine)}`,
    margin: [
      ...publishedShifts(cell.id, context),
      ...table.gives.flatMap(besideGiven),
      html`<p class="count">${table.counts}</p>`,
      turnedLine(presentRowsThen(cell, context)),
      ...table.groups.map((group) => html`<p class="group">${group}</p>`),
      ...table.echoes.map((echo) => html`<p class="echo">${echo}</p>`),
      note(table.note),
    ],
  };
}

/** What the rows give the sheet, below them as a sum stands below its column. */
function givenLine({ prefixTex, result, hidden }: PresentedTableSymbol): Markup {
  if (hidden) return html`<div class="result">${math(prefixTex)} <span class="withheld">after your own working</span></div>`;
  switch (result.kind) {
    case 'value':
      return html`<div class="result">${math(prefixTex)} <span class="double-underlined">${math(result.tex)}</span></div>`;
    case 'range':
      return html`<div class="result">${math(prefixTex)} <span class="range">${result.text}</span></div>`;
    case 'problem':
      return html``;
  }
}

/** Uncertainty of what the rows give, under its symbol. */
function besideGiven({ symbolTex, hidden, result }: PresentedTableSymbol): readonly Markup[] {
  const lines = hidden ? [] : uncertaintyLines(result);
  return lines.length === 0 ? [] : [html`<p class="uncertainty">${math(`${symbolTex}:`)}</p>`, ...lines];
}

function headMarkup({ head, subscripted, label, isFigures }: PresentedColumn): Markup {
  const [letter, below, rest] = subscripted ?? [head, '', ''];
  return html`<th scope="col"${isFigures && html` class="figures"`}${label !== head && html` title="${label}"`}>${letter}${below !== '' && html`<sub>${below}</sub>`}${rest}</th>`;
}

function rowMarkup(row: PresentedRow, places: readonly number[], columns: readonly PresentedColumn[]): Markup {
  const fields = places.map((place) => {
    const field = row.fields[place];
    const classes = [columns[place]?.isFigures === true ? 'figures' : '', field?.isWrong === true ? 'marked' : ''].filter((name) => name !== '').join(' ');
    return html`<td${classes !== '' && html` class="${classes}"`}>${field?.printed}</td>`;
  });
  const told = [...row.marks, ...row.fields.flatMap(({ marks }) => marks)];
  return html`<tr${(row.isLeftOut || row.isNotCounted) && html` class="${row.isLeftOut ? 'left-out' : 'not-counted'}"`}>${fields}</tr>
${told.length > 0 && html`<tr class="told"><td colspan="${places.length}">${row.isLeftOut && html`<p class="out">Left out.</p>`}${told.map((problem) => toldLine(problem, row.isLeftOut))}</td></tr>
`}`;
}

function toldLine(problem: Problem, isLeftOut: boolean): Markup {
  return problemLine(problem, isLeftOut ? 'problem' : 'problem warning');
}
