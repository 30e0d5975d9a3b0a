import { endsLine, splitLines } from './text-lines.ts';
import type { SheetDocument } from './types.ts';

/**
 * A document's blocks as pieces to move about: cells and prose without the blank lines around it, and, without an id,
 * the blank lines between them. Pieces change places while the blank lines stay, so that the page keeps its spacing.
 */
export interface Piece {
  readonly text: string;
  /** Id of the block; absent for blank lines. */
  readonly id?: string;
  readonly isProse: boolean;
}

export function piecesOf(document: SheetDocument): readonly Piece[] {
  return document.blocks.flatMap((block): Piece[] => {
    if (block.kind === 'cell') return [{ text: block.source, id: block.id, isProse: false }];
    const lines = splitLines(block.source);
    const first = lines.findIndex((line) => line.trim() !== '');
    if (first < 0) return [{ text: block.source, isProse: true }];
    const last = lines.findLastIndex((line) => line.trim() !== '');
    const blank = (from: number, to: number): Piece[] =>
      from === to ? [] : [{ text: lines.slice(from, to).join(''), isProse: true }];
    const core = { text: lines.slice(first, last + 1).join(''), id: block.id, isProse: true };
    return [...blank(0, first), core, ...blank(last + 1, lines.length)];
  });
}

/** The pieces as text; each but the last gets a line end where it has none. */
export function joinPieces(pieces: readonly Piece[], lineEnd: string): string {
  return pieces.map(({ text }, i) => (i === pieces.length - 1 || endsLine(text) ? text : text + lineEnd)).join('');
}

/** With a piece after the one at `index` (-1: at the start), a blank line on either side where something stands there. */
export function insertPiece(pieces: readonly Piece[], index: number, piece: Piece, lineEnd: string): readonly Piece[] {
  const before = pieces.slice(0, index + 1);
  const after = pieces.slice(index + 1);
  const gap: Piece = { text: lineEnd, isProse: true };
  const needsAfter = after[0] !== undefined && after[0].id !== undefined;
  return [...before, ...(before.length > 0 ? [gap] : []), piece, ...(needsAfter ? [gap] : []), ...after];
}

/** Without one piece and the blank lines on one side of it. */
export function removePiece(pieces: readonly Piece[], index: number, lineEnd: string): readonly Piece[] {
  const isBlank = (at: number): boolean => pieces[at] !== undefined && pieces[at].id === undefined;
  const to = isBlank(index + 1) ? index + 2 : index + 1;
  const from = to === index + 1 && to === pieces.length && isBlank(index - 1) ? index - 1 : index;
  const before = pieces.slice(0, from);
  const after = pieces.slice(to);
  const wouldJoin = before.at(-1)?.id !== undefined && before.at(-1)?.isProse === true && after[0]?.isProse === true;
  return [...before, ...(wouldJoin ? [{ text: lineEnd, isProse: true }] : []), ...after];
}

/** The index of the next piece with an id above (-1) or below (1); undefined at the end of the document. */
export function neighbour(pieces: readonly Piece[], index: number, direction: 1 | -1): number | undefined {
  for (let at = index + direction; at >= 0 && at < pieces.length; at += direction) {
    if (pieces[at]?.id !== undefined) return at;
  }
  return undefined;
}

export function swapPieces(pieces: readonly Piece[], a: number, b: number): readonly Piece[] {
  const result = [...pieces];
  const first = pieces[a];
  const second = pieces[b];
  if (first !== undefined) result[b] = first;
  if (second !== undefined) result[a] = second;
  return result;
}
