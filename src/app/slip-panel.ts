import { html, nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { PresentedSlipEffect, SlipGroup } from '../report/index.ts';
import { focusUnfolder } from './folding.ts';
import type { HeadActions } from './head-state.ts';

/** The common mistakes that the sheet offers to show, by where they act, with what each would do alone. */
export function slipsTemplate(groups: readonly SlipGroup[], actions: HeadActions): TemplateResult {
  if (groups.length === 0) {
    return html`<p class="help">This sheet offers none. They stand in its text under <code>slips</code> of a given or a step, each with a formula that takes the right one’s place.</p>`;
  }
  const anyOn = groups.some(({ slips }) => slips.some(({ slip }) => slip.on));
  const allOff = (event: Event): void => {
    focusUnfolder('slips', event);
    actions.switchSlip(undefined, false);
  };
  return html`<p class="help">Common mistakes to switch on, to show what they do. Whatever they move is marked in the sheet and in all that is taken away; undo takes a switch back.
      Beside each stands what it would do alone.</p>
    ${anyOn ? html`<button type="button" @click=${allOff}>Switch all off</button>` : nothing}
    <div class="slip-groups">${groups.map(({ cellId, where, slips }) => html`<fieldset data-acts-at=${cellId}>
      <legend>${where}</legend>${slips.map((effect) => slipTemplate(effect, actions))}</fieldset>`)}</div>`;
}

function slipTemplate({ slip, effects }: PresentedSlipEffect, actions: HeadActions): TemplateResult {
  const id = `slip-${encodeURIComponent(slip.id)}`;
  return html`<div class="slip-entry ${slip.on ? 'on' : ''}">
    <label><input type="checkbox" data-slip=${slip.id} aria-describedby=${id} .checked=${live(slip.on)}
      @change=${(event: Event) => actions.switchSlip(slip.id, (event.target as HTMLInputElement).checked)}><span>${slip.label}${slip.on ? html` <strong>(on)</strong>` : nothing}</span></label>
    <p class="help" id=${id}>${effects.join('; ')}.</p>
    ${slip.note === undefined && slip.source === undefined ? nothing : html`<p class="help source">${slip.note ?? ''} ${slip.source === undefined ? nothing : html`(${slip.source})`}</p>`}
  </div>`;
}
