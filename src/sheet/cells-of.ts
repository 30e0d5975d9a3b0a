import type { Block, Cell, SheetDocument } from './types.ts';

type CellOf<K extends Cell['kind']> = Extract<Cell, { kind: K }>;

/** The cells of one kind, in the order of the sheet. */
export function cellsOf<K extends Cell['kind']>(document: Pick<SheetDocument, 'blocks'>, kind: K): readonly CellOf<K>[] {
  return document.blocks.flatMap((block) => cellIn(block, kind) ?? []);
}

/** What stands in a block, where that is a cell of the kind. */
export function cellIn<K extends Cell['kind']>(block: Block | undefined, kind: K): CellOf<K> | undefined {
  return block?.kind === 'cell' ? asKind(block.cell, kind) : undefined;
}

/** A cell, where it is of the kind. */
export function asKind<K extends Cell['kind']>(cell: Cell | undefined, kind: K): CellOf<K> | undefined {
  const isOfKind = (one: Cell | undefined): one is CellOf<K> => one?.kind === kind;
  return isOfKind(cell) ? cell : undefined;
}
