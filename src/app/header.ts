import { html, nothing, type TemplateResult } from 'lit-html';
import type { KeepingState } from './autosave.ts';
import type { KeptSheet } from './shelf-store.ts';
import { TAKEAWAYS, type Takeaway } from './take-away.ts';

/** What the head of the page shows, and what its controls call. */
export interface HeaderState {
  readonly title: string;
  readonly sheetId: string;
  readonly kept: readonly KeptSheet[];
  readonly keeping: KeepingState;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  readonly notice: Notice | undefined;
}

/** One or two sentences about the last file or sheet: what went wrong or what was done, and how to take it back. */
export interface Notice {
  readonly text: string;
  readonly remedy?: { readonly label: string; readonly apply: () => void };
}

export interface HeaderActions {
  readonly undo: () => void;
  readonly redo: () => void;
  readonly takeAway: (what: Takeaway) => void;
  readonly print: () => void;
  readonly bringIn: (files: readonly File[]) => void;
  readonly open: (sheetId: string) => void;
  readonly remove: (sheetId: string) => void;
  readonly duplicate: () => void;
  readonly start: (from: 'example' | 'blank' | 'empty') => void;
  readonly dismiss: () => void;
}

export function headerTemplate(state: HeaderState, actions: HeaderActions): TemplateResult {
  return html`
    <p class="wordmark" translate="no">Spanlife</p>
    <nav class="desk" aria-label="Sheets and files">
      <details class="drop">
        <summary>Sheets</summary>
        ${sheetsTemplate(state, actions)}
      </details>
      <details class="drop">
        <summary>Take away</summary>
        <ul class="takeaways">
          ${TAKEAWAYS.map(
            ({ what, label, help }) => html`<li>
              <button type="button" @click=${closing(() => actions.takeAway(what))}>${label}</button>
              <span class="help">${help}</span>
            </li>`,
          )}
          <li>
            <button type="button" @click=${closing(actions.print)}>Print</button>
            <span class="help">A4 or Letter, without the controls</span>
          </li>
        </ul>
      </details>
      <label class="bring-in">
        Bring in
        <input type="file" accept=".md,.html,.htm,.txt,text/markdown,text/html" multiple
          @change=${(event: Event) => {
            const input = event.target as HTMLInputElement;
            actions.bringIn([...(input.files ?? [])]);
            input.value = '';
          }} />
      </label>
      <button type="button" ?disabled=${!state.canUndo} @click=${actions.undo} title="Control Z">Undo</button>
      <button type="button" ?disabled=${!state.canRedo} @click=${actions.redo} title="Control Shift Z">Redo</button>
      <span class="keeping" role="status" data-state=${state.keeping.state}>${keepingWords(state.keeping)}</span>
    </nav>
    ${state.notice === undefined ? nothing : noticeTemplate(state.notice, actions.dismiss)}
  `;
}

function noticeTemplate({ text, remedy }: Notice, dismiss: () => void): TemplateResult {
  return html`<p class="notice" role="alert">
    ${text}
    ${remedy === undefined ? nothing : html`<button type="button" @click=${remedy.apply}>${remedy.label}</button>`}
    <button type="button" @click=${dismiss}>Close this note</button>
  </p>`;
}

function sheetsTemplate(state: HeaderState, actions: HeaderActions): TemplateResult {
  return html`<div class="sheets">
    <h2>Kept in this browser</h2>
    ${state.kept.length === 0 ? html`<p class="help">Nothing yet. A sheet is kept here from its first change on.</p>` : nothing}
    <ul>
      ${state.kept.map(
        (sheet) => html`<li aria-current=${sheet.id === state.sheetId ? 'true' : 'false'}>
          <button type="button" class="open" @click=${closing(() => actions.open(sheet.id))}>${sheet.title}</button>
          <span class="help">${sheet.id === state.sheetId ? 'this one, ' : ''}changed ${when(sheet.changed)}</span>
          <button type="button" aria-label=${`Delete ${sheet.title}`} @click=${() => actions.remove(sheet.id)}>Delete</button>
        </li>`,
      )}
    </ul>
    <h2>Start another</h2>
    <ul>
      <li><button type="button" @click=${closing(() => actions.start('example'))}>Rotating bending, with the invented example</button></li>
      <li><button type="button" @click=${closing(() => actions.start('blank'))}>Rotating bending, blanks empty</button></li>
      <li><button type="button" @click=${closing(() => actions.start('empty'))}>An empty sheet</button></li>
      <li><button type="button" @click=${closing(actions.duplicate)}>A copy of this one</button></li>
    </ul>
  </div>`;
}

/** Does it and folds the list up again, with the focus back on its heading. */
function closing(action: () => void): (event: Event) => void {
  return (event) => {
    const details = (event.currentTarget as HTMLElement).closest('details');
    if (details !== null) {
      details.open = false;
      details.querySelector('summary')?.focus();
    }
    action();
  };
}

function keepingWords(keeping: KeepingState): string {
  const clock = (at: Date): string => new Intl.DateTimeFormat('en-GB', { timeStyle: 'medium' }).format(at);
  switch (keeping.state) {
    case 'unchanged':
      return '';
    case 'waiting':
      return 'Keeping…';
    case 'kept':
      return `Kept in this browser at ${clock(keeping.at)}`;
    case 'copied':
      return `Another window changed this sheet; yours is kept as a copy since ${clock(keeping.at)}`;
    case 'failed':
      return `Not kept (${keeping.reason}). Take a working file away before you close the page.`;
  }
}

function when(iso: string): string {
  return new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' }).format(new Date(iso));
}
