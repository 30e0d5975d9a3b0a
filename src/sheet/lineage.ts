import type { Block } from './types.ts';

/**
 * What stays the same of a block through all edits of its text: an id is made from what is typed, and may be another with every
 * key. Kept beside the blocks, since it is no part of what a document says.
 */
export type Lineage = object;

const lineages = new WeakMap<Block, Lineage>();

/** The lineage of a block; one that continues no other begins its own. */
export function lineageOf(block: Block): Lineage {
  const known = lineages.get(block);
  if (known !== undefined) return known;
  const begun = {};
  lineages.set(block, begun);
  return begun;
}

/** The same block, as one that continues an earlier one. */
export function continuing<T extends Block>(block: T, earlier: Block | undefined): T {
  if (earlier !== undefined && earlier !== block) lineages.set(block, lineageOf(earlier));
  return block;
}
