import { shiftLine } from './held-parts.ts';
import { html, math, type Hand, type Insertion, type Markup } from './markup.ts';
import { raised } from './parts.ts';
import { presentShift } from './present/shift.ts';
import type { PresentContext, PresentedFit, PresentedHead, PresentedSmallTable } from './present/types.ts';

/** How the value of a symbol moved with the last edit. */
export type Moved = (symbol: string) => Hand;

/** What stands beside the value of a symbol: how it moved, how far it is from a reference. */
export type Beside = (symbol: string) => Insertion;

export function besideValues(context: PresentContext, moved?: Moved): Beside {
  return (symbol) => [moved?.(symbol), shiftLine(presentShift(symbol, context))];
}

/** A small table of results with its caption above and its note below. A table too wide scrolls, also by keyboard. */
export function smallTable({ caption, heads, rows, note: below }: PresentedSmallTable, beside?: Beside): Markup {
  const column = (head: PresentedHead, i: number): Markup => (i === 0 ? html`<th scope="col">${headMarkup(head)}</th>` : html`<th scope="col" class="figures">${headMarkup(head)}</th>`);
  return html`<div class="ruled" tabindex="0" role="group" aria-label="${caption}"><table><caption>${raised(caption)}</caption>
<thead><tr>${heads.map(column)}</tr></thead>
<tbody>${rows.map(({ head, cells, symbol }) => html`<tr><th scope="row">${headMarkup(head)}${symbol !== undefined && beside?.(symbol)}</th>${cells.map((text) => html`<td class="figures">${raised(text)}</td>`)}</tr>
`)}</tbody>
</table></div>
${below !== undefined && html`<p class="limits">${raised(below)}</p>`}`;
}

/** A symbol is said by its name: a heading that is nothing but an equation counts as empty. */
function headMarkup(head: PresentedHead): Insertion {
  return 'tex' in head ? html`<span class="visually-hidden">${head.tex}</span><span aria-hidden="true">${math(head.tex)}</span>` : raised(head.text);
}

/** Pairs of words; nothing where there are none. */
export function factList(facts: PresentedFit['facts']): Markup | undefined {
  return facts.length === 0 ? undefined : html`<dl class="facts">${facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${raised(text)}</dd></div>`)}</dl>`;
}
