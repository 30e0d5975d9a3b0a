import { html, math, type Markup } from './markup.ts';
import type { PresentedBudget, PresentedBudgetRow, PresentedComponent } from './present/types.ts';

/** An uncertainty budget as a table, each input's components told below it. */
export function budgetTable(budget: PresentedBudget): Markup {
  const longest = Math.max(1, ...budget.rows.flatMap(({ parts }) => [parts.own, Math.abs(parts.shared)]));
  return html`<div class="budget"><div class="budget-table" tabindex="0" role="group" aria-label="Uncertainty budget of ${budget.symbol}"><table>
<caption>Uncertainty budget of ${math(budget.symbolTex)}</caption>
<thead><tr><th scope="col">input</th><th scope="col">value, u</th><th scope="col">type, distribution, ν</th><th scope="col">sensitivity</th><th scope="col">contributes</th><th scope="col">share of variance</th>${budget.isCorrelated && html`<th scope="col">by correlation</th>`}</tr></thead>
<tbody>${budget.rows.map((row) => html`${inputRow(row, budget, longest)}${row.components.map((component) => componentRow(component, budget.isCorrelated))}`)}</tbody>
</table></div>
${budget.exact.length > 0 && html`<p class="help">Without any uncertainty, and so taken as exactly known: ${budget.exact.map((tex, i) => html`${i > 0 ? ', ' : ''}${math(tex)}`)}.</p>`}</div>`;
}

function inputRow(row: PresentedBudgetRow, { symbolTex }: PresentedBudget, longest: number): Markup {
  const derivative = `\\frac{\\partial ${symbolTex}}{\\partial ${row.inputTex}}`;
  return html`<tr><th scope="row">${math(row.inputTex)}<span class="words">${row.words}</span></th>
<td data-head="value, u"><span>${row.value}</span><span class="u">u = ${row.uncertainty}</span></td>
<td class="type" data-head="type, distribution, ν"><span>${kind(row.type, row.distribution, row.degreesOfFreedom)}</span></td>
<td data-head="sensitivity">${row.sensitivityTex !== undefined && html`<span class="derivative">${math(`${derivative} = ${row.sensitivityTex}`)}</span>`}<span>${row.sensitivity}</span></td>
<td data-head="contributes"><span>${row.contribution}</span></td>
<td class="share" data-head="share of the variance">${bar(row.parts.own, longest)}<span>${row.share}</span></td>${row.covarianceShare !== undefined
  && html`<td class="share" data-head="by correlation">${bar(row.parts.shared, longest)}<span>${row.covarianceShare}</span></td>`}</tr>
`;
}

function componentRow(component: PresentedComponent, isCorrelated: boolean): Markup {
  return html`<tr class="component"><th scope="row">${component.source}</th><td data-head="uncertainty"><span class="u">u = ${component.uncertainty}</span></td>
<td class="type" data-head="type, distribution, ν"><span>${kind(component.type, component.distribution, component.degreesOfFreedom)}</span></td><td class="empty"></td>
<td data-head="contributes"><span>${component.contribution}</span></td>
<td class="share" data-head="share of the variance">${bar(component.part, 1)}<span>${component.share}</span></td>${isCorrelated && html`<td class="empty"></td>`}</tr>
`;
}

function kind(type: string, distribution: string | undefined, degreesOfFreedom: string): Markup {
  return html`${type}${distribution !== undefined && html`, ${distribution}`}, <span class="freedom">ν = ${degreesOfFreedom}</span>`;
}

function bar(fraction: number, longest: number): Markup {
  return html`<span class="bar ${fraction < 0 ? 'takes' : ''}" style="--share: ${(Math.abs(fraction) / longest).toFixed(3)}" aria-hidden="true"></span>`;
}
