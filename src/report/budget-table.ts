import { html, math, type Hand, type Insertion, type Markup } from './markup.ts';
import { raised } from './parts.ts';
import type { PresentedBudget, PresentedBudgetRow, PresentedComponent } from './present/types.ts';

/** The components of an input: whether they are told below it, and the press that tells them. */
export type Folding = (row: PresentedBudgetRow) => { readonly isOpen: boolean; readonly press?: Hand };

const ALL_OPEN: Folding = () => ({ isOpen: true });
const CORRELATED = 'Some of these were read together, were measured on a scale whose error they share (instruments of one description are taken to be one), or are stated to be correlated. What that adds to the variance, or takes from it, stands in the last column; both columns together make 100 %.';

/** An uncertainty budget as a table, each input's components told below it unless they are folded up. */
export function budgetTable(budget: PresentedBudget, folding = ALL_OPEN): Markup {
  const longest = Math.max(1, ...budget.rows.flatMap(({ parts }) => [parts.own, Math.abs(parts.shared)]));
  const rows = (row: PresentedBudgetRow): Markup => {
    const { isOpen, press } = folding(row);
    return html`${inputRow(row, budget, longest, press)}${isOpen && row.components.map((component) => componentRow(component, budget.isCorrelated))}`;
  };
  return html`<div class="budget-table" tabindex="0" role="group" aria-label="Uncertainty budget of ${budget.symbol}"><table>
<caption>Uncertainty budget of ${math(budget.symbolTex)}</caption>
<thead><tr><th scope="col">Input</th><th scope="col">Value, u</th><th scope="col">Type, distribution, ν</th><th scope="col">Sensitivity</th><th scope="col">Contributes</th><th scope="col">Share of variance</th>${budget.isCorrelated && html`<th scope="col">By correlation</th>`}</tr></thead>
<tbody>${budget.rows.map(rows)}</tbody>
</table></div>
${budget.isCorrelated && html`<p class="help">${CORRELATED}</p>`}
${budget.exact.length > 0 && html`<p class="help">Without any uncertainty, and so taken as exactly known: ${budget.exact.map((tex, i) => html`${i > 0 ? ', ' : ''}${math(tex)}`)}.</p>`}`;
}

function inputRow(row: PresentedBudgetRow, { symbolTex }: PresentedBudget, longest: number, press: Hand | undefined): Markup {
  const derivative = `\\frac{\\partial ${symbolTex}}{\\partial ${row.inputTex}}`;
  return html`<tr><th scope="row">${math(row.inputTex)}<span class="words">${row.words}</span>${press}</th>
<td data-head="Value, u"><span>${raised(row.value)}</span><span class="u">u = ${raised(row.uncertainty)}</span></td>
<td class="type" data-head="Type, distribution, ν"><span>${kind(row.type, row.distribution, row.degreesOfFreedom)}</span></td>
<td data-head="Sensitivity">${row.sensitivityTex !== undefined && html`<span class="derivative">${math(`${derivative} = ${row.sensitivityTex}`)}</span>`}<span>${raised(row.sensitivity)}</span></td>
<td data-head="Contributes"><span>${raised(row.contribution)}</span></td>
<td class="share" data-head="Share of the variance">${bar(row.parts.own, longest)}<span>${raised(row.share)}</span></td>${row.covarianceShare !== undefined
  && html`<td class="share" data-head="By correlation">${bar(row.parts.shared, longest)}<span>${raised(row.covarianceShare)}</span></td>`}</tr>
`;
}

function componentRow(component: PresentedComponent, isCorrelated: boolean): Markup {
  return html`<tr class="component"><th scope="row">${component.source}</th><td data-head="Uncertainty"><span class="u">u = ${raised(component.uncertainty)}</span></td>
<td class="type" data-head="Type, distribution, ν"><span>${kind(component.type, component.distribution, component.degreesOfFreedom)}</span></td><td class="empty"></td>
<td data-head="Contributes"><span>${raised(component.contribution)}</span></td>
<td class="share" data-head="Share of the variance">${bar(component.part, 1)}<span>${raised(component.share)}</span></td>${isCorrelated && html`<td class="empty"></td>`}</tr>
`;
}

/** `B, rectangular, ν = ∞`; several components have a distribution each. */
function kind(type: string, distribution: string | undefined, degreesOfFreedom: string): Insertion {
  return html`${type}${distribution !== undefined && html`, ${distribution}`}, <span class="freedom">ν = ${raised(degreesOfFreedom)}</span>`;
}

/** Filled for what adds to the variance, hollow for what takes from it. */
function bar(fraction: number, longest: number): Markup {
  return html`<span class="bar ${fraction < 0 ? 'takes' : ''}" style="--share: ${(Math.abs(fraction) / longest).toFixed(3)}" aria-hidden="true"></span>`;
}
