import { render, type TemplateResult } from 'lit-html';
import type { Block } from '../sheet/index.ts';
import { ownText } from './commands.ts';
import type { Desk } from './desk.ts';
import { panels } from './panels-at-hand.ts';
import { html } from './template.ts';

/** Does `work`; where it throws, by a fault of ours, what `otherwise` gives stands in its place. */
export function safely<T>(work: () => T, otherwise: (error: unknown) => T): T {
  try {
    return work();
  } catch (error) {
    return otherwise(error);
  }
}

/** What a fault says of itself. */
export function faultWords(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** A block that can not be shown says so in its own place, where no number of before stays; its text can be changed there. */
export function faultBlock(block: Block, error: unknown, desk: Desk): { readonly state: string; readonly template: TemplateResult } {
  const change = (): void => desk.withPanels(() => desk.changeUi(block.id, (ui) => void (ui.editing ??= { before: ownText(block), draft: undefined })));
  const editor = desk.ui(block.id).editing === undefined ? html`<button type="button" class="quiet" @click=${change}>change its text</button>` : panels.use().sourceEditor(block, desk);
  return {
    state: 'fault',
    template: html`<div class="number"></div>
      <div class="line"><div class="problem"><p class="what">This line could not be shown (${faultWords(error)}).</p>
        <p class="mend">This is a fault of the page and not yours; its text is kept as it is. Please report it with the file.</p></div>${editor}</div>
      <div class="margin"></div>`,
  };
}

/** A part of the page outside the blocks; where it can not be shown, that is what stands there. */
export function renderSafely(template: () => unknown, place: HTMLElement): void {
  safely(() => void render(template(), place), (error) => renderAnew(html`<p class="problem">A part of the page could not be shown (${faultWords(error)}). The sheet is kept all the same; please report it with the file.</p>`, place));
}

/** Shows a template where another one was broken off: what that one remembers of the place would be in the way. */
export function renderAnew(template: TemplateResult, place: HTMLElement): void {
  place.replaceChildren();
  Reflect.deleteProperty(place, '_$litPart$');
  render(template, place);
}
