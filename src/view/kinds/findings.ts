import { nothing } from 'lit-html';
import { findingsTemplate, presentFindings, type PresentedBench, type PresentedFindings } from '../../report/index.ts';
import { cellIn, type FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { symbolsOfState } from '../lighting.ts';
import { hand, movedMark, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { budgetLines } from '../cells/budget.ts';
import { tableHand } from '../cells/table-edit.ts';

/** What a fit says that finds no line. */
export function findingsParts(cell: FitCell, desk: Desk): LineParts {
  const context = desk.context();
  const found = presentFindings(cell, context);
  const template = findingsTemplate(cell, found, context, {
    moved: (symbol) => hand(movedMark(desk.moved(symbol))),
    ...(found.bench === undefined ? {} : { bench: hand(benchPart(cell.id, found.bench, found.suggestedRow, desk)) }),
    ...(found.suggestedRow === undefined ? {} : { goOn: hand(goOnButton(found.suggestedRow, desk)) }),
    budgets: hand(budgetLines(cell.id, symbolsOfState(context.states.cell(cell.id)), desk)),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function goOnButton({ tableId, column, text, label }: NonNullable<PresentedFindings['suggestedRow']>, desk: Desk): Part {
  const table = cellIn(desk.block(tableId), 'table');
  if (table === undefined) return nothing;
  const hand = tableHand(table, desk);
  return html`<div class="line-actions"><button type="button" class="quiet" @click=${() => hand.goOn(column, text)}>${label}</button></div>`;
}

/** The level in large letters, and under it how the test can end, each by one press. */
function benchPart(id: string, { tableId, name, level, asks, outcomes, column, row }: PresentedBench, next: PresentedFindings['suggestedRow'], desk: Desk): Part {
  const table = cellIn(desk.block(tableId), 'table');
  const of = row !== undefined ? { row } : next !== undefined ? { level: { column: next.column, text: next.text } } : undefined;
  if (table === undefined || of === undefined) return nothing;
  const hand = tableHand(table, desk);
  const asksId = partId(id, 'outcome');
  return html`<div class="bench"><p role="status"><span class="name">${name}</span> <strong class="level">${level}</strong></p>
    <p id=${asksId}>${asks}</p>
    <p class="words" role="group" aria-labelledby=${asksId}>${outcomes.map((outcome) =>
      html`<button type="button" class="word-press" @click=${() => hand.ended({ column, outcome, ...of })}>${outcome}</button>`)}</p></div>`;
}
