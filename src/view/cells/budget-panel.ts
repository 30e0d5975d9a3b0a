import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import {
  budgetCsv, budgetTable, isMovedBySlips, nameParts, presentBudget, restsOnTrial, SLIPS_IN_NAME, TRIALS_IN_NAME, type PresentedTotal,
} from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { part, partId, raised, type Part } from '../parts.ts';
import { fileName, saveFile } from '../save-file.ts';
import { html } from '../template.ts';
import { foldingOf } from './budget-folding.ts';
import { whatItTakes } from './what-it-takes.ts';

/** Levels of confidence that the trade asks for. */
const LEVELS: readonly number[] = [0.9, 0.95, 0.99];

/** The budgets of what a cell gives the sheet. */
export function budgetPanels(symbols: readonly string[], blockId: string, desk: Desk): Part {
  return html`${symbols.map((symbol) => budgetPart(symbol, blockId, desk))}`;
}

function budgetPart(symbol: string, blockId: string, desk: Desk): Part {
  const { level } = desk.ui(blockId).budget;
  const budget = presentBudget(symbol, desk.context(), level);
  if (budget === undefined) return nothing;
  return html`<div class="budget">
    ${part(budgetTable(budget, foldingOf(budget, blockId, desk)))}
    ${totalLine(budget.total, levelChoice(blockId, level, desk))}
    <p class="line-actions"><button type="button" class="quiet" @click=${() => takeAway(symbol, desk)}>take the budget away as a table</button></p>
    ${whatItTakes(budget, blockId, desk)}</div>`;
}

function takeAway(symbol: string, desk: Desk): void {
  const context = desk.context();
  const csv = budgetCsv(symbol, context);
  if (csv === undefined) return;
  const isTried = restsOnTrial(context.states.definedBy(symbol) ?? '', context);
  const name = [...nameParts(context.document), 'budget of', symbol, isTried ? TRIALS_IN_NAME : undefined, isMovedBySlips(symbol, context) ? SLIPS_IN_NAME : undefined];
  saveFile(fileName(name, 'csv'), csv, 'text/csv;charset=utf-8');
}

/** What the parts come to, as the last line of a budget. */
function totalLine(total: PresentedTotal, level: Part): TemplateResult {
  const { uncertainty, relative, degreesOfFreedom, factor, expanded } = total;
  return html`<dl class="budget-total">
    <div><dt>Combined standard uncertainty</dt><dd>${raised(uncertainty)}${relative === undefined ? nothing : html` (${relative})`}</dd></div>
    <div><dt>Effective degrees of freedom</dt><dd>${degreesOfFreedom ?? 'not claimed: a correlation is stated'}</dd></div>
    <div><dt>Level of confidence</dt><dd>${level}</dd></div>
    <div><dt>Expanded uncertainty</dt><dd>${raised(expanded)} <span class="coverage">(k = ${factor})</span></dd></div></dl>`;
}

function levelChoice(blockId: string, level: number, desk: Desk): TemplateResult {
  const choose = (event: Event): void => {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const chosen = Number(event.target.value);
    desk.changeUi(blockId, ({ budget }) => void (budget.level = chosen));
  };
  return html`<select aria-label="level of confidence" id=${partId(blockId, 'level')} .value=${live(String(level))} @change=${choose}>${LEVELS.map((one) =>
    html`<option value=${String(one)} ?selected=${one === level}>${Math.round(100 * one)} %</option>`)}</select>`;
}
