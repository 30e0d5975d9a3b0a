import type { Problem } from '../core/problem/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { cellIn } from './cells-of.ts';
import { readFence } from './split.ts';
import type { Block, SheetDocument } from './types.ts';

/** Which blocks stand in a part on demand. */
export interface Asides {
  /** The aside that a block stands in, by block id; the `end` stands in it, the aside itself does not. */
  readonly of: ReadonlyMap<string, string>;
  /** What each aside holds, in order, without its `end`. */
  readonly holds: ReadonlyMap<string, readonly Block[]>;
  /** Asides that nothing ends: they hold what follows up to the next one or the next section. */
  readonly open: readonly string[];
  /** Ends where nothing was begun. */
  readonly stray: readonly string[];
}

/** An aside stands in no other one: the next one, or the next section, ends it too, and that is told. */
export const asidesIn = remembered(({ blocks }: Pick<SheetDocument, 'blocks'>): Asides => {
  const of = new Map<string, string>();
  const holds = new Map<string, Block[]>();
  const [open, stray]: [string[], string[]] = [[], []];
  let current: string | undefined;
  for (const block of blocks) {
    if (cellIn(block, 'end') !== undefined) {
      if (current === undefined) stray.push(block.id);
      else of.set(block.id, current);
      current = undefined;
      continue;
    }
    const begins = cellIn(block, 'aside') !== undefined;
    if (current !== undefined && (begins || beginsSection(block))) {
      open.push(current);
      current = undefined;
    }
    if (begins) {
      current = block.id;
      holds.set(current, []);
    } else if (current !== undefined) {
      of.set(block.id, current);
      holds.get(current)?.push(block);
    }
  }
  if (current !== undefined) open.push(current);
  return { of, holds, open, stray };
});

/** Whether a heading of one or two `#` stands in a text, and not in a program text there. */
const beginsSection = remembered((block: Block): boolean => {
  if (block.kind !== 'prose') return false;
  let fence: string | undefined;
  for (const line of block.source.split(/\r?\n|\r/)) {
    const mark = readFence(line);
    if (mark !== undefined && (fence === undefined || (mark.info === '' && fence === mark.mark))) fence = fence === undefined ? mark.mark : undefined;
    else if (fence === undefined && /^ {0,3}##?(?:[ \t]|$)/.test(line)) return true;
  }
  return false;
});

/** What is said of asides without an end, and of ends without a beginning. */
export function asideProblems(document: Pick<SheetDocument, 'blocks'>): readonly Problem[] {
  const { open, stray } = asidesIn(document);
  return [
    ...open.map((cell): Problem => ({
      code: 'aside-open', cell, what: 'This part has no end: it holds all that follows, up to the next part or section.',
      mend: 'Put a cell `end` below the last line that belongs to it.',
    })),
    ...stray.map((cell): Problem => ({ code: 'end-alone', cell, what: 'This ends a part, and none was begun.', mend: 'Put a cell `aside` above the first line of the part, or delete this one.' })),
  ];
}
