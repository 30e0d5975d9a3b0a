import { isolated } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import type { CellBlock, SheetDocument } from '../../sheet/types.ts';
import type { PresentContext } from './types.ts';

const cellsById = remembered((document: SheetDocument): ReadonlyMap<string, CellBlock> =>
  new Map(document.blocks.flatMap((block) => (block.kind === 'cell' ? [[block.id, block] as const] : []))));

/** The cell of that id, if the document has one. */
export function findCell(document: SheetDocument, cellId: string): CellBlock | undefined {
  return cellsById(document).get(cellId);
}

/** The cell that defines a symbol. */
export function definingCell(symbol: string, { document, states }: PresentContext): CellBlock | undefined {
  return findCell(document, states.definedBy(symbol) ?? '');
}

/** What a symbol is called, as it stands in a sentence: the label of the cell that defines it, or else the symbol. */
export function calledIn(context: PresentContext, symbol: string): string {
  return isolated(definingCell(symbol, context)?.cell.label ?? symbol);
}

/** The given that a symbol is, or that a chain of plain renamings (`l_1 = s_1`) leads to: what a drag changes. */
export function givenBehind(symbol: string, { document, states }: PresentContext): string | undefined {
  const seen = new Set<string>();
  for (let name = symbol; !seen.has(name);) {
    seen.add(name);
    const cellId = states.definedBy(name) ?? '';
    if (findCell(document, cellId)?.cell.kind === 'given') return name;
    const expression = states.cell(cellId)?.expression;
    if (expression?.kind !== 'symbol') return undefined;
    name = expression.name;
  }
  return undefined;
}
