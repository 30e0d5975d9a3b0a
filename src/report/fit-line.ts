import type { FitCell } from '../sheet/types.ts';
import { factList, smallTable } from './findings-line.ts';
import { equationLine } from './lines.ts';
import { publishedShifts } from './held-parts.ts';
import { html, math, type Markup } from './markup.ts';
import { cellLine, label, note, problemList } from './parts.ts';
import { presentFit } from './present/fit.ts';
import { presentBeside } from './present/models-beside.ts';
import { liveText } from './present/live.ts';
import type { PresentContext, PresentedFit, PresentedParameter } from './present/types.ts';

/** A line fitted to a table: the line, the line with its numbers, its parameters with limits, and what is to be known of it. */
export function fitLine(cell: FitCell, context: PresentContext): Markup {
  const fit = presentFit(cell, context);
  return cellLine({
    id: cell.id,
    kind: 'fit',
    line: html`${label(fit.label)}
${fit.method !== '' && html`<p class="method">${fit.method}</p>`}
${fit.lineTex !== undefined && equationLine('symbols', fit.lineTex)}
${fit.numbersTex !== undefined && equationLine('numbers', fit.numbersTex)}
${fit.parameters.length > 0 && parameterTable(fit)}
${factList(fit.facts)}
${presentBeside(cell, context).map(smallTable)}
${problemList(fit)}`,
    margin: [
      ...publishedShifts(cell.id, context),
      ...(fit.counts === '' ? [] : [html`<p class="count">${fit.counts}</p>`]),
      ...fit.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      note(fit.note === undefined ? undefined : liveText(fit.note, context)),
    ],
  });
}

function parameterTable({ parameters, limits }: PresentedFit): Markup {
  return html`<div class="ruled" tabindex="0" role="group" aria-label="Parameters"><table>
<thead><tr><th scope="col">Parameter</th><th scope="col" class="figures">Value</th><th scope="col" class="figures">Standard error</th><th scope="col" class="figures">Lower limit</th><th scope="col" class="figures">Upper limit</th></tr></thead>
<tbody>${parameters.map(parameterRow)}</tbody>
</table></div>
<p class="limits">${limits}</p>`;
}

function parameterRow({ symbolTex, words, value, standardError, low, high }: PresentedParameter): Markup {
  return html`<tr><th scope="row">${math(symbolTex)} <span class="words">${words}</span></th>${[value, standardError, low, high].map((text) => html`<td class="figures">${text}</td>`)}</tr>
`;
}
