import { nothing } from 'lit-html';
import { presentFindings, type PresentedFindings, type PresentedFit, type PresentedHead, type PresentedSmallTable } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { symbolsOfState } from '../lighting.ts';
import { note, partId, problemList, raised, type Part } from '../parts.ts';
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

/** A small table of results with its caption above and its note below. A table too wide scrolls, also by keyboard. */
export function smallTable({ caption, heads, rows, note: below }: PresentedSmallTable, desk: Desk): Part {
  return html`<div class="ruled" tabindex="0" role="group" aria-label=${caption}><table><caption>${raised(caption)}</caption>
    <thead><tr>${heads.map((head, i) => html`<th scope="col" class=${i > 0 ? 'figures' : nothing}>${headPart(head)}</th>`)}</tr></thead>
    <tbody>${rows.map((row) => html`<tr><th scope="row">${headPart(row.head)}${row.symbol === undefined ? nothing : changeMarks(row.symbol, desk)}</th>${row.cells.map((text) => html`<td class="figures">${raised(text)}</td>`)}</tr>`)}</tbody></table></div>
    ${below === undefined ? nothing : html`<p class="limits">${raised(below)}</p>`}`;
}

/** A symbol is said by its name: a heading that is nothing but an equation counts as empty. */
function headPart(head: PresentedHead): Part {
  return 'tex' in head ? html`<span class="visually-hidden">${head.tex}</span><span aria-hidden="true" ${setEquation(head.tex)}></span>` : html`${raised(head.text)}`;
}

/** Pairs of words; nothing where there are none. */
export function factList(facts: PresentedFit['facts']): Part {
  return facts.length === 0 ? nothing : html`<dl class="facts">${facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${raised(text)}</dd></div>`)}</dl>`;
}
