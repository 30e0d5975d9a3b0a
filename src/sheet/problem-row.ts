import type { Problem } from '../core/problem/index.ts';
import { lastTextBlock, lastTextKey } from './last-text.ts';
import { rowAt, rowFinder, splitLines } from './text-lines.ts';
import type { CellBlock, SheetDocument } from './types.ts';
import { readBody } from './yaml-body.ts';

/**
 * Where in the text of a cell a problem stands: the row between the fences, counted from 0. One of the cell's own text knows its line of the file; another
 * one stands at its key, or on the line below that holds the text it speaks of. Undefined where neither is told, or the key is not there.
 * @param bodyLine line of the file on which the text between the fences begins
 */
function rowOfProblem({ body, cellKind }: CellBlock, { line, key, text }: Problem, bodyLine: number): number | undefined {
  if (line !== undefined) return line < bodyLine ? undefined : line - bodyLine;
  if (key === undefined) return undefined;
  const last = lastTextKey(cellKind);
  const block = last === undefined ? undefined : lastTextBlock(body, last);
  const head = block?.head ?? body;
  const entries = (block?.reading ?? readBody(head)).entries;
  const at = entries.findIndex((entry) => entry.key === key);
  const entry = entries[at];
  if (entry === undefined) return undefined;
  const rowOf = rowFinder(head);
  const row = rowOf(entry.keyStart);
  const next = entries[at + 1];
  const rows = splitLines(head).slice(row, next === undefined ? undefined : rowOf(next.keyStart));
  const found = text === undefined || text === '' ? -1 : rows.findIndex((one) => one.includes(text));
  return row + Math.max(0, found);
}

/** A line of the file, counted from 1, and of the text between a cell's fences, counted from 0. */
interface ProblemPlace {
  readonly line: number;
  readonly row: number;
}

/** Finds where a problem of a cell stands; undefined where that is not known. */
export function placeFinder({ frontMatter, blocks }: SheetDocument): (cellId: string, problem: Problem) => ProblemPlace | undefined {
  const places = new Map<string, { readonly block: CellBlock; readonly bodyLine: number }>();
  let line = 1 + lineEnds(frontMatter.source);
  for (const block of blocks) {
    if (block.kind === 'cell') places.set(block.id, { block, bodyLine: line + 1 });
    line += lineEnds(block.source);
  }
  return (cellId, problem) => {
    const place = places.get(cellId);
    const row = place && rowOfProblem(place.block, problem, place.bodyLine);
    return place === undefined || row === undefined ? undefined : { line: place.bodyLine + row, row };
  };
}

function lineEnds(text: string): number {
  return rowAt(text, text.length);
}
