import { isolated } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { CellBlock, SheetDocument } from '../../sheet/types.ts';
import { asked } from './asked.ts';
import type { PresentContext, WholeContext } from './types.ts';

const cellsById = remembered((document: SheetDocument): ReadonlyMap<string, CellBlock> =>
  new Map(document.blocks.flatMap((block) => (block.kind === 'cell' ? [[block.id, block] as const] : []))));

/** The cell of that id, if the document has one. */
export function findCell(document: SheetDocument, cellId: string): CellBlock | undefined {
  return cellsById(document).get(cellId);
}

/** The same, asked of the sheet that something is drawn of. */
export function cellAt(cellId: string, context: PresentContext): CellBlock | undefined {
  return asked(context, cellOfId, cellId);
}

const cellOfId = ({ document }: WholeContext, cellId: string) => findCell(document, cellId);

/** The cell that defines a symbol. */
export function definingCell(symbol: string, context: PresentContext): CellBlock | undefined {
  return asked(context, definingIn, symbol);
}

const definingIn = ({ document, states }: WholeContext, symbol: string) => findCell(document, states.definedBy(symbol) ?? '');

/** What a symbol is called, as it stands in a sentence: the label of the cell that defines it, or else the symbol. */
export function calledIn(context: PresentContext, symbol: string): string {
  return isolated(definingCell(symbol, context)?.cell.label ?? symbol);
}

/** The given that a symbol is, or that a chain of plain renamings (`l_1 = s_1`) leads to: what a drag changes. */
export function givenBehind(symbol: string, context: PresentContext): string | undefined {
  return asked(context, givenIn, symbol);
}

function givenIn({ document, states }: WholeContext, symbol: string): string | undefined {
  const seen = new Set<string>();
  for (let name = symbol; !seen.has(name);) {
    seen.add(name);
    const cellId = states.definedBy(name) ?? '';
    if (cellIn(findCell(document, cellId), 'given') !== undefined) return name;
    const expression = states.cell(cellId)?.expression;
    if (expression?.kind !== 'symbol') return undefined;
    name = expression.name;
  }
  return undefined;
}
