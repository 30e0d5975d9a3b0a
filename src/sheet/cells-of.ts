import type { Cell, SheetDocument } from './types.ts';

/** The cells of one kind, in the order of the sheet. */
export function cellsOf<K extends Cell['kind']>(document: Pick<SheetDocument, 'blocks'>, kind: K): readonly Extract<Cell, { kind: K }>[] {
  const isOfKind = (cell: Cell): cell is Extract<Cell, { kind: K }> => cell.kind === kind;
  return document.blocks.flatMap((block) => (block.kind === 'cell' && isOfKind(block.cell) ? [block.cell] : []));
}
