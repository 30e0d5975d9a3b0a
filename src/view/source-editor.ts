import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import type { Block } from '../sheet/index.ts';
import { ownText, replaceText } from './commands.ts';
import type { Desk } from './desk.ts';
import { languageOf } from './language.ts';
import { partId } from './parts.ts';
import { html } from './template.ts';

/**
 * The cell's own text. The line above it is its preview: it is up to date with every key, and what is wrong with the text
 * stands under that line. Nothing typed is refused; Escape gives back the text as it was.
 */
export function sourceEditor(block: Block, desk: Desk): TemplateResult {
  const { editing } = desk.ui(block.id);
  const text = editing?.draft ?? ownText(block);
  const id = partId(block.id, 'source');
  const close = (): void => {
    desk.settle();
    desk.changeUi(block.id, (ui) => void (ui.editing = undefined));
    desk.element(block.id)?.focus();
  };
  const write = (event: Event): void => {
    if (!(event.target instanceof HTMLTextAreaElement) || editing === undefined) return;
    desk.ui(block.id).editing = { ...editing, draft: event.target.value };
    desk.apply(replaceText(block, event.target.value), block.id);
  };
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    if (editing !== undefined && editing.before !== text) desk.apply(replaceText(block, editing.before), block.id);
    close();
  };
  return html`<div class="source-editor">
    <label class="source-label" for=${id}>${block.kind === 'cell' ? `Own text of this ${block.cellKind}` : 'Own text'}</label>
    <textarea id=${id} spellcheck=${block.kind === 'prose' ? 'true' : 'false'} autocapitalize="off" rows=${Math.min(24, text.split('\n').length + 1)}
      aria-describedby=${`${partId(block.id, 'problem')} ${id}-help`} .value=${live(text)} @input=${write} @keydown=${press}></textarea>
    <p class="help" id=${`${id}-help`}><button type="button" class="plain" @click=${close}>Done</button> The line above follows with every key. Esc gives back the text as it was.</p>
    ${block.kind === 'cell' ? (languageOf(block.cellKind) ?? nothing) : nothing}
  </div>`;
}
