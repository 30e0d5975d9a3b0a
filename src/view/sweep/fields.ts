import type { TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import { contributingInput, inputsOf, type PresentContext } from '../../report/index.ts';
import type { GivenCell, StepCell } from '../../sheet/index.ts';
import { entered } from '../entered.ts';
import { html } from '../template.ts';

/** A blank of the form; what is typed counts once it is left, or with Enter. */
export function textField(words: string, value: string, take: (text: string) => void, enter?: () => void): TemplateResult {
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || event.isComposing) return;
    event.preventDefault();
    take(valueOf(event));
    enter?.();
  };
  return html`<label class="field"><span>${words}</span><input type="text" autocomplete="off" spellcheck="false" .value=${entered(value)}
    @change=${(event: Event) => take(valueOf(event))} @keydown=${press}></label>`;
}

export interface Choice {
  readonly value: string;
  readonly words: string;
}

export function choiceField(words: string, chosen: string, choices: readonly Choice[], take: (value: string) => void): TemplateResult {
  return html`<label class="field wide"><span>${words}</span><select .value=${live(chosen)} @change=${(event: Event) => take(valueOf(event))}>
    ${choices.map((choice) => html`<option value=${choice.value} ?selected=${choice.value === chosen}>${choice.words}</option>`)}</select></label>`;
}

export function namedCells(cells: readonly (GivenCell | StepCell)[]): readonly Choice[] {
  return cells.map(({ symbol, label }) => ({ value: symbol, words: label === undefined ? symbol : composed`${symbol}: ${label}` }));
}

/** The given that was chosen, else the one that most of the result's uncertainty comes from, else the first. */
export function chosenInput(cell: StepCell, chosen: string, context: PresentContext): GivenCell | undefined {
  const inputs = inputsOf(cell.symbol, context);
  return inputs.find(({ symbol }) => symbol === chosen) ?? contributingInput(cell.symbol, inputs, context) ?? inputs[0];
}

function valueOf(event: Event): string {
  return event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement ? event.target.value : '';
}
