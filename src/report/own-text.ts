import type { Block } from '../sheet/types.ts';
import { html, type Insertion } from './markup.ts';
import { asked } from './present/asked.ts';
import type { PresentContext, WholeContext } from './present/types.ts';

/** Lines of a text that are shown: rows of a long table and a picture say nothing there. */
const MOST_LINES = 80;

/** The own text of a cell, fences and all, below its line, where the head of the sheet says so. */
export function ownTextBelow(block: Block, context: PresentContext): Insertion {
  if (block.kind !== 'cell' || !asked(context, showsTexts, undefined)) return undefined;
  const lines = block.source.trimEnd().split(/\r\n?|\n/u);
  const shown = lines.length <= MOST_LINES ? lines : [...lines.slice(0, MOST_LINES), `… and ${lines.length - MOST_LINES} more lines`];
  return html`<pre class="own-text" tabindex="0" aria-label="Own text of this ${block.cellKind}">${shown.join('\n')}</pre>`;
}

const showsTexts = ({ document }: WholeContext): boolean => document.frontMatter.entries.get('own_texts')?.trim() === 'shown';
