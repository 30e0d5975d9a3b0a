import { nothing, type TemplateResult } from 'lit-html';
import { live } from 'lit-html/directives/live.js';
import { notesOf } from '../report/index.ts';
import { placeFinder, type Block } from '../sheet/index.ts';
import { ownText, replaceText } from './commands.ts';
import { completingAt, completingKey, completingList, listId, offerId } from './completing/completing.ts';
import type { Completing } from './completing/offers.ts';
import type { Desk } from './desk.ts';
import { lineForm } from './line-form.ts';
import { languageOf } from './language.ts';
import { partId } from './parts.ts';
import { html } from './template.ts';

/**
 * The cell's own text. The line above it is its preview: it is up to date with every key, and what is wrong with the text
 * stands under that line. Nothing typed is refused; Escape gives back the text as it was. Names that fit are offered as they are typed.
 */
export function sourceEditor(block: Block, desk: Desk): TemplateResult {
  const { editing, completing } = desk.ui(block.id);
  const text = editing?.draft ?? ownText(block);
  const id = partId(block.id, 'source');
  const close = (): void => {
    desk.settle();
    desk.changeUi(block.id, (ui) => {
      ui.editing = undefined;
      ui.completing = undefined;
    });
    desk.element(block.id)?.focus();
  };
  const show = (next: Completing | undefined): void => desk.changeUi(block.id, (ui) => void (ui.completing = next));
  const write = (event: Event): void => {
    if (!(event.target instanceof HTMLTextAreaElement) || editing === undefined) return;
    const ui = desk.ui(block.id);
    ui.editing = { ...editing, draft: event.target.value };
    desk.apply(replaceText(block, event.target.value), block.id);
    const next = completingAt(event.target, block, desk);
    if (next !== undefined || ui.completing !== undefined) show(next);
  };
  const press = (event: KeyboardEvent): void => {
    if (event.isComposing) return;
    const isAsked = event.key === ' ' && event.ctrlKey;
    if (isAsked && event.target instanceof HTMLTextAreaElement) show(completingAt(event.target, block, desk, true));
    else if (completing !== undefined && completingKey(event, completing, show)) event.stopPropagation();
    else if (event.key === 'Escape') {
      if (editing !== undefined && editing.before !== text) desk.apply(replaceText(block, editing.before), block.id);
      close();
    } else return;
    event.preventDefault();
  };
  // The text follows the form as the form follows the text.
  const formed = (): void => {
    if (editing !== undefined) desk.ui(block.id).editing = { ...editing, draft: undefined };
  };
  return html`<div class="source-editor">
    <label class="source-label" for=${id}>${block.kind === 'cell' ? `Own text of this ${block.cellKind}` : 'Own text'}</label>
    <textarea id=${id} spellcheck=${block.kind === 'prose' ? 'true' : 'false'} autocapitalize="off" rows=${Math.min(24, text.split('\n').length + 1)} aria-autocomplete=${block.kind === 'cell' ? 'list' : nothing} aria-haspopup=${block.kind === 'cell' ? 'listbox' : nothing}
      aria-controls=${completing === undefined ? nothing : listId(block)} aria-activedescendant=${completing === undefined || completing.chosen < 0 ? nothing : offerId(block, completing.chosen)}
      aria-describedby=${`${partId(block.id, 'problem')} ${id}-help`} .value=${live(text)} @input=${write} @keydown=${press} @blur=${() => completing !== undefined && show(undefined)}></textarea>
    ${block.kind === 'cell' ? completingList(block, completing) : nothing}
    ${placesToMend(block, text, id, desk)}
    <p class="help" id=${`${id}-help`}><button type="button" class="plain" @click=${close}>Done</button> The line above follows with every key. Esc gives back the text as it was.${block.kind === 'cell' ? ' Names that fit are offered as you type; Ctrl and the space bar ask for them, arrow down and Enter take one.' : ''}</p>
    ${block.kind === 'cell' ? lineForm(block, desk, formed) : nothing}
    ${block.kind === 'cell' ? (languageOf(block.cellKind) ?? nothing) : nothing}
  </div>`;
}

/** The lines of the text that something is said of above it, each as a way there. */
function placesToMend(block: Block, text: string, id: string, desk: Desk): TemplateResult | typeof nothing {
  if (block.kind !== 'cell') return nothing;
  const context = desk.context();
  const { problems, warnings } = notesOf(block.cell, context);
  const placeOf = placeFinder(context.document);
  const rows = [...new Set([...problems, ...warnings].flatMap((problem) => placeOf(block.id, problem)?.row ?? []))].toSorted((a, b) => a - b);
  const lines = text.split('\n');
  const go = (row: number) => (): void => {
    const field = document.getElementById(id);
    if (!(field instanceof HTMLTextAreaElement)) return;
    const start = lines.slice(0, row).join('\n').length + (row === 0 ? 0 : 1);
    field.focus();
    field.setSelectionRange(start, start + (lines[row]?.length ?? 0));
  };
  return rows.length === 0 ? nothing : html`<p class="help places">To be mended: ${rows.map((row) => html`<button type="button" class="plain" @click=${go(row)}>line ${row + 1}: <code>${(lines[row] ?? '').trim().slice(0, 40)}</code></button> `)}</p>`;
}
