import { nothing, type TemplateResult } from 'lit-html';
import { repeat } from 'lit-html/directives/repeat.js';
import { composed, isolated } from '../core/problem/index.ts';
import { html } from '../view/index.ts';
import { explained, firstWords, hearDeskKey, sayAgain, wordsTemplate } from './first-minute.ts';
import { closing, panel, saysId, unfolder } from './folding.ts';
import type { HeadActions, HeadState } from './head-state.ts';
import { holdTemplate } from './hold-panel.ts';
import type { OtherSheet } from './hold-types.ts';
import type { Notice } from './notices.ts';
import { keepingWords } from './keeping-words.ts';
import { sheetsTemplate } from './sheet-list.ts';
import { slipsTemplate } from './slip-panel.ts';
import { WHOLE_SHEET } from './takeaways.ts';
import { classTemplate } from './teams-later.ts';

/** The head of the page: what can be done with sheets and files, how keeping stands, and the last notes. */
export function headerTemplate(state: HeadState, actions: HeadActions): TemplateResult {
  return html`
    <button type="button" class="past-head" @click=${actions.toFirstBlank}>to the first blank</button>
    <p class="wordmark" translate="no">Spanlife</p>
    <nav class="desk" aria-label="Sheets and files" @keydown=${hearDeskKey(state.unfolded, actions)} @pointerover=${sayAgain} @focusin=${sayAgain}>
      ${explained('sheets', unfolder('sheets', 'Sheets', state, actions))}
      ${explained('takeaways', unfolder('takeaways', 'Take away', state, actions))}
      ${explained('bring in', html`<label class="bring-in">
        Bring in
        <input type="file" accept=".md,.html,.htm,.txt,text/markdown,text/html" multiple aria-describedby=${saysId('bring in')}
          @change=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            actions.bringIn([...(input.files ?? [])]);
            input.value = '';
          }} />
      </label>`)}
      ${explained('hold', unfolder('hold', state.heldCount === 0 ? 'Hold' : `Hold (${state.heldCount} held)`, state, actions))}
      ${explained('slips', unfolder('slips', state.slipsOn.length === 0 ? 'Slips' : `Slips (${state.slipsOn.length} on)`, state, actions))}
      ${explained('lecture', html`<button type="button" aria-describedby=${saysId('lecture')} @click=${actions.lecture}>Lecture</button>`)}
      ${explained('words', unfolder('words', 'What these do', state, actions))}
      <span class="keeping" role="status" data-state=${state.keeping.state}>${keepingWords(state.keeping)}${state.keeping.state === 'failed'
        ? html` <button type="button" @click=${() => actions.takeAway({ what: 'working file' })}>Take a working file away</button>` : nothing}</span>
    </nav>
    ${state.isFirstMinute ? firstWords(actions) : nothing}
    ${state.unfolded === 'words' ? panel('words', 'What these do', wordsTemplate(), actions) : nothing}
    ${state.unfolded === 'sheets' ? panel('sheets', 'Sheets', sheetsTemplate(state, actions), actions) : nothing}
    ${state.unfolded === 'takeaways' ? panel('takeaways', 'Take away', takeawaysTemplate(state, actions), actions) : nothing}
    ${state.unfolded === 'slips' ? panel('slips', 'Slips', slipsTemplate(state, actions), actions) : nothing}
    ${state.unfolded === 'collect' ? panel('collect', 'Returned files', state.collected.panel(), actions) : nothing}
    ${state.unfolded === 'hold' && state.hold !== undefined ? panel('hold', 'Hold', holdTemplate(state.hold, otherSheets(state), actions), actions) : nothing}
    ${repeat(state.notices, (notice) => notice, (notice) => noticeTemplate(notice, actions.dismiss))}
  `;
}

function otherSheets({ kept, sheetId }: HeadState): readonly OtherSheet[] {
  return kept.filter(({ id }) => id !== sheetId).map(({ id, title, detail }) => ({ id, label: [title, detail].filter((part) => part !== '').map(isolated).join(' · ') }));
}

function takeawaysTemplate({ drawings, teams }: HeadState, actions: HeadActions): TemplateResult {
  const close = (action: () => void): ((event: Event) => void) => closing('takeaways', actions, action);
  return html`<ul>
      ${WHOLE_SHEET.map(({ what, label, help }) => html`<li>
        <button type="button" @click=${close(() => actions.takeAway({ what }))}>${label}</button> <span class="help">${help}</span></li>`)}
      <li><button type="button" @click=${close(actions.print)}>Print</button> <span class="help">A4 or Letter, without the controls</span></li>
    </ul>
    ${drawings.length === 0 ? nothing : html`<h2 id="desk-drawings">Drawings</h2>
    <ul aria-labelledby="desk-drawings">
      ${drawings.map(({ cellId, label }) => html`<li><span class="entry">${label}</span>
        <button type="button" aria-label=${composed`${label} as SVG`} @click=${close(() => actions.takeAway({ what: 'svg', cellId }))}>SVG</button>
        <button type="button" aria-label=${composed`${label} as PNG`} @click=${close(() => actions.takeAway({ what: 'png', cellId }))}>PNG</button></li>`)}
    </ul>`}
    ${classTemplate(teams, actions.unfoldTeams)}`;
}

function noticeTemplate(notice: Notice, dismiss: (notice: Notice) => void): TemplateResult {
  const { text, remedy } = notice;
  return html`<div class="notice" role="alert">
    <p>${text}</p>
    ${remedy === undefined ? nothing : html`<button type="button" @click=${remedy.apply}>${remedy.label}</button>`}
    <button type="button" @click=${() => dismiss(notice)}>Close this note</button>
  </div>`;
}
