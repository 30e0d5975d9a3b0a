import { nothing } from 'lit-html';
import { hasBudget, isSymbolHidden } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { panels } from '../panels-at-hand.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';

/** Opens the budgets of what a cell gives the sheet; nothing where none would say anything. */
export function budgetOpener(blockId: string, symbols: readonly string[], desk: Desk): Part {
  if (budgetSymbols(symbols, desk).length === 0) return nothing;
  const isOpen = desk.ui(blockId).open.has('budget');
  const toggle = (): void => desk.withPanels(() => desk.changeUi(blockId, ({ open }) => void (open.has('budget') ? open.delete('budget') : open.add('budget'))));
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
  return panels.use().budgetPanels(budgetSymbols(symbols, desk), blockId, desk);
}

function budgetSymbols(symbols: readonly string[], desk: Desk): readonly string[] {
  const context = desk.context();
  return symbols.filter((symbol) => !isSymbolHidden(symbol, context) && hasBudget(symbol, context));
}
