import { nothing } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../../core/problem/index.ts';
import { kindsAt } from '../../graph/index.ts';
import { choiceTemplate, presentChoice, type PresentedChoice } from '../../report/index.ts';
import type { ChoiceCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { confirmButton } from '../cells/origin.ts';
import { chooseMaterial, offeredMaterials, ownMaterial } from '../cells/own-material.ts';
import { ownOption } from '../cells/own-option.ts';
import { hand, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** So many options still read well as a list of buttons to choose from. */
const MOST_RADIOS = 3;

export function choiceParts(cell: ChoiceCell, desk: Desk): LineParts {
  const choice = presentChoice(cell, desk.context());
  const options = choice.options.length <= MOST_RADIOS ? radios(cell, choice, desk) : select(cell, choice, desk);
  return templateParts(cell.id, choiceTemplate(cell, choice, { options: hand(options), ownOption: hand(kindsAt(cell).length > 0 ? ownMaterial(cell, desk) : ownOption(cell, desk)), confirm: hand(confirmButton(cell, choice.label, desk)) }), desk.ui(cell.id).refused);
}

function choose(cell: ChoiceCell, key: string, desk: Desk): void {
  const kept = offeredMaterials(cell, desk).find(({ value }) => value === key);
  if (kept !== undefined) {
    chooseMaterial(kept.material, cell, desk);
    return;
  }
  desk.apply({ do: 'choose', cellId: cell.id, option: key }, cell.id);
  desk.settle();
}

function select(cell: ChoiceCell, choice: PresentedChoice, desk: Desk): Part {
  const id = partId(cell.id, 'select');
  const known = choice.chosenLabel !== undefined;
  const kept = offeredMaterials(cell, desk);
  return html`<div class="form-line"><label class="label" for=${id}>${choice.label}</label>
    <div class="blanks"><select class="blank" id=${id} aria-describedby=${choice.problems.length > 0 ? partId(cell.id, 'problem') : nothing} .value=${live(cell.chosen)}
      @change=${(event: Event) => event.target instanceof HTMLSelectElement && choose(cell, event.target.value, desk)}>
      ${known ? nothing : html`<option value=${cell.chosen} selected>${cell.chosen === '' ? 'choose one' : composed`${cell.chosen} (not here)`}</option>`}
      ${choice.options.map(({ key, label, chosen }) => html`<option value=${key} ?selected=${chosen}>${label}</option>`)}
      ${kept.length === 0 ? nothing : html`<optgroup label="Your own, kept in this browser">${kept.map(({ value, label }) => html`<option value=${value}>${label}</option>`)}</optgroup>`}
    </select></div></div>`;
}

function radios(cell: ChoiceCell, choice: PresentedChoice, desk: Desk): Part {
  return html`<fieldset class="options"><legend class="label">${choice.label}</legend>
    ${choice.options.map(({ key, label, chosen }) => html`<label class="option"><input type="radio" name=${partId(cell.id, 'option')} value=${key}
      .checked=${live(chosen)} @change=${() => choose(cell, key, desk)}><span>${label}</span></label>`)}</fieldset>`;
}
