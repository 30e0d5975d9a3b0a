import { asKind, isOfExample, type Block, type SheetDocument } from '../sheet/index.ts';
import type { SheetStates } from './types.ts';

/**
 * Which of the sheet's results rest on something of its invented example, by the cell that gives them: it itself, a cell whose symbol it reads, or
 * the table that it fits, however far back.
 */
export function restingOnExample(document: SheetDocument, states: SheetStates): (cellId: string) => boolean {
  const blocks = new Map(document.blocks.map((block) => [block.id, block]));
  const known = new Map<string, boolean>();
  return (cellId) => {
    const there = known.get(cellId) ?? behind(cellId, blocks, states).some((id) => {
      const block = blocks.get(id);
      return block?.kind === 'cell' && isOfExample(block.cell);
    });
    known.set(cellId, there);
    return there;
  };
}

/** The cell and all that it is worked out from. */
function behind(cellId: string, blocks: ReadonlyMap<string, Block>, states: SheetStates): readonly string[] {
  const met = new Set<string>();
  const next = [cellId];
  for (let id = next.pop(); id !== undefined; id = next.pop()) {
    if (met.has(id)) continue;
    met.add(id);
    const block = blocks.get(id);
    const table = block?.kind === 'cell' ? asKind(block.cell, 'fit')?.table : undefined;
    next.push(...(states.cell(id)?.reads ?? []).flatMap((symbol) => states.definedBy(symbol) ?? []), ...(table === undefined ? [] : [table]));
  }
  return [...met];
}
