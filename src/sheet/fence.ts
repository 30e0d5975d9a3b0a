import { endsLine, lineEndOf, splitLines } from './lines.ts';
import { isKnownKind } from './keys.ts';
import { readFence } from './split.ts';
import type { CellBlock } from './types.ts';

/** A cell's source with another body between its fences, which grow where the body holds a line that would close them. */
export function withBody(block: CellBlock, body: string): string {
  const lines = splitLines(block.source);
  const opening = lines[0] ?? '';
  const closing = lines.at(-1) ?? '';
  const closed = endsLine(body) ? body : body + lineEndOf(opening);
  const fence = readFence(opening);
  if (fence === undefined) return opening + closed + closing;
  const length = neededLength(closed, fence.mark, fence.length);
  const run = fence.mark.repeat(length);
  const lengthen = (line: string): string => line.replace(/[`~]{3,}/, (old) => (old.length < length ? run : old));
  return lengthen(opening) + closed + lengthen(closing);
}

function neededLength(body: string, mark: string, length: number): number {
  const inner = splitLines(body).map(readFence);
  const clashing = inner.filter((line) => line?.mark === mark && (line.info === '' || isKnownKind(line.info)));
  return Math.max(length, ...clashing.map((line) => (line?.length ?? 0) + 1));
}
