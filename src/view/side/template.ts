import { nothing, type TemplateResult } from 'lit-html';
import { presentChain, presentChief, presentStanding, SLIP_MARK, type PresentedFollowing, type PresentedStanding } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { historyButtons, undoButton } from '../history-buttons.ts';
import { movedMark, raised, resultText, verdictMark, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { contentsTemplate } from './contents.ts';
import type { SideHands, SideUi } from './side-ui.ts';

/** Results that the line of a phone has room for. */
const MOST_IN_SHORT = 2;

/** All of it: the line of a narrow window, and the leaf that stands in the margin of a wide one. */
export function sideTemplate(desk: Desk, ui: SideUi, hands: SideHands, keeping: string): TemplateResult {
  const context = desk.context();
  const chief = presentChief(context);
  const standing = presentStanding(context);
  return html`<div class="side-line">
      <div class="in-short">${chief.slice(0, MOST_IN_SHORT).map((one) => shortResult(one, desk, hands))}</div>
      <span class="history">${undoButton(desk)}</span>
      <button type="button" class="unfold" aria-expanded=${String(ui.isUnfolded)} aria-controls="side-leaf"
        @click=${() => hands.change((one) => void (one.isUnfolded = !one.isUnfolded))}>contents</button>
    </div>
    <div class="side-leaf" id="side-leaf">
      ${chief.length === 0 ? nothing : html`<section class="what-follows" aria-labelledby="side-results">
        <h2 id="side-results">Results</h2>
        <ul>${chief.map((one) => resultNote(one, desk, hands))}</ul>
        ${chainPart(desk, ui, hands)}</section>`}
      <div class="standing">${standingLines(standing, hands)}
        ${keeping === '' ? nothing : html`<p class="kept">${keeping}</p>`}
        ${historyButtons(desk)}</div>
      ${contentsTemplate(desk, ui, hands)}
    </div>`;
}

/** A chief result: what it is called, its value, how sure it is, and how it moved. */
function resultNote(one: PresentedFollowing, desk: Desk, { go }: SideHands): TemplateResult {
  const { symbol, cellId, label } = one;
  return html`<li><span class="words" aria-hidden="true">${label}</span>
    <button type="button" class="to-line" @click=${() => go(cellId)}><span class="visually-hidden">${label}: </span>${equals(one)}</button>
    ${movedMark(desk.moved(symbol))}${sureness(one)}</li>`;
}

/** The same in two short lines, of which the second tells how it moved, or else how sure it is. */
function shortResult(one: PresentedFollowing, desk: Desk, { go }: SideHands): TemplateResult {
  const { symbol, cellId, label } = one;
  const moved = desk.moved(symbol);
  return html`<button type="button" class="to-line" @click=${() => go(cellId)}><span class="visually-hidden">${label}: </span>${equals(one)}
    <span class="second">${moved === undefined ? spread(one) : movedMark(moved)}</span></button>`;
}

/** Symbol and value; what is withheld says so. */
function equals({ symbolTex, result, withheld, isSlipped }: PresentedFollowing): TemplateResult {
  const value = withheld !== undefined ? html`<span class="withheld">${withheld}</span>`
    : result === undefined || result.kind === 'problem' ? html`<span class="no-value">no value yet</span>`
      : result.kind === 'range' ? html`<span class="range">${result.text}</span>`
        : html`<span class="value ${isSlipped ? 'slipped' : ''}"><span class="is">= </span>${resultText(result)}</span>`;
  return html`<span class="equals"><span class="symbol" ${setEquation(symbolTex)}></span> ${value}${isSlipped ? html`<span class="slip-sign"> ${SLIP_MARK}</span>` : nothing}</span>`;
}

function spread({ result }: PresentedFollowing): Part {
  if (result?.kind !== 'value') return nothing;
  if (result.spreadFactor !== undefined) return html`×/÷ ${raised(result.spreadFactor)}`;
  return result.uncertainty === undefined ? nothing : html`± ${raised(result.uncertainty)}`;
}

function sureness({ result, withheld }: PresentedFollowing): Part {
  if (withheld !== undefined || result?.kind !== 'value') return nothing;
  const { interval } = result;
  if (interval === undefined) return nothing;
  return html`<p class="sure">95 %: ${raised(interval.low)} … ${raised(interval.high)}</p>`;
}

/** The way from the blank that was edited or entered last to the results, a line for each result on it. */
function chainPart(desk: Desk, { source, isChainOpen }: SideUi, { change, go }: SideHands): Part {
  if (source === undefined) return nothing;
  const block = desk.block(source);
  if (block?.kind !== 'cell') return nothing;
  const name = 'symbol' in block.cell ? block.cell.symbol : (block.cell.label ?? source);
  return html`<button type="button" class="unfolder" aria-expanded=${String(isChainOpen)} title=${block.cell.label ?? nothing}
      @click=${() => change((one) => void (one.isChainOpen = !one.isChainOpen))}>the way from ${name}</button>
    ${isChainOpen ? html`<ol class="chain">${presentChain(source, desk.context()).map((one) => html`<li>
      <button type="button" class="to-line" title=${one.label} @click=${() => go(one.cellId)}><span class="visually-hidden">${one.label}: </span>${equals(one)}</button>${movedMark(desk.moved(one.symbol))}</li>`)}</ol>` : nothing}`;
}

/** What is open or does not hold, each a way to the next place. */
function standingLines({ failing, waiting, lists, openItems, items }: PresentedStanding, { goToNext }: SideHands): Part {
  const line = (cellIds: readonly string[], words: string, mark: Part = nothing): Part => (cellIds.length === 0 ? nothing : html`<li><button type="button" class="to-line"
    title="Go to the next one" @click=${() => goToNext(cellIds)}>${mark}${words}</button></li>`);
  const lines = [
    line(failing, failing.length === 1 ? '1 check does not hold' : `${failing.length} checks do not hold`, verdictMark(false)),
    line(waiting, waiting.length === 1 ? '1 check waits' : `${waiting.length} checks wait`),
    line(lists, `${openItems} of ${items} ticks open`),
  ].filter((one) => one !== nothing);
  return lines.length === 0 ? nothing : html`<ul>${lines}</ul>`;
}
