import { nothing } from 'lit-html';
import { presentFindings, type PresentedFindings } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { symbolsOfState } from '../lighting.ts';
import { note, partId, problemList, raised, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { budgetLines } from '../cells/budget.ts';
import { factList, smallTable } from '../cells/small-table.ts';
import { tableHand } from '../cells/table-edit.ts';

/** What a fit says that finds no line: a sentence, small tables, further sentences, facts. */
export function findingsParts(cell: FitCell, desk: Desk): { line: Part; margin: Part } {
  const found = presentFindings(cell, desk.context());
  const [first, ...others] = found.sentences;
  return {
    line: html`${found.label === '' ? nothing : html`<p class="label">${found.label}</p>`}
      ${found.advice === undefined ? nothing : html`<p class="advice">${raised(found.advice)}</p>`}
      ${found.suggestedRow === undefined ? nothing : goOnButton(found.suggestedRow, desk)}
      ${first === undefined ? nothing : html`<p class="method">${raised(first)}</p>`}
      ${found.tables.map((table) => smallTable(table, desk))}
      ${others.map((sentence) => html`<p class="says">${raised(sentence)}</p>`)}
      ${factList(found.facts)}
      ${budgetLines(cell.id, symbolsOfState(desk.context().states.cell(cell.id)), desk)}
      ${problemList(found, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${found.settings.map((setting) => html`<p class="setting">${setting}</p>`)}
      ${note(found.note)}`,
  };
}

function goOnButton({ tableId, column, text, label }: NonNullable<PresentedFindings['suggestedRow']>, desk: Desk): Part {
  const block = desk.block(tableId);
  if (block?.kind !== 'cell' || block.cell.kind !== 'table') return nothing;
  const hand = tableHand(block.cell, desk);
  return html`<div class="line-actions"><button type="button" class="quiet" @click=${() => hand.goOn(column, text)}>${label}</button></div>`;
}
