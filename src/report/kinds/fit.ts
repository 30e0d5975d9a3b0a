import type { FitCell } from '../../sheet/types.ts';
import { equationLine } from '../equation-line.ts';
import type { Form } from '../form.ts';
import { publishedShifts } from '../held-parts.ts';
import { html, math, type Hand, type Insertion, type Markup } from '../markup.ts';
import { cellMarkup, label, note, notesBeside, raised, type CellTemplate } from '../parts.ts';
import { presentFindings } from '../present/findings.ts';
import { presentFit } from '../present/fit.ts';
import { presentBeside } from '../present/models-beside.ts';
import type { PresentContext, PresentedFit, PresentedParameter } from '../present/types.ts';
import { OPEN_PARTS } from '../report-part.ts';
import { besideValues, factList, smallTable, type Beside, type Moved } from '../small-table.ts';
import { fitTex } from '../tex-fit.ts';
import { findingsTemplate } from './findings.ts';

export const fitForm: Form<FitCell> = {
  template: (cell, context) => (cell.finds === 'line'
    ? fitTemplate(cell, presentFit(cell, context), context)
    : findingsTemplate(cell, presentFindings(cell, context), context)),
  report: (cell, context, { block }) => {
    const fit = cell.finds === 'line' ? presentFit(cell, context) : undefined;
    const isThere = fit === undefined || fit.lineTex !== undefined || fit.parameters.length > 0 || fit.problems.length > 0;
    return isThere ? { here: cellMarkup(block.id, cell.kind, fitForm.template(cell, context, { block, sampled: undefined })) }
      : { open: { under: OPEN_PARTS, name: fit.label }, notes: { name: fit.label, texts: [...fit.settings.map((setting) => `${setting}.`), fit.note] } };
  },
  tex: fitTex,
};

/** What only the page has at a line: how values moved, other models where they are asked for, taking a line from another sheet. */
interface FitHands {
  readonly moved?: Moved;
  readonly models?: Insertion;
  readonly taking?: Hand;
}

/** A line fitted to a table: the line, the line with its numbers, its parameters with limits, and what is to be known of it. */
export function fitTemplate(cell: FitCell, fit: PresentedFit, context: PresentContext, hands: FitHands = {}): CellTemplate {
  const models = hands.models ?? presentBeside(cell, context).map((table) => smallTable(table, besideValues(context)));
  return {
    notes: fit,
    line: html`${label(fit.label)}
${fit.method !== '' && html`<p class="method">${fit.method}</p>`}
${fit.lineTex !== undefined && equationLine('symbols', fit.lineTex)}
${fit.numbersTex !== undefined && equationLine('numbers', fit.numbersTex)}
${fit.parameters.length > 0 && parameterTable(fit, besideValues(context, hands.moved))}
${factList(fit.facts)}
${models}${hands.taking}`,
    margin: [
      ...publishedShifts(cell.id, context, fit.parameters.map(({ symbol }) => symbol)),
      fit.counts !== '' && html`<p class="count">${fit.counts}</p>`,
      ...fit.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      notesBeside(note(fit.note)),
    ],
  };
}

/** The parameters of a fitted line with their limits. */
function parameterTable({ parameters, limits }: PresentedFit, beside: Beside): Markup {
  return html`<div class="ruled" tabindex="0" role="group" aria-label="Parameters"><table>
<thead><tr><th scope="col">Parameter</th><th scope="col" class="figures">Value</th><th scope="col" class="figures">Standard error</th><th scope="col" class="figures">Lower limit</th><th scope="col" class="figures">Upper limit</th><td></td></tr></thead>
<tbody>${parameters.map((parameter) => parameterRow(parameter, beside))}</tbody>
</table></div>
<p class="limits">${limits}</p>`;
}

function parameterRow({ symbol, symbolTex, words, value, standardError, low, high }: PresentedParameter, beside: Beside): Markup {
  return html`<tr><th scope="row">${math(symbolTex)} <span class="words">${words}</span></th>${[value, standardError, low, high].map((text) => html`<td class="figures">${raised(text)}</td>`)}<td class="change">${symbol !== undefined && beside(symbol)}</td></tr>
`;
}
