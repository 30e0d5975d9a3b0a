import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import {
  budgetCsv, hasBudget, isMovedBySlips, isSymbolHidden, presentBudget, restsOnTrial, SLIPS_IN_NAME, TRIALS_IN_NAME, type PresentedBudget, type PresentedBudgetRow,
  type PresentedComponent, type PresentedTotal,
} from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { partId, raised, type Part } from '../parts.ts';
import { fileName, saveFile } from '../save-file.ts';
import { html } from '../template.ts';
import { whatItTakes } from './what-it-takes.ts';

/** Levels of confidence that the trade asks for. */
const LEVELS: readonly number[] = [0.9, 0.95, 0.99];

/** Opens the budgets of what a cell gives the sheet; nothing where none would say anything. */
export function budgetOpener(blockId: string, symbols: readonly string[], desk: Desk): Part {
  if (budgetSymbols(symbols, desk).length === 0) return nothing;
  const isOpen = desk.ui(blockId).open.has('budget');
  const toggle = (): void => desk.changeUi(blockId, ({ open }) => void (open.has('budget') ? open.delete('budget') : open.add('budget')));
  return html`<button type="button" class="quiet" aria-expanded=${String(isOpen)} @click=${toggle}>uncertainty budget</button>`;
}

/** The opener on a line of its own, and what it opens: for a cell that is no step. */
export function budgetLines(blockId: string, symbols: readonly string[], desk: Desk): Part {
  const opener = budgetOpener(blockId, symbols, desk);
  return opener === nothing ? nothing : html`<div class="line-actions">${opener}</div>${openedBudgets(blockId, symbols, desk)}`;
}

/** The budgets themselves, once they have been opened. */
export function openedBudgets(blockId: string, symbols: readonly string[], desk: Desk): Part {
  if (!desk.ui(blockId).open.has('budget')) return nothing;
  return html`${budgetSymbols(symbols, desk).map((symbol) => budgetPart(symbol, blockId, desk))}`;
}

function budgetSymbols(symbols: readonly string[], desk: Desk): readonly string[] {
  const context = desk.context();
  return symbols.filter((symbol) => !isSymbolHidden(symbol, context) && hasBudget(symbol, context));
}

function budgetPart(symbol: string, blockId: string, desk: Desk): Part {
  const { level } = desk.ui(blockId).budget;
  const budget = presentBudget(symbol, desk.context(), level);
  if (budget === undefined) return nothing;
  return html`<div class="budget">
    ${foldableBudget(budget, blockId, desk)}
    ${totalLine(budget.total, levelChoice(blockId, level, desk))}
    <p class="line-actions"><button type="button" class="quiet" @click=${() => takeAway(symbol, desk)}>take the budget away as a table</button></p>
    ${whatItTakes(budget, blockId, desk)}</div>`;
}

function takeAway(symbol: string, desk: Desk): void {
  const context = desk.context();
  const csv = budgetCsv(symbol, context);
  if (csv === undefined) return;
  const isTried = restsOnTrial(context.states.definedBy(symbol) ?? '', context);
  const name = ['budget of', symbol, isTried ? TRIALS_IN_NAME : undefined, isMovedBySlips(symbol, context) ? SLIPS_IN_NAME : undefined];
  saveFile(fileName(name, 'csv'), csv, 'text/csv;charset=utf-8');
}

/** The table alone, as the figure of a budget shows it too; components unfold under their input. */
export function foldableBudget(budget: PresentedBudget, blockId: string, desk: Desk): TemplateResult {
  const longest = Math.max(1, ...budget.rows.flatMap(({ parts }) => [parts.own, Math.abs(parts.shared)]));
  return html`<div class="budget-table" tabindex="0" role="group" aria-label=${`Uncertainty budget of ${budget.symbol}`}><table>
    <caption>Uncertainty budget of <span ${setEquation(budget.symbolTex)}></span></caption>
    <thead><tr><th scope="col">input</th><th scope="col">value, u</th><th scope="col">type, distribution, ν</th><th scope="col">sensitivity</th><th scope="col">contributes</th><th scope="col">share of variance</th>${budget.isCorrelated
        ? html`<th scope="col">by correlation</th>` : nothing}</tr></thead>
    <tbody>${budget.rows.map((row) => html`${inputRow(row, budget, longest, unfoldButton(row, budget, blockId, desk))}${componentRows(row, budget, blockId, desk)}`)}</tbody></table></div>
    ${budget.isCorrelated ? html`<p class="help">Some of these were read together or are stated to be correlated. What that adds to the variance, or takes from it, stands in the last column; both columns together make 100 %.</p>` : nothing}
    ${budget.exact.length === 0 ? nothing : html`<p class="help">Without any uncertainty, and so taken as exactly known: ${budget.exact.map((tex, i) => html`${i > 0 ? ', ' : ''}<span ${setEquation(tex)}></span>`)}.</p>`}`;
}

