import { nothing, type TemplateResult } from 'lit-html';
import { html } from '../view/index.ts';
import type { HeadActions, HeadState, PanelName } from './head-state.ts';

/** Where it stands what a word of the head does. */
export const saysId = (name: string): string => `desk-says-${name}`;

const panelId = (name: PanelName): string => `desk-${name}`;

/** The control that unfolds a list below the head and folds it up again. */
export function unfolder(name: PanelName, words: string, state: HeadState, actions: HeadActions): TemplateResult {
  const open = state.unfolded === name;
  return html`<button type="button" class="unfolder" data-unfolds=${name} aria-expanded=${String(open)} aria-controls=${open ? panelId(name) : nothing}
    aria-describedby=${saysId(name)} @click=${() => actions.unfold(open ? undefined : name)}>${words}</button>`;
}

/** Panels whose tables take the width of the window. */
const WIDE: ReadonlySet<PanelName> = new Set(['hold', 'collect']);

/** The list itself. */
export function panel(name: PanelName, words: string, content: unknown, actions: HeadActions): TemplateResult {
  return html`<section class=${WIDE.has(name) ? 'panel wide' : 'panel'} id=${panelId(name)} aria-label=${words} @keydown=${foldByEscape(name, actions)}>${content}</section>`;
}

/** Escape folds up what is unfolded. */
export function foldByEscape(unfolded: PanelName | undefined, actions: HeadActions): (event: KeyboardEvent) => void {
  return (event) => {
    if (event.key !== 'Escape' || unfolded === undefined) return;
    event.preventDefault();
    fold(unfolded, event, actions);
  };
}

/** Does it and folds the list up, with the focus back on the control that had unfolded it. */
export function closing(name: PanelName, actions: HeadActions, action: () => void): (event: Event) => void {
  return (event) => {
    fold(name, event, actions);
    action();
  };
}

function fold(name: PanelName, event: Event, actions: HeadActions): void {
  focusUnfolder(name, event);
  actions.unfold(undefined);
}

/** Safari gives a button no focus when it is pressed: with the focus nowhere, Escape folds up what is unfolded, as it does from within. */
export function foldFromNowhere(head: Element, unfolded: () => PanelName | undefined, actions: HeadActions): void {
  document.addEventListener('keydown', (event) => {
    const name = unfolded();
    if (name === undefined || event.key !== 'Escape' || event.defaultPrevented || event.target !== document.body || document.documentElement.classList.contains('in-lecture')) return;
    event.preventDefault();
    focusUnfolderIn(head, name);
    actions.unfold(undefined);
  });
}

/** For a control that may go with what it does. */
export function focusUnfolder(name: PanelName, event: Event): void {
  focusUnfolderIn((event.currentTarget as HTMLElement).closest('.head'), name);
}

function focusUnfolderIn(head: Element | null, name: PanelName): void {
  // What came from a class is unfolded from among the sheets.
  head?.querySelector<HTMLElement>(`[data-unfolds="${name === 'collect' ? 'sheets' : name}"]`)?.focus();
}
