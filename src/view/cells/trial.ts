import { cellIn, cellsOf } from '../../sheet/index.ts';
import { nothing } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { definingCell, presentTrial, symbolOf, type PresentedTrial } from '../../report/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import type { Part } from '../parts.ts';
import { putBackTrials } from '../put-back.ts';
import { html } from '../template.ts';

/** Below a drawing: the trial values of its own givens. */
export function trialsBelow(symbols: readonly string[], desk: Desk): Part {
  const context = desk.context();
  const trials = [...new Set(symbols)].flatMap((symbol) => {
    const given = cellIn(definingCell(symbol, context), 'given');
    return (given && presentTrial(given, context)) ?? [];
  });
  if (trials.length === 0) return nothing;
  const words = trials.length === 1 ? 'Trial value' : 'Trial values';
  return html`<p class="trial-here">${words} ${trials.map(({ symbol, typed }, i) => html`${i === 0 ? '' : ', '}<span ${setEquation(symbolOf(symbol))}></span> = ${typed}`)}; what was measured stays. ${allBackButton(trials, desk)}</p>`;
}

/** Puts back what was measured, where one trial value stands. */
export function backButton(trial: PresentedTrial, desk: Desk): Part {
  return html`<button type="button" class="quiet put-back" aria-label=${composed`put back: ${trial.where}`} @click=${(event: Event) => pressed([trial], event, desk)}>put back</button>`;
}

export function allBackButton(trials: readonly PresentedTrial[], desk: Desk): Part {
  const words = trials.length === 1 ? 'put back' : 'put all back';
  return html`<button type="button" class="quiet put-back" @click=${(event: Event) => pressed(trials, event, desk)}>${words}</button>`;
}

/** The press goes with what it does: the focus stays at the line, or goes to the next press of the band. */
function pressed(trials: readonly PresentedTrial[], event: Event, desk: Desk): void {
  const line = event.currentTarget instanceof Element ? event.currentTarget.closest<HTMLElement>('.cell') : null;
  const next = (): HTMLElement | null => line ?? document.querySelector<HTMLElement>('.trial-band .put-back') ?? document.querySelector<HTMLElement>('.title-blank');
  desk.afterUpdate(() => requestAnimationFrame(() => next()?.focus({ preventScroll: true })));
  const ids = new Set(trials.map(({ cellId }) => cellId));
  putBackTrials(cellsOf(desk.context().document, 'given').filter(({ id }) => ids.has(id)), desk);
}
