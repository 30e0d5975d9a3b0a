import { presentCheck } from './cells.ts';
import { notesOf } from './notes.ts';
import { openItems } from './open-items.ts';
import type { PresentContext } from './types.ts';

/** What a reader should see before anything else. */
export interface PresentedAttention {
  readonly openItems: number;
  readonly items: number;
  readonly problems: readonly AttentionPlace[];
  readonly failedChecks: readonly AttentionPlace[];
}

interface AttentionPlace {
  readonly cellId: string;
  readonly label: string;
}

export function presentAttention(context: PresentContext): PresentedAttention {
  const { open, all } = openItems(context.document);
  const problems: AttentionPlace[] = [];
  const failedChecks: AttentionPlace[] = [];
  for (const block of context.document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    const place = { cellId: block.id, label: cell.label ?? block.id };
    if (cell.kind === 'check' && presentCheck(cell, context).holds === false) failedChecks.push(place);
    if (notesOf(cell, context).problems.length > 0) problems.push(place);
  }
  return { openItems: open, items: all, problems, failedChecks };
}
