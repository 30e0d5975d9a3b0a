import { nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import { askedIn, titlesIn, unansweredIn, worth, type Only } from '../returns/index.ts';
import { entered, html } from '../view/index.ts';
import { besideTable } from './collect-beside.ts';
import { gatheredWords, shownSheets, titled } from './collect-desk.ts';
import { classTemplate } from './collect-class.ts';
import { collectTable } from './collect-table.ts';
import type { CollectActions, CollectState, CollectView } from './collect-types.ts';
import { chooseReturned } from './choose-returned.ts';

const VIEWS: Readonly<Record<CollectView, string>> = { answers: 'Own results', measured: 'Measured', checks: 'Checks and tests', points: 'Points', class: 'The class' };

const ONLY: Readonly<Record<Only, string>> = {
  all: 'all', 'something wrong': 'with something wrong', 'something open': 'with something open', 'carried forward': 'with something carried forward',
  'a check that does not hold': 'with a check that does not hold', altered: 'altered after they were taken away',
};

/** A class's returned files: what came, the table, and one sheet beside it. Drawn anew only when something of it has changed. */
export function collectTemplate(state: CollectState, actions: CollectActions): unknown {
  return guard([state], () => template(state, actions));
}

function template(state: CollectState, actions: CollectActions): TemplateResult {
  const { gathered: { sheets, refused }, reading, beside } = state;
  const all = titled(state);
  const shown = shownSheets(state);
  const laid = shown.find(({ id }) => id === beside);
  return html`<h2 class="collect-head" tabindex="-1">Returned files</h2>
    <p class="collect-came"><span role="status">${gatheredWords(state)}</span> ${chooseReturned('Add files', actions)}
      ${sheets.length === 0 || reading !== undefined ? nothing : html`<button type="button" @click=${actions.takeTable}>Take the table away (CSV)</button> <button type="button" @click=${actions.clear}>Put all of it away</button>`}</p>
    ${refused.length === 0 ? nothing : html`<details class="collect-refused" open><summary>Could not be read</summary><ul>${refused.map(({ name, reason }) => html`<li><span class="collect-what">${name}</span> <span>${reason}</span></li>`)}</ul></details>`}
    ${sheets.length === 0 || reading !== undefined ? nothing : html`${choices(state, actions)}
    ${state.view === 'points' ? schemeTemplate(state, actions) : nothing}
    <p class="help">${[shown.length === all.length ? '' : `${shown.length} of ${all.length} sheets shown.`, unansweredWords(state, unansweredIn(all).length)].filter((part) => part !== '').join(' ')}</p>
    <p role="status">${state.said}</p>
    <div class=${laid === undefined ? 'collect-both' : 'collect-both collect-two'}>${state.view === 'class' ? classTemplate(state, actions) : collectTable({ ...state, view: state.view }, shown, actions)}${laid === undefined ? nothing : besideTable(laid, actions)}</div>`}`;
}

function unansweredWords({ view }: CollectState, count: number): string {
  if (count === 0 || (view !== 'answers' && view !== 'points')) return '';
  return count === 1 ? 'One step that is asked and that nobody has answered is not shown and counts for nothing.' : `${count} steps that are asked and that nobody has answered are not shown and count for nothing.`;
}

function choices({ gathered: { sheets }, title, view, look }: CollectState, actions: CollectActions): TemplateResult {
  const titles = titlesIn(sheets);
  const chosen = (event: Event): string => (event.target as HTMLSelectElement).value;
  return html`<p class="collect-choices">
    ${titles.length < 2 ? nothing : html`<label>Sheets called <select @change=${(event: Event) => actions.chooseTitle(chosen(event))}>${titles.map((one) => html`<option value=${one} ?selected=${one === title}>${one === '' ? 'without a title' : one}</option>`)}</select></label>`}
    <span role="group" aria-label="Shown of each sheet">${(Object.keys(VIEWS) as readonly CollectView[]).map((one) => html`<button type="button" aria-pressed=${String(one === view)} @click=${() => actions.chooseView(one)}>${VIEWS[one]}</button> `)}</span>
    <label>Sheets <select @change=${(event: Event) => actions.look({ only: chosen(event) as Only })}>${(Object.keys(ONLY) as readonly Only[]).map((one) => html`<option value=${one} ?selected=${one === look.only}>${ONLY[one]}</option>`)}</select></label>
    <label>that hold <input type="text" class="blank" autocomplete="off" .value=${entered(look.find)} @input=${(event: Event) => actions.look({ find: (event.target as HTMLInputElement).value })}></label></p>`;
}

/** What a right answer is worth, and what is given for one that is right for earlier ones. */
function schemeTemplate({ gathered, title, scheme }: CollectState, actions: CollectActions): TemplateResult {
  const asked = askedIn(titled({ gathered, title }));
  const number = (event: Event): number => Math.max(0, Number((event.target as HTMLInputElement).value.replace(',', '.')) || 0);
  const field = (label: string, value: number, set: (value: number) => void): TemplateResult =>
    html`<label>${label} <input type="text" inputmode="decimal" class="blank collect-points" autocomplete="off" .value=${entered(String(value))} @change=${(event: Event) => set(number(event))}></label>`;
  return html`<fieldset class="collect-scheme"><legend>Points</legend>
    ${asked.map(({ symbol, label }) => field(label, worth(symbol, scheme), (points) => actions.setPoints(symbol, points)))}
    ${field('Carried forward counts, %', 100 * scheme.carried, (share) => actions.setShare('carried', Math.min(1, share / 100)))}
    ${field('Too few digits count, %', 100 * scheme.fewDigits, (share) => actions.setShare('fewDigits', Math.min(1, share / 100)))}</fieldset>`;
}
