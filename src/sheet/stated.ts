import { lastTextBlock, lastTextKey } from './last-text.ts';
import { plainGroup, type Plain } from './reads-as.ts';
import type { CellBlock } from './types.ts';
import { readBody } from './yaml-body.ts';

export type { Plain } from './reads-as.ts';

/** What a cell's own text says by key, as plain data; a long text at its end is left out. */
export function statedIn({ body, cellKind }: CellBlock): ReadonlyMap<string, Plain> {
  const last = lastTextKey(cellKind);
  const block = last === undefined ? undefined : lastTextBlock(body, last);
  const head = block?.head ?? body;
  const stated = plainGroup(head, block?.reading ?? readBody(head));
  if (last !== undefined) stated.delete(last);
  return stated;
}
