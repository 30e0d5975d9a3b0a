import { nothing, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import { composed, isolated } from '../core/problem/index.ts';
import { html } from '../view/index.ts';
import { chooseReturned } from './choose-returned.ts';
import { earlierTemplate } from './earlier-list.ts';
import { closing, focusUnfolder } from './folding.ts';
import type { HeadActions, HeadState } from './head-state.ts';
import { START_SHEETS, type StartName } from './starts.ts';
import type { KeptSheet } from './kept-sheet.ts';
import type { DamagedRecord } from './shelf-store.ts';

type Close = (action: () => void) => (event: Event) => void;

const NAMES = Object.keys(START_SHEETS) as readonly StartName[];

const PERSISTENCE = {
  promised: 'This browser promised to keep sheets.',
  'may clear': 'This browser may clear sheets after weeks without a visit or when the disk fills: take a working file away.',
} as const;

/** The sheets kept in this browser, side by side, and what another may start from. */
export function sheetsTemplate(state: HeadState, actions: HeadActions): TemplateResult {
  const close: Close = (action) => closing('sheets', actions, action);
  return html`<h2 id="kept-sheets">Kept in this browser</h2>
    ${state.kept.length === 0 ? html`<p class="help">Nothing yet. A sheet is kept here from its first change on.</p>` : nothing}
    <ul aria-labelledby="kept-sheets">${repeat(state.kept, ({ id }) => id, (sheet) => entryTemplate(sheet, sheet.id === state.sheetId, actions))}</ul>
    ${state.kept.length === 0 || state.persistence === undefined ? nothing : html`<p class="help">${PERSISTENCE[state.persistence]}</p>
      ${state.persistence === 'promised' ? nothing : html`<p><button type="button" @click=${() => actions.takeAway({ what: 'working file' })}>Working file of the open sheet</button></p>`}`}
    ${state.damaged.length === 0 ? nothing : damagedTemplate(state.damaged, actions)}
    ${state.kept.length === 0 ? nothing : earlierTemplate(state.earlier, actions, close)}
    ${nextTemplate(state, close, actions)}
    ${collectedTemplate(state, actions)}
    <h2 id="start-another">Start another</h2>
    <ul class="starts" aria-labelledby="start-another">
      ${NAMES.map((name) => startTemplate(name, close, actions))}
      <li><button type="button" @click=${close(() => actions.start('empty'))}>An empty sheet</button></li>
      <li><button type="button" @click=${close(actions.duplicate)}>A copy of this one</button></li>
      <li><button type="button" title="Without readings, choices, rows, words, answers, ticks, pictures and records; what the sheet assumes stays" @click=${close(actions.blankCopy)}>A blank copy of this one</button></li>
    </ul>`;
}

/** The way to a class's returned files; those of before are still there. */
function collectedTemplate({ collected }: HeadState, actions: HeadActions): TemplateResult {
  const came = collected.words();
  return html`<h2 id="returned-files">Returned files of a class</h2>
    <p class="help">Reads any number of them, or archives (ZIP) of them, as data: none is opened. Gives a table with own results and their verdicts, measured values, checks and tests. Several files dropped on the page come here too.</p>
    <p>${chooseReturned('Collect returned files', actions.collect)}${came === undefined ? nothing : html` <button type="button" @click=${() => actions.unfold('collect')}>Back to those collected</button> <span class="help">${came}</span>`}</p>`;
}

/** One sheet, blank or with its example. */
function startTemplate(name: StartName, close: Close, actions: HeadActions): TemplateResult {
  const { label } = START_SHEETS[name];
  const press = (hasExample: boolean, words: string) => html`<button type="button" aria-label=${`${label}, ${words}`} @click=${close(() => actions.start({ sheet: name, hasExample }))}>${words}</button>`;
  if (!START_SHEETS[name].hasExample) return html`<li><button type="button" @click=${close(() => actions.start({ sheet: name, hasExample: false }))}>${label}</button></li>`;
  return html`<li class="two-starts"><span>${label}:</span> ${press(false, 'blank')} ${press(true, 'with the invented example')}</li>`;
}

/** What goes on to the next specimen is said before anything is done. */
function nextTemplate({ nextEmpties }: HeadState, close: Close, actions: HeadActions): TemplateResult | typeof nothing {
  if (nextEmpties.length === 0) return nothing;
  return html`<h2 id="next-specimen">The next specimen</h2>
    <p class="help">Another sheet that keeps set-up, load, machine, team and material of this one. It leaves out: ${nextEmpties.map((words, i) => html`${i === 0 ? '' : '; '}${words}`)}. This sheet stays as it is.</p>
    <p><button type="button" @click=${close(actions.nextSpecimen)}>Start the next specimen</button></p>`;
}

/** Set aside: nothing opens them, and they stay until somebody deletes them. */
function damagedTemplate(damaged: readonly DamagedRecord[], actions: HeadActions): TemplateResult {
  return html`<h2 id="damaged-records">Damaged</h2>
    <p class="help">These can not be read as sheets any more, and are left as they are. A file of one may help whoever mends it.</p>
    <ul aria-labelledby="damaged-records">${damaged.map((record) => html`<li><span class="entry">${record.key.slice(0, 40)}</span>
      <button type="button" aria-label=${composed`Take it away as it is: ${record.key.slice(0, 40)}`} @click=${() => actions.takeDamaged(record)}>Take it away as it is</button>
      <button type="button" aria-label=${composed`Delete ${record.key.slice(0, 40)}`} @click=${() => actions.remove(record.key)}>Delete</button></li>`)}</ul>`;
}

function entryTemplate(sheet: KeptSheet, isOpen: boolean, actions: HeadActions): TemplateResult {
  const name = sheet.isCopy ? composed`${sheet.title} (copy)` : sheet.title;
  const detail = [isolated(sheet.detail), `changed ${when(sheet.changed)}`].filter((part) => part !== '').join(' · ');
  const remove = (event: Event): void => {
    focusUnfolder('sheets', event);
    actions.remove(sheet.id);
  };
  return html`<li>
    <button type="button" class="entry" aria-current=${isOpen ? 'true' : nothing} @click=${closing('sheets', actions, () => actions.open(sheet.id))}>${name}</button>
    <span class="help">${isOpen ? 'open here · ' : ''}${detail}</span>
    <button type="button" aria-label=${composed`Delete ${name}, ${detail}`} @click=${remove}>Delete</button>
  </li>`;
}

function when(iso: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}
