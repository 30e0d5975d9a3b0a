import { cellsOf, type Cell } from '../../sheet/index.ts';
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
  /** Remarks in which something is to be written and nothing is. */
  readonly unwritten: readonly AttentionPlace[];
}

interface AttentionPlace {
  readonly cellId: string;
  readonly label: string;
}

export function presentAttention(context: PresentContext): PresentedAttention {
  const { open, all } = openItems(context.document);
  const problems: AttentionPlace[] = [];
  for (const block of context.document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    if (notesOf(cell, context).problems.length > 0) problems.push(placeOf(cell));
  }
  const failedChecks = cellsOf(context.document, 'check').filter((check) => presentCheck(check, context).holds === false).map(placeOf);
  const unwritten = cellsOf(context.document, 'remark').filter(({ text, hint }) => hint !== undefined && text.trim() === '').map((cell) => ({ cellId: cell.id, label: cell.heading }));
  return { openItems: open, items: all, problems, failedChecks, unwritten };
}

function placeOf({ id, label }: Cell): AttentionPlace {
  return { cellId: id, label: label === undefined || label.trim() === '' ? id : label };
}
