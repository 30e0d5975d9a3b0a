import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { composed } from '../core/problem/index.ts';
import type { ShownClass } from '../report/index.ts';
import { entered, html } from '../view/index.ts';
import type { Offer, TeamsActions, TeamsState } from './teams-types.ts';

/** A working file for each team of a class, with numbers of its own. */
export function teamsTemplate(state: TeamsState, actions: TeamsActions): TemplateResult {
  return html`${rangesTemplate(state, actions)}${conditionsTemplate(state, actions)}${classTemplate(state, actions)}`;
}

function rangesTemplate({ varied, furtherGivens }: TeamsState, actions: TeamsActions): TemplateResult {
  return html`<h3>What varies from team to team</h3>
    <p class="help">A range with its step, as <code>100 mm .. 140 mm step 1 mm</code>; numbers to choose from, as <code>100 N or 120 N</code>; or what follows from others, as <code>s_1 + s_2 ± 0.5 mm step 0.5 mm</code>. Left empty, it is the same for all.</p>
    <ul id="class-varies">${varied.map((row) => html`<li>${rangeField(row, 'varies', row.present === '' ? '' : composed`now ${row.present}`, actions)}</li>`)}</ul>
    ${further('One more given', 'Let it vary', furtherGivens, actions)}`;
}

function conditionsTemplate({ wanted, furtherSteps, checks, furtherChecks, asksForEvery, askedCount }: TeamsState, actions: TeamsActions): TemplateResult {
  return html`<h3>What the numbers of every team keep to</h3>
    <ul id="class-keeps">${wanted.map((row) => html`<li>${rangeField(row, 'wanted', '', actions)}</li>`)}
      ${checks.map(({ cellId, label }) => html`<li><span>Holds: ${label}</span> <button type="button" aria-label=${composed`Need not hold: ${label}`} @click=${(event: Event) => leave(event, () => actions.setRange(cellId, 'wanted', undefined))}>need not</button></li>`)}
      <li class="help">And always: what each blank takes, and results that are asked for can be told apart.</li></ul>
    ${further('One more result', 'Keep to bounds', furtherSteps, actions)}${further('One more check', 'Has to hold', furtherChecks, actions)}
    <p><label class="class-tick"><input type="checkbox" .checked=${live(asksForEvery)} @change=${(event: Event) => actions.askForEvery((event.target as HTMLInputElement).checked)}> Ask for the reader’s own results</label></p>
    <p class="help">${askedWords(askedCount)}</p>`;
}

function askedWords(count: number): string {
  if (count === 0) return 'Nothing is asked for: every file shows its results.';
  return `${count === 1 ? 'One result is' : `${count} results are`} asked for and shown only once the team has its own.`;
}

function rangeField({ cellId, label, text, refused }: TeamsState['wanted'][number], key: 'varies' | 'wanted', beside: string, actions: TeamsActions): TemplateResult {
  const enter = (event: Event): void => {
    const { value } = event.target as HTMLInputElement;
    const set = (): void => actions.setRange(cellId, key, value);
    if (value.trim() === '') leave(event, set);
    else set();
  };
  return html`<label><span class="range-of">${label}</span>
      <input type="text" class="blank" autocomplete="off" spellcheck="false" data-range-of=${cellId} aria-invalid=${refused === undefined ? nothing : 'true'} .value=${entered(text)} @change=${enter}></label>
    ${beside === '' ? nothing : html`<span class="help">${beside}</span>`}
    ${refused === undefined ? nothing : html`<p class="refused" role="alert">${refused}</p>`}`;
}

/** What goes out of a list takes the focus with it, which then stands at what puts one in again. */
function leave({ currentTarget }: Event, action: () => void): void {
  const element = currentTarget as HTMLElement;
  if (element === document.activeElement) element.closest('ul')?.parentElement?.querySelector<HTMLElement>(`#${element.closest('ul')?.id ?? ''} ~ p select`)?.focus();
  action();
}