function inputRow(row: PresentedBudgetRow, { symbolTex }: PresentedBudget, longest: number, beside: Part): TemplateResult {
  const derivative = `\\frac{\\partial ${symbolTex}}{\\partial ${row.inputTex}}`;
  return html`<tr><th scope="row"><span ${setEquation(row.inputTex)}></span><span class="words">${row.words}</span>${beside}</th>
    <td data-head="value, u"><span>${raised(row.value)}</span><span class="u">u = ${raised(row.uncertainty)}</span></td>
    <td class="type" data-head="type, distribution, ν"><span>${kind(row.type, row.distribution, row.degreesOfFreedom)}</span></td>
    <td data-head="sensitivity">${row.sensitivityTex === undefined ? nothing : html`<span class="derivative" ${setEquation(`${derivative} = ${row.sensitivityTex}`)}></span>`}<span>${raised(row.sensitivity)}</span></td>
    <td data-head="contributes"><span>${raised(row.contribution)}</span></td>
    <td class="share" data-head="share of the variance">${bar(row.parts.own, longest)}<span>${raised(row.share)}</span></td>${row.covarianceShare === undefined
      ? nothing
      : html`<td class="share" data-head="by correlation">${bar(row.parts.shared, longest)}<span>${raised(row.covarianceShare)}</span></td>`}</tr>`;
}

/** `B, rectangular, ν = ∞`; several components have a distribution each. */
function kind(type: string, distribution: string | undefined, degreesOfFreedom: string): TemplateResult {
  return html`${type}${distribution === undefined ? nothing : html`, ${distribution}`}, <span class="freedom">ν = ${degreesOfFreedom}</span>`;
}

function unfoldButton({ input, components, words }: PresentedBudgetRow, { symbol }: PresentedBudget, blockId: string, desk: Desk): Part {
  if (components.length === 0 || input === symbol) return nothing;
  const key = `${symbol} ${input}`;
  const isOpen = desk.ui(blockId).budget.unfolded.has(key);
  const toggle = (): void => desk.changeUi(blockId, ({ budget: { unfolded } }) => void (isOpen ? unfolded.delete(key) : unfolded.add(key)));
  return html`<button type="button" class="quiet unfold" aria-expanded=${String(isOpen)} @click=${toggle}>${components.length} parts<span class="visually-hidden"> of ${words}</span></button>`;
}

function componentRows({ input, components }: PresentedBudgetRow, { symbol, isCorrelated }: PresentedBudget, blockId: string, desk: Desk): Part {
  // Of a given itself its components are all there is to be told.
  if (input !== symbol && !desk.ui(blockId).budget.unfolded.has(`${symbol} ${input}`)) return nothing;
  return html`${components.map((component) => componentRow(component, isCorrelated))}`;
}

function componentRow(component: PresentedComponent, isCorrelated: boolean): TemplateResult {
  return html`<tr class="component"><th scope="row">${component.source}</th><td data-head="uncertainty"><span class="u">u = ${raised(component.uncertainty)}</span></td>
    <td class="type" data-head="type, distribution, ν"><span>${kind(component.type, component.distribution, component.degreesOfFreedom)}</span></td><td class="empty"></td>
    <td data-head="contributes"><span>${raised(component.contribution)}</span></td>
    <td class="share" data-head="share of the variance">${bar(component.part, 1)}<span>${raised(component.share)}</span></td>${isCorrelated ? html`<td class="empty"></td>` : nothing}</tr>`;
}

/** What the parts come to, as the last line of a budget. */
function totalLine(total: PresentedTotal, level: Part): TemplateResult {
  const { uncertainty, relative, degreesOfFreedom, factor, expanded } = total;
  return html`<dl class="budget-total">
    <div><dt>combined standard uncertainty</dt><dd>${raised(uncertainty)}${relative === undefined ? nothing : html` (${relative})`}</dd></div>
    <div><dt>effective degrees of freedom</dt><dd>${degreesOfFreedom ?? 'not claimed: inputs are correlated'}</dd></div>
    <div><dt>level of confidence</dt><dd>${level}</dd></div>
    <div><dt>expanded uncertainty</dt><dd>${raised(expanded)} <span class="coverage">(k = ${factor})</span></dd></div></dl>`;
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

/** Filled for what adds to the variance, hollow for what takes from it. */
function bar(fraction: number, longest: number): TemplateResult {
  return html`<span class="bar ${fraction < 0 ? 'takes' : ''}" style=${`--share: ${(Math.abs(fraction) / longest).toFixed(3)}`} aria-hidden="true"></span>`;
}
