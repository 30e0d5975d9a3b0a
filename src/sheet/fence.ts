import { endsLine, lineEndOf, lineStart, splitLines } from './text-lines.ts';
import { isKnownKind } from './keys.ts';
import { readFence } from './split.ts';
import type { CellBlock } from './types.ts';

/** The lines of a cell's source around its body. */
export function fencesOf(source: string): { readonly opening: string; readonly closing: string } {
  const opening = /^[^\r\n]*(?:\r\n|\n|\r)?/.exec(source)?.[0] ?? '';
  const end = source.length - (/(?:\r\n|\n|\r)$/.exec(source.slice(-2))?.[0].length ?? 0);
  return { opening, closing: source.slice(lineStart(source, end)) };
}

/** A cell's source with another body between its fences, which grow where the body holds a line that would close them. */
export function withBody(block: CellBlock, body: string): string {
  const { opening, closing } = fencesOf(block.source);
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
