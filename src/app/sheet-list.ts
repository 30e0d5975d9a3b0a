import { nothing, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import { composed, isolated } from '../core/problem/index.ts';
import { html } from '../view/index.ts';
import { earlierTemplate } from './earlier-list.ts';
import { closing, focusUnfolder } from './folding.ts';
import type { HeadActions, HeadState } from './head-state.ts';
import type { Start } from './starts.ts';
import type { KeptSheet } from './kept-sheet.ts';
import type { DamagedRecord } from './shelf-store.ts';

const STARTS: readonly { readonly from: Start; readonly label: string }[] = [
  { from: 'example', label: 'Rotating bending, with the invented example' },
  { from: 'blank', label: 'Rotating bending, blanks empty' },
  { from: 'alternating', label: 'Alternating plane bending, with the invented example' },
  { from: 'blank alternating', label: 'Alternating plane bending, blanks empty' },
  { from: 'line', label: 'The S-N line of a class, with invented tests' },
  { from: 'staircase', label: 'Fatigue strength by a staircase, with invented tests' },
  { from: 'one stress', label: 'Lives at one stress, with invented tests' },
  { from: 'lever', label: 'Loading lever with sliding weights' },
  { from: 'verification', label: 'Verification of load and alignment by a strain-gauged bar' },
  { from: 'specimen', label: 'The specimen: notch, stress along the axis' },
  { from: 'span errors', label: 'For the lecture: how errors of span, diameter and load move the life' },
  { from: 'materials', label: 'Materials with their sources' },
  { from: 'empty', label: 'An empty sheet' },
];

const PERSISTENCE = {
  promised: 'This browser promised to keep sheets.',
  'may clear': 'This browser may clear sheets after weeks without a visit or when the disk fills: take a working file away.',
} as const;

/** The sheets kept in this browser, side by side, and what another may start from. */
export function sheetsTemplate(state: HeadState, actions: HeadActions): TemplateResult {
  const close = (action: () => void): ((event: Event) => void) => closing('sheets', actions, action);
  return html`<h2 id="kept-sheets">Kept in this browser</h2>
    ${state.kept.length === 0 ? html`<p class="help">Nothing yet. A sheet is kept here from its first change on.</p>` : nothing}
    <ul aria-labelledby="kept-sheets">${repeat(state.kept, ({ id }) => id, (sheet) => entryTemplate(sheet, sheet.id === state.sheetId, actions))}</ul>
    ${state.kept.length === 0 || state.persistence === undefined ? nothing : html`<p class="help">${PERSISTENCE[state.persistence]}</p>`}
    ${state.damaged.length === 0 ? nothing : damagedTemplate(state.damaged, actions)}
    ${state.kept.length === 0 ? nothing : earlierTemplate(state.earlier, actions, close)}
    <h2 id="start-another">Start another</h2>
    <ul aria-labelledby="start-another">
      ${STARTS.map(({ from, label }) => html`<li><button type="button" @click=${close(() => actions.start(from))}>${label}</button></li>`)}
      <li><button type="button" @click=${close(actions.duplicate)}>A copy of this one</button></li>
    </ul>`;
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
