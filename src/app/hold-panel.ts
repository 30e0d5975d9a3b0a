import { nothing, svg, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { WEDGES, type HeldColumn, type HeldRow, type PresentedHeldTable } from '../report/index.ts';
import { entered, html } from '../view/index.ts';
import { focusUnfolder } from './folding.ts';
import type { HoldActions, HoldState, OtherSheet } from './hold-types.ts';

/** Holding the present state under a name, the list of what is held, and all of it side by side. */
export function holdTemplate(state: HoldState, others: readonly OtherSheet[], actions: HoldActions): TemplateResult {
  const { table, problems, notHeld, refused } = state;
  const held = table?.columns.filter(({ isPresent }) => !isPresent) ?? [];
  return html`<form class="hold-now" @submit=${(event: SubmitEvent) => holdNow(event, actions)}>
      <label for="hold-name">Hold what the sheet says now under the name</label>
      <input id="hold-name" name="name" type="text" class="blank" autocomplete="off" maxlength="60" aria-describedby=${refused.length === 0 ? 'hold-help' : 'hold-refused'}>
      <button type="submit">Hold</button>
    </form>
    ${refused.length === 0 ? nothing : html`<div class="refused" id="hold-refused" role="alert">${refused.map(({ from, problem }) => html`<p>${from === '' ? nothing : html`${from}: `}${problem.what} ${problem.mend}</p>`)}</div>`}
    <p class="help" id="hold-help">A held state keeps what stands in the blanks, the choices and the tables; its results follow the sheet’s formulas. Answers, ticks, photographs and the test record are not held: they are the same in every column.${notHeld.length === 0 ? nothing
      : ` Too long to be held, and so the same in every column too: ${notHeld.join('; ')}.`}</p>
    ${otherSheets(others, actions)}
    ${held.length === 0 ? nothing : html`<h2 id="held-list">Held</h2>
    <ul aria-labelledby="held-list" class="held-list">${held.map((column) => entryTemplate(column, actions))}</ul>`}
    ${problems.map(({ what, mend }) => html`<p class="refused">${what} ${mend}</p>`)}
    ${table === undefined ? nothing : html`<h2 id="held-side">Side by side</h2>${heldTable(table, actions)}${tableActions(state, actions)}`}`;
}

/** Another team's sheet as a held state: one kept in this browser, or a file. */
function otherSheets(others: readonly OtherSheet[], actions: HoldActions): TemplateResult {
  const choose = (event: Event): void => {
    const list = event.target as HTMLSelectElement;
    const { value } = list;
    list.value = '';
    if (value !== '') actions.holdOfSheet(value);
  };
  const bring = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const files = [...(input.files ?? [])];
    input.value = '';
    if (files.length > 0) void actions.holdOfFiles(files);
  };
  return html`<p class="held-actions">${others.length === 0 ? nothing : html`<label>Hold what another sheet says
      <select @change=${choose}><option value="">choose …</option>${others.map(({ id, label }) => html`<option value=${id}>${label}</option>`)}</select></label>`}
    <label class="bring-in">Hold what files say<input type="file" multiple accept=".md,.html,.htm,.txt,text/markdown,text/html" @change=${bring}></label></p>`;
}

function holdNow(event: SubmitEvent, actions: HoldActions): void {
  event.preventDefault();
  const field = (event.currentTarget as HTMLFormElement).querySelector('input');
  if (field === null) return;
  if (actions.hold(field.value)) field.value = '';
  field.focus();
}

function entryTemplate({ name, at, isReference }: HeldColumn, actions: HoldActions): TemplateResult {
  const rename = (event: Event): void => {
    const field = event.target as HTMLInputElement;
    actions.renameHeld(name, field.value);
  };
  const drop = (event: Event): void => {
    focusUnfolder('hold', event);
    actions.dropHeld(name);
  };
  return html`<li>
    <input type="text" class="blank" maxlength="60" autocomplete="off" aria-label=${composed`Name of the held state ${name}`} .value=${entered(name)} @change=${rename}
      @keydown=${(event: KeyboardEvent) => {
        if (event.key === 'Enter') rename(event);
      }}>
    ${at === undefined ? nothing : html`<span class="help">${at}</span>`}
    <button type="button" aria-pressed=${String(isReference)} aria-label=${composed`Compare with this: ${name}`} @click=${() => actions.compareWith(isReference ? undefined : name)}>Compare with this</button>
    <button type="button" aria-label=${composed`Go back to it: ${name}`} @click=${() => actions.goBackTo(name)}>Go back to it</button>
    <button type="button" aria-label=${composed`Drop ${name}`} @click=${drop}>Drop</button>
  </li>`;
}

function heldTable({ columns, inputs, results }: PresentedHeldTable, actions: HoldActions): TemplateResult {
  const head = ({ name, at, isReference }: HeldColumn): TemplateResult =>
    html`<th scope="col" class=${isReference ? 'reference' : nothing}>${name}${isReference ? ' (reference)' : nothing}${at === undefined ? nothing : html`<span class="when">${at}</span>`}</th>`;
  const row = (one: HeldRow, isResult: boolean): TemplateResult => html`<tr><th scope="row">${one.label}${isResult
    ? html` <button type="button" class="quiet" aria-label=${composed`leave out ${one.label}`} @click=${() => actions.showResult(one.symbol, false)}>leave out</button>` : nothing}</th>${one.cells.map(({ text, shift }, i) =>
    html`<td class=${columns[i]?.isReference === true ? 'reference' : nothing}>${text}${shift === undefined ? nothing
      : html`<span class="shift"><svg class="wedge" viewBox="0 0 12 11" aria-hidden="true">${svg`<path d=${WEDGES[shift.direction]}></path>`}</svg><span class="amount">${shift.text}</span></span>`}</td>`)}</tr>`;
  const part = (words: string, rows: readonly HeldRow[], isResult: boolean): TemplateResult | typeof nothing => (rows.length === 0 ? nothing
    : html`<tbody><tr class="rowgroup"><th scope="rowgroup" colspan=${columns.length + 1}>${words}</th></tr>${rows.map((one) => row(one, isResult))}</tbody>`);
  return html`<div class="held-table" tabindex="0" role="group" aria-labelledby="held-side"><table><thead><tr><td></td>${columns.map(head)}</tr></thead>
    ${inputs.length === 0 ? html`<tbody><tr class="rowgroup"><th scope="rowgroup" colspan=${columns.length + 1}>All inputs are the same.</th></tr></tbody>` : part('Inputs that differ', inputs, false)}
    ${part('Results', results, true)}</table></div>`;
}

function tableActions({ further }: HoldState, actions: HoldActions): TemplateResult {
  const add = (event: Event): void => {
    const list = event.target as HTMLSelectElement;
    const { value } = list;
    list.value = '';
    if (value !== '') actions.showResult(value, true);
  };
  return html`<p class="held-actions">${further.length === 0 ? nothing : html`<label>Show one more result
      <select @change=${add}><option value="">choose …</option>${further.map(({ symbol, label }) => html`<option value=${symbol}>${label}</option>`)}</select></label>`}
    <button type="button" @click=${actions.takeHeldTable}>Take the table away (CSV)</button></p>`;
}
