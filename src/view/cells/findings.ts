import { nothing } from 'lit-html';
import { factList as factsSaid, presentFindings, smallTable as tableSaid, type PresentedFindings, type PresentedFit, type PresentedSmallTable } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { symbolsOfState } from '../lighting.ts';
import { note, part, partId, problemList, raised, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { budgetLines } from './budget.ts';
import { changeMarks } from './shift.ts';
import { tableHand } from './table-edit.ts';

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

export function smallTable(table: PresentedSmallTable, desk: Desk): Part {
  return part(tableSaid(table, (symbol) => ({ hand: changeMarks(symbol, desk) })));
}

/** Pairs of words; nothing where there are none. */
export function factList(facts: PresentedFit['facts']): Part {
  return part(factsSaid(facts));
}
