import type { TemplateResult } from 'lit-html';
import { html } from '../view/index.ts';
import type { CollectActions } from './collect-types.ts';

/** What is chosen to be read: the same kinds of file wherever returned files are taken in. */
export function chooseReturned(words: string, actions: Pick<CollectActions, 'take'>): TemplateResult {
  return html`<label class="bring-in">${words}<input type="file" multiple accept=".md,.html,.htm,.txt,.zip,text/markdown,text/html,application/zip" @change=${(event: Event) => {
    const input = event.target as HTMLInputElement;
    const files = [...(input.files ?? [])];
    input.value = '';
    actions.take(files);
  }}></label>`;
}
