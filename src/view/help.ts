import { nothing, type TemplateResult } from 'lit-html';
import { instrumentList } from './cells/measured.ts';
import { isApple, KEYS, keysText, MORE_KEYS } from './keys.ts';
import { languageHelp } from './language.ts';
import { LECTURE_HELP } from './lecture/keys.ts';
import { html } from './template.ts';

/** What stands below the last line; a sheet with nothing on it begins here. */
export function sheetFoot(isEmpty: boolean, addLine: ((anchor: Element) => void) | undefined): TemplateResult {
  return html`${addLine === undefined ? nothing : html`<p class="first-line">${isEmpty ? 'There is nothing on this sheet yet. ' : nothing}<button type="button" class="plain" aria-haspopup="menu"
      @click=${(event: Event) => event.currentTarget instanceof Element && addLine(event.currentTarget)}>${isEmpty ? 'add a first line' : 'add a line …'}</button></p>`}
    ${instrumentList()}${helpSection()}${languageHelp()}`;
}

/** How the sheet is used with the keyboard, at its foot. */
function helpSection(): TemplateResult {
  const apple = isApple();
  return html`<details class="keys"><summary>Keys</summary>
    <dl>${KEYS.map(({ action, help }) => html`<div><dt><kbd>${keysText(action, apple)}</kbd></dt><dd>${help}</dd></div>`)}${
      MORE_KEYS.map(([keys, help]) => html`<div><dt><kbd>${keys}</kbd></dt><dd>${help}</dd></div>`)}</dl>
    <p>In the lecture view</p>
    <dl>${LECTURE_HELP.map(([keys, help]) => html`<div><dt><kbd>${keys}</kbd></dt><dd>${help}</dd></div>`)}</dl>
    <p class="help">Tab always goes on to the next control. Within a field that was just changed, the browser’s own undo comes first.</p>
  </details>`;
}
