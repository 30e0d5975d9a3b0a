import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { PresentedSlipEffect, SlipGroup } from '../report/index.ts';
import { html } from '../view/index.ts';
import { focusUnfolder } from './folding.ts';
import type { HeadActions, HeadState } from './head-state.ts';

/** The common mistakes that the sheet offers to show, by where they act, with what each would do alone. */
export function slipsTemplate({ slips: groups, slipsOn }: HeadState, actions: HeadActions): TemplateResult {
  if (groups.length === 0) {
    return html`<p class="help">This sheet offers no slips. They can be added in its text: under <code>slips</code> of a given or a step, each with the formula that takes the place of the right one.</p>`;
  }
  const allOff = (event: Event): void => {
    focusUnfolder('slips', event);
    actions.switchSlip(undefined, false);
  };
  const usual = commonestSource(groups);
  return html`<p class="help">Common mistakes to switch on, to show what they do. Whatever they move is marked in the sheet and in all that is taken away; undo switches back.
      Below each stands what it would do alone.${usual === undefined ? nothing : html` Where no other source is told: ${usual}.`}</p>
    ${slipsOn.length > 0 ? html`<button type="button" @click=${allOff}>Switch all off</button>` : nothing}
    <div class="slip-groups">${groups.map(({ cellId, where, slips }) => html`<fieldset data-acts-at=${cellId}>
      <legend>${where}</legend>${slips.map((effect) => slipTemplate(effect, slipsOn.includes(effect.slip.id), usual, actions))}</fieldset>`)}</div>`;
}

/** What most of them share is said once. */
function commonestSource(groups: readonly SlipGroup[]): string | undefined {
  const counts = new Map<string, number>();
  for (const { slip } of groups.flatMap(({ slips }) => slips)) if (slip.source !== undefined) counts.set(slip.source, (counts.get(slip.source) ?? 0) + 1);
  return [...counts].toSorted(([, a], [, b]) => b - a)[0]?.[0];
}

function slipTemplate({ slip, effects }: PresentedSlipEffect, isOn: boolean, usual: string | undefined, actions: HeadActions): TemplateResult {
  const source = slip.source === usual ? undefined : slip.source;
  const id = `slip-${encodeURIComponent(slip.id)}`;
  return html`<div class="slip-entry ${isOn ? 'on' : ''}">
    <label><input type="checkbox" data-slip=${slip.id} aria-describedby=${id} .checked=${live(isOn)}
      @change=${(event: Event) => actions.switchSlip(slip.id, (event.target as HTMLInputElement).checked)}><span>${slip.label}${isOn ? html` <strong>(on)</strong>` : nothing}</span></label>
    <p class="help" id=${id}>${effects.join('; ')}.</p>
    ${slip.note === undefined && source === undefined ? nothing : html`<p class="help source">${slip.note ?? ''} ${source === undefined ? nothing : html`(${source})`}</p>`}
  </div>`;
}
