import type { SheetDocument } from '../../sheet/types.ts';

/** Items of all checklists of a sheet, and how many of them are open. */
export function openItems({ blocks }: SheetDocument): { readonly open: number; readonly all: number } {
  const items = blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'checklist' ? block.cell.items : []));
  return { open: items.filter(({ done }) => done === undefined).length, all: items.length };
}
