import { draftCell, placeDraft } from './cell-draft.ts';
import { cellIn } from './cells-of.ts';
import { fencesOf } from './fence.ts';
import { continuing } from './lineage.ts';
import { endsLine, splitLines } from './text-lines.ts';
import { drafts, LONGEST_DOCUMENT } from './parse.ts';
import { shapedLike } from './shape.ts';
import { splitBody } from './split.ts';
import { rowsText, sizeOfRows } from './table/rows-text.ts';
import type { RowsText } from './table/rows-text.ts';
import { canStandAfter, longestWith, tableBlock, withRowsOf } from './table/table-block.ts';
import type { Fences } from './table/table-block.ts';
import type { Block, CellBlock, SheetDocument } from './types.ts';

/*
 * An edit of one cell reads that cell, and of a long table only the rows that changed. Where anything else in the document
 * could read differently for it, nothing is given here and the whole text is read.
 */

/**
 * The document with another text between the fences of one cell, of which only that cell is read; undefined where reading
 * all of the text anew could give anything else than the one block changed.
 */
export function replaceCell(document: SheetDocument, block: CellBlock, source: string): SheetDocument | undefined {
  if (source.includes('\0') || endsLine(source) !== endsLine(block.source)) return undefined;
  const { segments, open } = splitBody(source);
  const [segment] = segments;
  if (open.length > 0 || segments.length !== 1 || segment?.kind !== 'cell' || segment.cellKind !== block.cellKind) return undefined;
  const draft = draftCell(segment.cellKind, segment.body);
  const before = drafts.get(block);
  if (before === undefined || draft.statedId !== before.statedId || draft.symbol !== before.symbol) return undefined;
  if (draft.problems.length + draft.unknownKeys.length > 0 || !canReplace(document, block, linesIn(source) !== linesIn(block.source))) return undefined;
  const next: CellBlock = continuing({ kind: 'cell', id: block.id, cellKind: segment.cellKind, source, body: segment.body, cell: placeDraft(draft, block.id, 0) }, block);
  drafts.set(next, draft);
  return withBlock(document, block, next);
}

/** The document with other rows in a table, of which only what changed is read; undefined as for `replaceCell`. */
export function replaceRows(document: SheetDocument, block: CellBlock, rows: RowsText, longest: number): SheetDocument | undefined {
  const draft = drafts.get(block);
  const cell = cellIn(block, 'table');
  if (cell === undefined || draft?.fields.kind !== 'table' || draft.rowsPlace === undefined) return undefined;
  const earlier = rowsText(cell);
  const known = shapes.get(block) ?? { fences: fencesOf(block.source), length: block.source.length };
  const length = longestWith(draft.rowsPlace, rows);
  if (length > longest || !canStandAfter(earlier, rows) || !canReplace(document, block, sizeOfRows(rows).lineEnds !== sizeOfRows(earlier).lineEnds)) return undefined;
  const next = continuing(tableBlock(block, withRowsOf(cell, rows), draft.rowsPlace, rows, known.fences), block);
  shapes.set(next, { fences: known.fences, length: length + known.fences.opening.length + known.fences.closing.length });
  drafts.set(next, { ...draft, fields: withRowsOf(draft.fields, rows) });
  return withBlock(document, block, next);
}

/** Of tables whose text is put together only when it is asked for: the lines around it, and its length at most. */
const shapes = new WeakMap<Block, { readonly fences: Fences; readonly length: number }>();

function lengthOf(block: Block): number {
  return shapes.get(block)?.length ?? block.source.length;
}

/** Whether nothing that is told of a document depends on the text of this block, or on the lines below it staying where they are. */
function canReplace(document: SheetDocument, block: CellBlock, doLinesMove: boolean): boolean {
  if (document.problems.length > 0 || tellsLines(block)) return false;
  const below = doLinesMove ? document.blocks.slice(document.blocks.indexOf(block) + 1) : [];
  return !below.some(tellsLines);
}

function tellsLines(block: Block): boolean {
  return block.kind === 'cell' && block.cell.problems.length + block.cell.unknownKeys.length > 0;
}

function withBlock(document: SheetDocument, block: CellBlock, next: CellBlock): SheetDocument | undefined {
  const at = document.blocks.indexOf(block);
  const length = wholeLength(document) - lengthOf(block) + lengthOf(next);
  if (at < 0 || length > LONGEST_DOCUMENT) return undefined;
  const replaced = { ...document, blocks: document.blocks.with(at, next) };
  lengths.set(replaced, length);
  // What a part on demand is called is told of all that stands in it.
  return cellIn(next, 'aside') === undefined ? shapedLike(replaced, document) : replaced;
}

/** Of documents made of an earlier one, carried on from edit to edit. */
const lengths = new WeakMap<SheetDocument, number>();

function wholeLength(document: SheetDocument): number {
  return lengths.get(document) ?? document.blocks.reduce((sum, block) => sum + lengthOf(block), document.frontMatter.source.length);
}

function linesIn(source: string): number {
  return splitLines(source).length;
}
