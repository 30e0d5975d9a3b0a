import { html, nothing, type TemplateResult } from 'lit-html';
import type { HeadActions, HeadState, PanelName } from './head-state.ts';

const panelId = (name: PanelName): string => `desk-${name}`;

/** The control that unfolds a list below the head and folds it up again. */
export function unfolder(name: PanelName, words: string, state: HeadState, actions: HeadActions): TemplateResult {
  const open = state.unfolded === name;
  return html`<button type="button" class="unfolder" data-unfolds=${name} aria-expanded=${String(open)} aria-controls=${open ? panelId(name) : nothing}
    @click=${() => actions.unfold(open ? undefined : name)}>${words}</button>`;
}

/** The list itself. Escape folds it up. */
export function panel(name: PanelName, words: string, content: TemplateResult, actions: HeadActions): TemplateResult {
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    fold(name, event, actions);
  };
  return html`<section class="panel" id=${panelId(name)} aria-label=${words} @keydown=${press}>${content}</section>`;
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

/** For a control that may go with what it does. */
export function focusUnfolder(name: PanelName, event: Event): void {
  (event.currentTarget as HTMLElement).closest('.head')?.querySelector<HTMLElement>(`[data-unfolds="${name}"]`)?.focus();
}
