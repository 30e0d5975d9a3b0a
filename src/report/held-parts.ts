import { html, math, type Markup } from './markup.ts';
import { problemLine, raised } from './parts.ts';
import { heldProblems } from './present/held.ts';
import { presentHeldTable } from './present/held-table.ts';
import type { HeldRow, PresentedHeldTable } from './present/held-types.ts';
import { presentShift, WEDGES, type PresentedShift } from './present/shift.ts';
import { symbolOf } from './present/symbol.ts';
import type { PresentContext } from './present/types.ts';

/* Held states, as the report shows them. */

/** By how much a value differs from the reference. */
export function shiftLine(shift: PresentedShift | undefined): Markup | undefined {
  if (shift === undefined) return undefined;
  return html`<p class="shift ${shift.direction}">${amount(shift)} <span class="from">from “${shift.from}”</span></p>`;
}

const SPOKEN: Readonly<Record<PresentedShift['direction'], string>> = { up: 'higher: ', down: 'lower: ', other: '' };

/** The same for every symbol of a cell that has several. @param shown those that have it beside their values */
export function publishedShifts(cellId: string, context: PresentContext, shown: readonly (string | undefined)[] = []): readonly Markup[] {
  return [...(context.states.cell(cellId)?.results?.keys() ?? [])].flatMap((symbol) => {
    const shift = presentShift(symbol, context);
    return shift === undefined || shown.includes(symbol) ? [] : [html`<p class="uncertainty">${math(`${symbolOf(symbol)}:`)}</p>${shiftLine(shift)}`];
  });
}

function amount({ direction, text }: PresentedShift): Markup {
  return html`<svg class="wedge" viewBox="0 0 12 11" aria-hidden="true"><path d="${WEDGES[direction]}"></path></svg><span class="visually-hidden">${SPOKEN[direction]}</span><span class="amount">${raised(text)}</span>`;
}

export function turnedLine(sentence: string | undefined): Markup | undefined {
  return sentence === undefined ? undefined : html`<p class="turned">${sentence}</p>`;
}

/** At the end of the sheet: the held states beside the present one. */
export function heldSection(context: PresentContext): Markup {
  const table = presentHeldTable(context);
  const problems = heldProblems(context);
  if (table === undefined && problems.length === 0) return html``;
  return html`<section class="held-section"><h2>Held states</h2>
${table !== undefined && heldTable(table)}
${problems.map((problem) => problemLine(problem, 'problem'))}</section>`;
}

function heldTable({ columns, inputs, results }: PresentedHeldTable): Markup {
  const heads = columns.map(({ name, at, isReference }) => html`<th scope="col"${isReference && html` class="reference"`}>${name}${isReference && ' (reference)'}${at !== undefined && html`<span class="when">${at}</span>`}</th>`);
  const row = ({ label, cells }: HeldRow): Markup => html`<tr><th scope="row">${label}</th>${cells.map(({ text, shift }, i) =>
    html`<td${columns[i]?.isReference === true && html` class="reference"`}>${text}${shift !== undefined && html`<span class="shift ${shift.direction}">${amount(shift)}</span>`}</td>`)}</tr>`;
  const part = (words: string, rows: readonly HeldRow[]): Markup => (rows.length === 0 ? html`` : html`<tbody><tr class="rowgroup"><th scope="rowgroup" colspan="${columns.length + 1}">${words}</th></tr>${rows.map(row)}</tbody>`);
  return html`<div class="held-table" tabindex="0" role="group" aria-label="Held states side by side"><table><thead><tr><td></td>${heads}</tr></thead>
${part('Inputs that differ', inputs)}${part('Results', results)}</table></div>`;
}
