import { cellsOf } from '../../sheet/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';

/** Items of the checklists of a sheet, of those above a cell where one is named, and how many of them are open. */
export function openItems({ blocks }: SheetDocument, above?: string): { readonly open: number; readonly all: number } {
  const end = above === undefined ? -1 : blocks.findIndex(({ id }) => id === above);
  const items = cellsOf({ blocks: blocks.slice(0, end < 0 ? blocks.length : end) }, 'checklist').flatMap((list) => list.items);
  return { open: items.filter(({ done }) => done === undefined).length, all: items.length };
}
