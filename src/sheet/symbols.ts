import { checkSymbolName } from '../core/formula/index.ts';
import { cellIn } from './cells-of.ts';
import type { Block, SheetDocument } from './types.ts';

/** Every symbol that a cell of the document defines. */
export function definedSymbols(document: SheetDocument): ReadonlySet<string> {
  return new Set(document.blocks.flatMap((block) => definedIn(block) ?? []));
}

/** The symbol that a block defines by stating it. */
export function definedIn(block: Block): string | undefined {
  const symbol = (cellIn(block, 'given') ?? cellIn(block, 'step'))?.symbol;
  return symbol === '' ? undefined : symbol;
}

/** A symbol like the given one that no cell defines: `d` gives `d_2`, `s_1` the next free `s_2`, `R_A` gives `R_A2`. */
export function freshSymbol(like: string, document: SheetDocument): string {
  const taken = definedSymbols(document);
  const stem = checkSymbolName(like).ok ? like : 'x_1';
  const [, head = stem, digits = ''] = /^(.*_.*?)(\d*)$/.exec(stem) ?? [];
  const prefix = stem.includes('_') ? head : `${stem}_`;
  let n = digits === '' ? 2 : Number(digits) + 1;
  while (taken.has(`${prefix}${n}`)) n++;
  return `${prefix}${n}`;
}

/** An id like the given one that no block has. */
export function freshId(like: string, document: SheetDocument): string {
  const taken = new Set(document.blocks.map(({ id }) => id));
  let n = 2;
  while (taken.has(`${like}-${n}`)) n++;
  return `${like}-${n}`;
}
