import { nothing } from 'lit-html';
import { decimalText, headingNumbers, renderProse } from '../report/index.ts';
import type { ProseBlock } from '../sheet/index.ts';
import type { Desk } from './desk.ts';
import { beginningOf } from './long-text.ts';
import type { Part } from './parts.ts';
import { prose } from './prose.ts';
import { html } from './template.ts';

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
