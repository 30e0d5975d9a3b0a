import type { FitCell } from '../../sheet/types.ts';
import { equationLine } from '../equation-line.ts';
import type { Form } from '../form.ts';
import { publishedShifts } from '../held-parts.ts';
import { html, math, type Markup } from '../markup.ts';
import { label, note, raised, type CellTemplate } from '../parts.ts';
import { presentFit } from '../present/fit.ts';
import { presentBeside } from '../present/models-beside.ts';
import type { PresentContext, PresentedFit, PresentedParameter } from '../present/types.ts';
import { factList, smallTable, type Beside } from '../small-table.ts';
import { findingsTemplate } from './findings.ts';

export const fitForm: Form<FitCell> = {
  template: (cell, context) => (cell.finds === 'line' ? fitTemplate(cell, context) : findingsTemplate(cell, context)),
};

/** A line fitted to a table: the line, the line with its numbers, its parameters with limits, and what is to be known of it. */
function fitTemplate(cell: FitCell, context: PresentContext): CellTemplate {
  const fit = presentFit(cell, context);
  return {
    notes: fit,
    line: html`${label(fit.label)}
${fit.method !== '' && html`<p class="method">${fit.method}</p>`}
${fit.lineTex !== undefined && equationLine('symbols', fit.lineTex)}
${fit.numbersTex !== undefined && equationLine('numbers', fit.numbersTex)}
${fit.parameters.length > 0 && parameterTable(fit)}
${factList(fit.facts)}
${presentBeside(cell, context).map((table) => smallTable(table))}`,
    margin: [
      ...publishedShifts(cell.id, context),
      ...(fit.counts === '' ? [] : [html`<p class="count">${fit.counts}</p>`]),
      ...fit.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      note(fit.note),
    ],
  };
}

/** The parameters of a fitted line with their limits. */
export function parameterTable({ parameters, limits }: PresentedFit, beside?: Beside): Markup {
  return html`<div class="ruled" tabindex="0" role="group" aria-label="Parameters"><table>
<thead><tr><th scope="col">Parameter</th><th scope="col" class="figures">Value</th><th scope="col" class="figures">Standard error</th><th scope="col" class="figures">Lower limit</th><th scope="col" class="figures">Upper limit</th>${beside !== undefined && html`<td></td>`}</tr></thead>
<tbody>${parameters.map((parameter) => parameterRow(parameter, beside))}</tbody>
</table></div>
<p class="limits">${limits}</p>`;
}

function parameterRow({ symbol, symbolTex, words, value, standardError, low, high }: PresentedParameter, beside: Beside | undefined): Markup {
  return html`<tr><th scope="row">${math(symbolTex)} <span class="words">${words}</span></th>${[value, standardError, low, high].map((text) => html`<td class="figures">${raised(text)}</td>`)}${beside !== undefined && html`<td class="change">${symbol !== undefined && beside(symbol)}</td>`}</tr>
`;
}
