import { html, type TemplateResult } from 'lit-html';
import { KEYS, keysText, MORE_KEYS } from './keys.ts';

/** How the sheet is used with the keyboard, at its foot. */
export function helpSection(): TemplateResult {
  const apple = isApple();
  return html`<details class="keys"><summary>Keys</summary>
    <dl>${KEYS.map(({ action, help }) => html`<div><dt><kbd>${keysText(action, apple)}</kbd></dt><dd>${help}</dd></div>`)}${
      MORE_KEYS.map(([keys, help]) => html`<div><dt><kbd>${keys}</kbd></dt><dd>${help}</dd></div>`)}</dl>
    <p class="help">Tab always goes on to the next control. Within a field that was just changed, the browser’s own undo comes first.</p>
  </details>`;
}

export function isApple(): boolean {
  return /Mac|iPhone|iPad/.test(navigator.userAgent);
}
