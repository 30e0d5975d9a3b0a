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
  return html`<div class="budget" tabindex="0" role="region" aria-label=${`Uncertainty budget of ${cell.label ?? cell.symbol}`}><table>
    <caption>Uncertainty budget</caption>
    <thead><tr><th scope="col">input</th><th scope="col">value</th><th scope="col">u</th><th scope="col">change per change</th>
      <th scope="col">contributes</th><th scope="col">share of the variance</th></tr></thead>
    <tbody>${rows.map((row) => budgetRow(row, desk))}</tbody></table></div>`;
}

/** The drawn length of a share such as `73 %`; what is written with a power of ten is too little to draw. */
function percentOf(share: string): number {
  const number = Number.parseFloat(share);
  return share.includes('·') || !(number > 0) ? 0 : Math.min(100, number);
}

function budgetRow(row: PresentedBudgetRow, desk: Desk): TemplateResult {
  const percent = percentOf(row.share);
  return html`<tr><th scope="row"><span ${setEquation(row.inputTex)}></span><span class="visually-hidden">${wordsOf(desk.context().states.definedBy(row.input) ?? row.input, desk)}</span></th><td>${raised(row.value)}</td><td>${raised(row.uncertainty)}</td>
    <td>${raised(row.sensitivity)}</td><td>${raised(row.contribution)}</td>
    <td class="share"><span class="bar" style=${`--share: ${percent}%`} aria-hidden="true"></span>${raised(row.share)}</td></tr>`;
}
