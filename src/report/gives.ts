import { shiftLine } from './held-parts.ts';
import { html, math, type Insertion, type Markup } from './markup.ts';
import { uncertaintyLines, valueMarkup } from './parts.ts';
import { withheldWords } from './present/hidden.ts';
import { presentShift } from './present/shift.ts';
import type { PresentContext, PresentedTableSymbol } from './present/types.ts';
import { intervalText, spreadBehind } from './report-part.ts';

/* What a table or a picture gives the sheet: a line each, below it as a sum stands below its column. */

/** @param cellId the cell that gives it */
export function givesLine({ prefixTex, result, hidden }: PresentedTableSymbol, cellId: string, context: PresentContext): Markup | undefined {
  if (result.kind === 'problem' && !hidden) return undefined;
  const shown = hidden || result.kind === 'problem' ? html`<span class="withheld">${withheldWords(cellId, context)}</span>` : valueMarkup(result);
  return html`<div class="result-row"><div class="result"><span class="before">${math(prefixTex)}</span> ${shown}</div></div>`;
}

/** The same in the report, as a line of its own with all that is beside it: `S_1 = Σ F_1i = 450.2 N ± 3.7 N 95 %: 442.9 … 457.5 N`. */
export function givesEntry({ prefixTex, symbol, result, hidden }: PresentedTableSymbol, cellId: string, context: PresentContext): Markup | undefined {
  if (result.kind === 'problem' && !hidden) return undefined;
  const shown = hidden || result.kind === 'problem' ? html`<span class="withheld">${withheldWords(cellId, context)}</span>` : valueMarkup(result);
  const interval = hidden ? undefined : intervalText(result);
  return html`<div class="entry step"><p class="run"><span class="formula">${math(prefixTex.replace(/\s*=$/u, ''))}</span> <span class="value"><span class="is">${math('=')}\u00a0${shown}</span>${!hidden && spreadBehind(result)}</span>${interval !== undefined && html` <span class="interval">${interval}</span>`}</p>${!hidden && shiftLine(presentShift(symbol, context))}</div>
`;
}

/** In the margin, under its symbol: how it moved, how far it is from the reference, and its uncertainty. @param moved since the last edit, which only the page knows */
export function besideGiven({ symbol, symbolTex, result, hidden }: PresentedTableSymbol, context: PresentContext, moved?: Insertion): Markup | undefined {
  const shift = shiftLine(presentShift(symbol, context));
  const lines = uncertaintyLines(result);
  if (hidden || (moved === undefined && shift === undefined && lines.length === 0)) return undefined;
  return html`<div class="beside"><p class="uncertainty">${math(`${symbolTex}:`)}</p>${moved}${shift}${lines}</div>`;
}
