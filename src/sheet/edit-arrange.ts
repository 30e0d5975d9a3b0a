import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { insertPiece, joinPieces, neighbour, piecesOf, removePiece, swapPieces } from './arrange.ts';
import type { Piece } from './arrange.ts';
import { edgeProblem, goneProblem, openFence } from './edit-problems.ts';
import { withBody } from './fence.ts';
import { keysOf } from './keys.ts';
import { adoptLineEnds, lineEndOf } from './text-lines.ts';
import { serialiseSheet } from './parse.ts';
import { setKey } from './set-entry.ts';
import { definedIn, freshId, freshSymbol } from './symbols.ts';
import type { Block, SheetDocument } from './types.ts';
import { readBody } from './yaml-body.ts';

/** Commands that put blocks in, take them out or change their order. */
export type ArrangeCommand =
  /** A new text after a block, or at the start of the document. */
  | { readonly do: 'insert'; readonly after: string | undefined; readonly source: string }
  /** A copy below a block, with a symbol and an id of its own. */
  | { readonly do: 'duplicate'; readonly blockId: string }
  /** Past the cell or text above or below, or to a place after a block or at the start of the document. */
  | { readonly do: 'move'; readonly blockId: string; readonly to: 'up' | 'down' | { readonly after: string | undefined } }
  | { readonly do: 'delete'; readonly blockId: string };

/** The document's text after the command. Problems: `block-gone`, `at-the-edge`, `fence-open`. */
export function arrange(document: SheetDocument, command: ArrangeCommand): Result<string> {
  const lineEnd = lineEndOf(serialiseSheet(document));
  const pieces = piecesOf(document);
  const changed = arrangePieces(document, pieces, command, lineEnd);
  return changed.ok ? ok(document.frontMatter.source + joinPieces(changed.value, lineEnd)) : changed;
}

function arrangePieces(
  document: SheetDocument,
  pieces: readonly Piece[],
  command: ArrangeCommand,
  lineEnd: string,
): Result<readonly Piece[]> {
  if (command.do === 'insert') return insert(pieces, command.after, command.source, lineEnd);
  const index = pieces.findIndex(({ id }) => id === command.blockId);
  const piece = pieces[index];
  const block = document.blocks.find(({ id }) => id === command.blockId);
  if (piece === undefined || block === undefined) return fail(goneProblem(command.blockId));
  if (command.do === 'delete') return ok(removePiece(pieces, index, lineEnd));
  if (command.do === 'duplicate') {
    const source = copyOf(document, block, piece.text);
    return source.ok ? insert(pieces, command.blockId, source.value, lineEnd) : source;
  }
  const { to } = command;
  if (to === 'up' || to === 'down') {
    const other = neighbour(pieces, index, to === 'up' ? -1 : 1);
    return other === undefined ? fail(edgeProblem(to)) : ok(swapPieces(pieces, index, other));
  }
  if (to.after === command.blockId) return ok(pieces);
  return insert(removePiece(pieces, index, lineEnd), to.after, piece.text, lineEnd);
}

function insert(
  pieces: readonly Piece[],
  after: string | undefined,
  source: string,
  lineEnd: string,
): Result<readonly Piece[]> {
  const index = after === undefined ? -1 : pieces.findIndex(({ id }) => id === after);
  if (after !== undefined && index < 0) return fail(goneProblem(after));
  const open = openFence(source);
  if (open !== undefined) return fail(open);
  const piece = { text: adoptLineEnds('', source, lineEnd), id: 'new', isProse: false };
  return ok(insertPiece(pieces, index, piece, lineEnd));
}

function copyOf(document: SheetDocument, block: Block, text: string): Result<string> {
  if (block.kind === 'prose') return ok(text);
  const lineEnd = lineEndOf(block.source);
  const stated = new Set(readBody(block.body).entries.map(({ key }) => key));
  let body = block.body;
  const changes: [string, string][] = [];
  const symbol = definedIn(block);
  if (symbol !== undefined) changes.push(['symbol', freshSymbol(symbol, document)]);
  if (stated.has('id')) changes.push(['id', freshId(block.id, document)]);
  for (const [key, value] of changes) {
    const next = setKey(body, keysOf(block.cellKind), key, value, lineEnd);
    if (!next.ok) return next;
    body = next.value;
  }
  return ok(withBody(block, body));
}
