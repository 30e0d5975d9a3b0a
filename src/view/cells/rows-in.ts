import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { repeat } from 'lit-html/directives/repeat.js';
import { proposeRowsIn, type RowsAnswer, type RowsIn } from '../../graph/index.ts';
import { presentRowsIn, type PresentedColumnIn, type PresentedRowsIn, type RowsChoice } from '../../report/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';

/** What the reader can say of rows that are looked at, and do with them. */
export interface RowsHand {
  readonly say: (answer: RowsAnswer) => void;
  /** Brings them in as it is said. */
  readonly take: () => void;
  /** Leaves the table as it is. */
  readonly leave: () => void;
}

/** Rows on their way into a table: how they are read and what becomes of them, before anything is changed. */
export function rowsInPart(id: string, source: RowsIn, cell: TableCell, hand: RowsHand): TemplateResult {
  const shown = presentRowsIn(source, proposeRowsIn(source, cell));
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    event.stopPropagation();
    hand.leave();
  };
  return html`<section class="rows-in" aria-labelledby=${`${id}-heading`} @keydown=${press}>
    <p class="heading" id=${`${id}-heading`} tabindex="-1">${shown.title}. <span class="help">Nothing is changed yet.</span></p>
    <div class="rows-in-whole">${choice(shown.between, hand)}${choice(shown.head, hand)}</div>
    <ol class="columns-in" aria-label="Columns of the text">${shown.columns.map((column) => columnLine(column, hand))}</ol>
    ${shown.rows.length === 0 ? nothing : firstRows(shown)}
    ${shown.questions.map(({ sentence, presses }) => html`<p class="asked">${sentence} ${presses.map(({ words, answer }) =>
      html`<button type="button" class="quiet" @click=${() => hand.say(answer)}>${words}</button> `)}</p>`)}
    <div class="rows-in-whole">${shown.how === undefined ? nothing : choice(shown.how, hand)}${shown.again === undefined ? nothing : choice(shown.again, hand)}</div>
    <p class="becomes" role="status">${shown.sentences.join(' ')}</p>
    <p class="rows-in-presses">${shown.press === undefined
      ? shown.openQuestions === 0 ? nothing : html`<span class="asked">${shown.openQuestions === 1 ? 'One question is open.' : `${shown.openQuestions} questions are open.`}</span>`
      : html`<button type="button" class="act" @click=${hand.take}>${shown.press}</button>`}
      <button type="button" class="quiet" @click=${hand.leave}>leave the table as it is</button></p></section>`;
}

function columnLine({ name, examples, target, readings }: PresentedColumnIn, hand: RowsHand): TemplateResult {
  return html`<li class=${readings.some(({ isAsked }) => isAsked) ? 'is-asked' : nothing}>
    <p class="column-in"><span class="column-name">${name}</span> <span class="help">${examples}</span></p>
    ${choice(target, hand)}
    ${readings.map(({ sentence, isAsked, choice: one }) => html`<div class="reading">
      ${one === undefined ? nothing : choice(one, hand)}${sentence === '' ? nothing : html`<p class=${isAsked ? 'asked' : 'help'}>${sentence}</p>`}</div>`)}</li>`;
}

/** What was chosen stays with its option, also where “choose” falls away above it. */
function choice({ label, seen = label, chosen, choices, answer }: RowsChoice, { say }: RowsHand): TemplateResult {
  const take = ({ target }: Event): void => {
    if (target instanceof HTMLSelectElement && target.value !== '') say(answer(target.value));
  };
  return html`<label class="choice-in"><span aria-hidden="true">${seen}</span><select class="blank" aria-label=${label}
    @change=${take}>${repeat(choices, ({ value }) => value, ({ value, words: said }) => html`<option value=${value} .selected=${live(value === chosen)}>${said}</option>`)}</select></label>`;
}

function firstRows({ heads, rows, more }: PresentedRowsIn): Part {
  return html`<div class="ruled" tabindex="0" role="group" aria-label="The first rows as they would be read"><table>
    <caption>The first rows as they would be read</caption>
    <thead><tr>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
    <tbody>${rows.map((fields) => html`<tr>${fields.map((field) => html`<td>${field}</td>`)}</tr>`)}</tbody></table></div>
    ${more > 0 ? html`<p class="help">${more} more ${more === 1 ? 'row' : 'rows'}.</p>` : nothing}`;
}
