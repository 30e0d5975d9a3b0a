import type { CellDraft } from './cell-draft.ts';
import type { Segment } from './split.ts';
import type { Block } from './types.ts';

/**
 * For each segment the block of the earlier document that it continues: first the same text, in order from both ends,
 * then the same text anywhere between (a block that was moved, prose perhaps with other blank lines around it), then, in
 * order, a block of the same kind (one whose text was edited).
 */
export function matchBlocks(segments: readonly Segment[], earlier: readonly Block[]): readonly (Block | undefined)[] {
  const matched: (Block | undefined)[] = segments.map(() => undefined);
  const shared = Math.min(segments.length, earlier.length);
  let head = 0;
  while (head < shared && segments[head]?.source === earlier[head]?.source) {
    matched[head] = earlier[head];
    head++;
  }
  let tail = 0;
  while (tail < shared - head && segments.at(-1 - tail)?.source === earlier.at(-1 - tail)?.source) {
    matched[segments.length - 1 - tail] = earlier.at(-1 - tail);
    tail++;
  }
  const left = earlier.slice(head, earlier.length - tail);
  takeEach(segments, matched, left, ({ source }) => source, ({ source }) => source);
  const rest = (): readonly Block[] => {
    const taken = new Set(matched);
    return left.filter((block) => !taken.has(block));
  };
  takeEach(segments, matched, rest(), ({ source }) => source.trim(), ({ source }) => source.trim());
  takeEach(segments, matched, rest(), kindOfSegment, kindOfBlock);
  return matched;
}

/** Gives every unmatched segment the first block with the same mark that is left. */
function takeEach(
  segments: readonly Segment[],
  matched: (Block | undefined)[],
  blocks: readonly Block[],
  markOfSegment: (segment: Segment) => string,
  markOfBlock: (block: Block) => string,
): void {
  const queues = new Map<string, Block[]>();
  for (const block of blocks.toReversed()) {
    const mark = markOfBlock(block);
    const queue = queues.get(mark);
    if (queue === undefined) queues.set(mark, [block]);
    else queue.push(block);
  }
  segments.forEach((segment, i) => {
    matched[i] ??= queues.get(markOfSegment(segment))?.pop();
  });
}

function kindOfSegment(segment: Segment): string {
  return segment.kind === 'prose' ? 'prose' : `cell ${segment.cellKind}`;
}

function kindOfBlock(block: Block): string {
  return block.kind === 'prose' ? 'prose' : `cell ${block.cellKind}`;
}

/** Of the block that a segment continues: its id, and the same where that was made from kind and place and so may be kept. */
interface BlockBefore {
  readonly id: string | undefined;
  readonly madeId: string | undefined;
}

export interface Identity {
  readonly id: string;
  /** The id stated by this cell that another one has already. */
  readonly duplicateOf?: string;
}

/**
 * Ids of all segments, unique: the stated id, else the symbol, else the id that the block had before, else the kind and
 * its number in order. Where several cells claim one id, the one that had it before keeps it (what is typed in another cell
 * takes no cell's place), else the first; the others get a suffix.
 */
export function identify(
  segments: readonly Segment[],
  drafts: readonly (CellDraft | undefined)[],
  before: readonly BlockBefore[],
): readonly Identity[] {
  const taken = new Set<string>();
  const result: (Identity | undefined)[] = segments.map(() => undefined);
  const nextSuffix = new Map<string, number>();
  const free = (stem: string, from: number): string => {
    let n = Math.max(from, nextSuffix.get(stem) ?? from);
    while (taken.has(`${stem}-${n}`)) n++;
    nextSuffix.set(stem, n + 1);
    return `${stem}-${n}`;
  };
  const give = (i: number, identity: Identity): void => {
    taken.add(identity.id);
    result[i] = identity;
  };
  const claims = drafts.map((draft) => draft?.statedId ?? draft?.symbol);
  claims.forEach((claim, i) => {
    if (claim !== undefined && claim === before[i]?.id && !taken.has(claim)) give(i, { id: claim });
  });
  drafts.forEach((draft, i) => {
    const claim = claims[i];
    if (claim === undefined || result[i] !== undefined) return;
    if (!taken.has(claim)) give(i, { id: claim });
    else give(i, { id: free(claim, 2), ...(draft?.statedId === undefined ? {} : { duplicateOf: claim }) });
  });
  before.forEach(({ madeId: id }, i) => {
    if (id !== undefined && result[i] === undefined && !taken.has(id)) give(i, { id });
  });
  const counts = new Map<string, number>();
  segments.forEach((segment, i) => {
    const stem = segment.kind === 'prose' ? 'prose' : segment.cellKind;
    const count = (counts.get(stem) ?? 0) + 1;
    counts.set(stem, count);
    if (result[i] === undefined) give(i, { id: free(stem, count) });
  });
  return result.map((identity) => identity ?? { id: '' });
}
