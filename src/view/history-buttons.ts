import { nothing, type TemplateResult } from 'lit-html';
import type { Desk } from './desk.ts';
import { html } from './template.ts';

/** Undo and redo side by side. */
export function historyButtons(desk: Desk): TemplateResult {
  return html`<span class="history">${undoButton(desk)}<button
    type="button" class="plain" ?disabled=${!desk.session.canRedo()} @click=${() => desk.step('redo')}>redo</button></span>`;
}

/** Where something can be said of why there is nothing to undo, a press says it: what can't be pressed can't be asked by touch or keys. */
export function undoButton({ session, nothingToUndo, step }: Desk): TemplateResult {
  const hasNothing = !session.canUndo();
  return html`<button type="button" class="plain" ?disabled=${hasNothing && nothingToUndo === undefined} aria-disabled=${hasNothing && nothingToUndo !== undefined ? 'true' : nothing}
      title=${(hasNothing ? nothingToUndo : undefined) ?? nothing} @click=${() => step('undo')}>undo</button>`;
}
