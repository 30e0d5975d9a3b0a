import { html, nothing, type TemplateResult } from 'lit-html';
import { presentBudget, type PresentedBudgetRow } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { wordsOf } from './derivation.ts';
import { raised, type Part } from '../parts.ts';

/** Where the uncertainty of a result comes from, as the table of a report with its shares drawn. */
export function budgetTable(cell: StepCell, desk: Desk): Part {
  const state = desk.context().states.symbol(cell.symbol);
  const rows = state === undefined ? [] : presentBudget(state, desk.context());
  if (rows.length === 0) return nothing;
  const isCorrelated = rows.some(({ covarianceShare }) => covarianceShare !== undefined);
  const longest = Math.max(1, ...rows.flatMap(({ parts }) => [parts.own, Math.abs(parts.shared)]));
  return html`<div class="budget" tabindex="0" role="region" aria-label=${`Uncertainty budget of ${cell.label ?? cell.symbol}`}><table>
    <caption>Uncertainty budget</caption>
    <thead><tr><th scope="col">input</th><th scope="col">value</th><th scope="col">u</th><th scope="col">change per change</th>
      <th scope="col">contributes</th><th scope="col">share of the variance</th>${isCorrelated ? html`<th scope="col">by correlation</th>` : nothing}</tr></thead>
    <tbody>${rows.map((row) => budgetRow(row, longest, desk))}</tbody></table>${isCorrelated
      ? html`<p class="help">Some of these were read together or are stated to be correlated. What that adds to the variance, or takes from it, stands in the last column; both columns together make 100 %.</p>`
      : nothing}</div>`;
}

function budgetRow(row: PresentedBudgetRow, longest: number, desk: Desk): TemplateResult {
  return html`<tr><th scope="row"><span ${setEquation(row.inputTex)}></span><span class="words">${wordsOf(desk.context().states.definedBy(row.input) ?? row.input, desk)}</span></th>
    <td data-head="value">${raised(row.value)}</td><td data-head="u">${raised(row.uncertainty)}</td>
    <td data-head="change per change">${raised(row.sensitivity)}</td><td data-head="contributes">${raised(row.contribution)}</td>
    <td class="share" data-head="share of the variance">${bar(row.parts.own, longest)}${raised(row.share)}</td>${row.covarianceShare === undefined
      ? nothing
      : html`<td class="share" data-head="by correlation">${bar(row.parts.shared, longest)}${raised(row.covarianceShare)}</td>`}</tr>`;
}

/** Filled for what adds to the variance, hollow for what takes from it. */
function bar(fraction: number, longest: number): TemplateResult {
  return html`<span class="bar ${fraction < 0 ? 'takes' : ''}" style=${`--share: ${(Math.abs(fraction) / longest).toFixed(3)}`} aria-hidden="true"></span>`;
}