/** What is chosen there is taken up at a press, since keys alone go through a list one by one, and stands in the list with the focus in it. */
function further(words: string, press: string, offers: readonly Offer[], actions: TeamsActions): TemplateResult | typeof nothing {
  if (offers.length === 0) return nothing;
  const take = (event: Event): void => {
    const button = event.currentTarget as HTMLElement;
    const list = button.parentElement?.querySelector('select');
    const { value = '' } = list ?? {};
    if (list === null || list === undefined || value === '') return list?.focus();
    list.value = '';
    const panel = button.closest('.class-files');
    actions.takeUp(value);
    (panel?.querySelector<HTMLElement>(`[data-range-of="${CSS.escape(value)}"]`) ?? list).focus();
  };
  return html`<p class="held-actions"><label>${words} <select><option value="">choose …</option>${offers.map(({ cellId, label }) => html`<option value=${cellId}>${label}</option>`)}</select></label> <button type="button" @click=${take}>${press}</button></p>`;
}

function classTemplate(state: TeamsState, actions: TeamsActions): TemplateResult {
  const { seed, list, drawn, busy, refused, notes } = state;
  const bring = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const [file] = input.files ?? [];
    input.value = '';
    if (file !== undefined) actions.listFile(file);
  };
  return html`<h3>Who is in it</h3>
    <p class="class-list"><label for="class-list">Class list: a team in each line, then its names; or a table with columns for team and names</label>
      <textarea id="class-list" rows="5" spellcheck="false" aria-describedby="class-read" .value=${entered(list)} @change=${(event: Event) => actions.setList((event.target as HTMLTextAreaElement).value)}></textarea></p>
    <p class="held-actions"><label class="bring-in">Read it from a file<input type="file" accept=".csv,.txt,.tsv,text/csv,text/plain" @change=${bring}></label>
      <label>Seed <input type="text" class="blank" autocomplete="off" spellcheck="false" maxlength="60" aria-describedby="seed-help" .value=${entered(seed)} @change=${(event: Event) => actions.setSeed((event.target as HTMLInputElement).value)}></label>
      <span class="help" id="seed-help">The same seed gives each team the same numbers again; one is chosen where none stands.</span></p>
    <p class="help" id="class-read">${readWords(state)} The list stays in this window and is kept nowhere.</p>
    <p class="held-actions"><button type="button" @click=${actions.draw}>Draw the numbers</button>
      <button type="button" @click=${actions.takeTeamFiles}>Take the files away (ZIP)</button>
      <button type="button" @click=${actions.takeClassTable}>Take the key away (CSV)</button></p>
    <p class="help">The key has every team’s numbers and results, and is for you alone. In the files of the teams is neither that nor ranges, seed, comments, held states or your own results; what is written in remarks and tables goes along.</p>
    <p class="class-busy" role="status">${busy ?? ''}</p>
    ${refused === undefined ? nothing : html`<p class="refused" role="alert">${refused}</p>`}
    ${notes.map((note) => html`<p class="refused">${note}</p>`)}
    ${drawn === undefined ? nothing : drawnTable(drawn)}`;
}

function readWords({ read }: TeamsState): string {
  if (read === undefined) return '';
  const { teams, notes } = read;
  return [`${teams.length === 1 ? 'One team' : `${teams.length} teams`} read.`, ...notes].join(' ');
}

function drawnTable({ heads, teams }: ShownClass): TemplateResult {
  return html`<h3 id="class-numbers">The numbers</h3>
    <div class="held-table" tabindex="0" role="group" aria-labelledby="class-numbers"><table><thead><tr><th scope="col">Team</th><th scope="col">Variant</th>${heads.map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
    <tbody>${teams.map(({ team, names, variant, cells, said }) => html`<tr><th scope="row">${team}${names === '' ? nothing : html`<span class="when">${names}</span>`}</th><td>${variant}</td>${cells.length === 0
      ? html`<td colspan=${heads.length}>${said}</td>` : cells.map((cell) => html`<td>${cell}</td>`)}</tr>${cells.length === 0 || said === '' ? nothing : html`<tr><td colspan=${heads.length + 2}>${said}</td></tr>`}`)}</tbody></table></div>`;
}
