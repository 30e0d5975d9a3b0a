import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { nameParts,
  budgetCsv, budgetTable, hasBudget, isMovedBySlips, isSymbolHidden, presentBudget, restsOnTrial, SLIPS_IN_NAME, TRIALS_IN_NAME, type Folding, type PresentedBudget, type PresentedBudgetRow, type PresentedTotal,
} from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { part, partId, raised, type Part } from '../parts.ts';
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

/** Components unfold under their input, in the figure of a budget too. */
export function foldingOf({ symbol }: PresentedBudget, blockId: string, desk: Desk): Folding {
  // Of a given itself its components are all there is to be told.
  return (row) => (row.input === symbol || row.components.length === 0 ? { isOpen: true } : unfolding(row, `${symbol} ${row.input}`, blockId, desk));
}

function unfolding({ components, words }: PresentedBudgetRow, key: string, blockId: string, desk: Desk): ReturnType<Folding> {
  const isOpen = desk.ui(blockId).budget.unfolded.has(key);
  const toggle = (): void => desk.changeUi(blockId, ({ budget: { unfolded } }) => void (isOpen ? unfolded.delete(key) : unfolded.add(key)));
  const press = html`<button type="button" class="quiet unfold" aria-expanded=${String(isOpen)} @click=${toggle}>${components.length} parts<span class="visually-hidden"> of ${words}</span></button>`;
  return { isOpen, press: { hand: press } };
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
