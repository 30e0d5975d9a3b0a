import { nothing, type TemplateResult } from 'lit-html';
import { decimalText, headingNumbers, renderProse } from '../report/index.ts';
import type { ProseBlock } from '../sheet/index.ts';
import { composed } from '../core/problem/index.ts';
import type { Desk } from './desk.ts';
import { sectionBegun } from './folds.ts';
import { beginningOf } from './long-text.ts';
import type { Part } from './parts.ts';
import { prose } from './prose.ts';
import { html } from './template.ts';

/** What folds the section that begins in a block of text, at the number of its heading. */
export function sectionFolder(block: ProseBlock, desk: Desk): TemplateResult | undefined {
  const words = sectionBegun(block);
  if (words === undefined) return undefined;
  const isOpen = desk.folds.isOpen(block.id);
  return html`<button type="button" class="section-folder" aria-expanded=${String(isOpen)} aria-label=${composed`Section “${words}”`} title=${isOpen ? 'Fold this section' : 'Unfold this section'}
    @click=${() => desk.folds.set(block.id, !isOpen)}><svg viewBox="0 0 12 12" aria-hidden="true"><path d="M3.5 1.5 8.5 6l-5 4.5"></path></svg></button>`;
}

/** Prose between the cells; `#` lines are the sections, numbered over the sheet. */
export function proseParts(block: ProseBlock, desk: Desk): Part {
  const context = desk.context();
  const numbers = headingNumbers(block.id, context);
  const { shown, left } = desk.ui(block.id).open.has('whole text') ? { shown: block.source, left: 0 } : beginningOf(block.source);
  const showWhole = (): void => desk.changeUi(block.id, ({ open }) => void open.add('whole text'));
  return html`<div class="prose" ${prose(renderProse(shown, context, { numbers }))}></div>${left === 0 ? nothing : html`
    <p class="help">${decimalText(String(left), 0)} more characters of this text are not shown here; they stay in the sheet and in what is taken away.
      <button type="button" class="plain" @click=${showWhole}>show all of it</button></p>`}`;
}
