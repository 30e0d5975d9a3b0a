import type { TableCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { besideGiven, givesEntry, givesLine } from '../gives.ts';
import { turnedLine } from '../held-parts.ts';
import { html, type Hand, type Insertion, type Markup } from '../markup.ts';
import { originNote } from '../origin-parts.ts';
import { cellMarkup, note, notesBeside, problemLine, type CellTemplate } from '../parts.ts';
import { presentRowsThen } from '../present/held-rows.ts';
import { decimalText } from '../present/number.ts';
import { presentTable } from '../present/table.ts';
import type { PresentContext, PresentedColumn, PresentedRow, PresentedTable } from '../present/types.ts';
import { OPEN_PARTS } from '../report-part.ts';

/** Rows of a table that are printed, some twenty pages; the document holds all of them. */
const PRINTED_ROWS = 1000;

export const tableForm: Form<TableCell> = {
  template: (cell, context) => tableTemplate(cell, context),
  report: (cell, context, { block }) => {
    const { rowCount, label, note: words, problems } = presentTable(cell, context);
    if (rowCount === 0 && problems.length === 0 && cell.optional === true) return {};
    if (rowCount === 0 && problems.length === 0) return { open: { under: OPEN_PARTS, name: label === '' ? cell.id : label }, notes: { name: label, texts: [words] } };
    return { here: cellMarkup(block.id, 'table', tableTemplate(cell, context, 'report')) };
  },
};

/** What the page has of a table: fields in place of what is typed in them. */
interface TableHands {
  /** The rows to type in, and their heads; undefined while they are printed. */
  readonly fields: Hand | undefined;
  /** What can be done with the rows, below what they give. */
  readonly below: Hand | undefined;
  readonly moved: (symbol: string) => Insertion;
}

/** Rows of typed columns, ruled as in a printed report. */
export function tableTemplate(cell: TableCell, context: PresentContext, place?: TableHands | 'report'): CellTemplate {
  const table = presentTable(cell, context);
  const isReport = place === 'report';
  const hands = place === 'report' ? undefined : place;
  return {
    notes: table,
    line: html`${hands?.fields ?? printedRows(table)}
${table.gives.map((given) => (isReport ? givesEntry : givesLine)(given, cell.id, context))}${hands?.below}`,
    margin: [
      originNote(cell.origin),
      ...(isReport ? [] : table.gives.map((given) => besideGiven(given, context, hands?.moved(given.symbol)))),
      html`<p class="count">${table.counts}</p>`,
      turnedLine(presentRowsThen(cell, context)),
      ...table.groups.map((group) => html`<p class="group">${group}</p>`),
      ...table.echoes.map((echo) => html`<p class="echo">${echo}</p>`),
      notesBeside(note(table.note)),
    ],
  };
}

/** The rows as they are printed, and how many more there are. */
function printedRows(table: PresentedTable): Markup {
  const columns = table.columns.map((column, place) => ({ column, place })).filter(({ column }) => column.isPresent);
  const more = table.rowCount - PRINTED_ROWS;
  return html`${table.rowCount > 0 && html`<div class="ruled" tabindex="0" role="region" aria-label="${table.label === '' ? 'Table' : table.label}"><table>
<caption>${table.label}</caption>
<thead><tr>${columns.map(({ column }) => columnHead(column))}</tr></thead>
<tbody>${table.rows(0, PRINTED_ROWS).map((row) => rowMarkup(row, columns.map(({ place }) => place), table.columns))}</tbody>
</table></div>`}${table.rowCount === 0 && table.label !== '' && html`<p class="label">${table.label}</p>`}
${more > 0 && html`<p class="more">${decimalText(String(more), 0)} more ${more === 1 ? 'row' : 'rows'}, which the document holds.</p>`}`;
}

/** Quantity and unit, with the quantity's subscript below the line. */
export function columnHead({ head, subscripted, label, isFigures }: PresentedColumn): Markup {
  const [letter, below, rest] = subscripted ?? [head, '', ''];
  return html`<th scope="col" class="${isFigures && 'figures'}" title="${label !== head && label}">${letter}${below !== '' && html`<sub>${below}</sub>`}${rest}</th>`;
}

/** By its number in the table, wherever it is shown. */
export function leftOutWords({ number }: PresentedRow): string {
  return `Row ${number} is left out.`;
}

function rowMarkup(row: PresentedRow, places: readonly number[], columns: readonly PresentedColumn[]): Markup {
  const fields = places.map((place) => {
    const field = row.fields[place];
    const classes = [columns[place]?.isFigures === true ? 'figures' : '', field?.isWrong === true ? 'marked' : ''].filter((name) => name !== '').join(' ');
    return html`<td class="${classes !== '' && classes}">${field?.printed}</td>`;
  });
  const told = [...row.marks, ...row.fields.flatMap(({ marks }) => marks)];
  return html`<tr class="${(row.isLeftOut || row.isNotCounted) && (row.isLeftOut ? 'left-out' : 'not-counted')}">${fields}</tr>
${told.length > 0 && html`<tr class="told"><td colspan="${places.length}">${row.isLeftOut && html`<p class="out">${leftOutWords(row)}</p>`}${told.map((problem) => problemLine(problem, row.isLeftOut ? 'problem' : 'problem warning'))}</td></tr>
`}`;
}
