import type { Problem } from '../core/problem/index.ts';
import { draftCell, placeDraft } from './cell-draft.ts';
import type { CellDraft } from './cell-draft.ts';
import { openProblem, tooLongProblem, notTextProblem, tooManyCellsProblem } from './document-problems.ts';
import { readFrontMatter } from './front-matter.ts';
import { identify, matchBlocks } from './identity.ts';
import type { Identity } from './identity.ts';
import { continuing } from './lineage.ts';
import { rowAt } from './text-lines.ts';
import { splitText } from './split.ts';
import type { CellSegment, Segment } from './split.ts';
import type { Block, CellBlock, FrontMatter, SheetDocument } from './types.ts';

/** Longest document that is read, in characters. */
export const LONGEST_DOCUMENT = 16_000_000;
/** Most cells that are read; those that follow are kept as prose. */
const MOST_CELLS = 10_000;

const NO_FRONT_MATTER: FrontMatter = { source: '', entries: new Map(), held: [], problems: [], warnings: [] };

/** Any text as a document; what is wrong with it is told in the problems of its parts. Never throws. */
export function parseSheet(text: string): SheetDocument {
  return parseAgain(text, { frontMatter: NO_FRONT_MATTER, blocks: [], problems: [] });
}

/** The document's text, byte for byte what was parsed. */
export function serialiseSheet(document: SheetDocument): string {
  return document.frontMatter.source + document.blocks.map(({ source }) => source).join('');
}

/** Line of the file, counted from 1, on which a block begins; undefined where there is no such block. */
export function blockLine(document: SheetDocument, id: string): number | undefined {
  const index = document.blocks.findIndex((block) => block.id === id);
  if (index < 0) return undefined;
  const before = document.frontMatter.source + document.blocks.slice(0, index).map(({ source }) => source).join('');
  return rowAt(before, before.length) + 1;
}

/**
 * Parses a text that was edited. Blocks that the edit did not touch are the same objects (`===`) as in `earlier`, and
 * ids made from kind and place stay with their blocks.
 */
export function parseAgain(text: string, earlier: SheetDocument): SheetDocument {
  if (text.length > LONGEST_DOCUMENT) return unread(text, tooLongProblem(LONGEST_DOCUMENT));
  const split = splitText(text);
  const { segments, surplus } = withoutSurplus(split.segments);
  const matched = matchBlocks(segments, earlier.blocks);
  const drafts = segments.map((segment, i) => (segment.kind === 'cell' ? draftOf(segment, matched[i]) : undefined));
  const ids = identify(segments, drafts, matched.map((block) => ({ id: block?.id, madeId: keptId(block) })));
  const blocks = segments.map((segment, i) => continuing(blockOf(segment, drafts[i], ids[i] ?? { id: '' }, matched[i]), matched[i]));
  const problems = [
    ...(text.includes('\0') ? [notTextProblem()] : []),
    ...split.open.map(openProblem),
    ...(surplus === undefined ? [] : [tooManyCellsProblem(MOST_CELLS, surplus)]),
  ];
  const { frontMatter } = earlier;
  const isSame = frontMatter.source === split.frontMatter.source;
  return { frontMatter: isSame ? frontMatter : readFrontMatter(split.frontMatter), blocks, problems };
}

function unread(text: string, problem: Problem): SheetDocument {
  return {
    frontMatter: NO_FRONT_MATTER,
    blocks: [{ kind: 'prose', id: 'prose-1', source: text }],
    problems: [problem],
  };
}

/** Cells beyond the limit become one stretch of prose, so that a hostile file can't keep the page busy. */
function withoutSurplus(segments: readonly Segment[]): { segments: readonly Segment[]; surplus: number | undefined } {
  const cells = segments.filter(({ kind }) => kind === 'cell');
  const first = cells[MOST_CELLS];
  if (first === undefined) return { segments, surplus: undefined };
  const at = segments.indexOf(first);
  const rest = segments.slice(at).map(({ source }) => source);
  const kept: Segment = { kind: 'prose', source: rest.join(''), line: first.line };
  return { segments: [...segments.slice(0, at), kept], surplus: first.line };
}

/** What was read of a block's own text, so that an edit elsewhere need not read it again. */
export const drafts = new WeakMap<Block, CellDraft>();

function draftOf(segment: CellSegment, earlier: Block | undefined): CellDraft {
  const known = earlier?.source === segment.source ? drafts.get(earlier) : undefined;
  return known ?? draftCell(segment.cellKind, segment.body);
}

/** The id a block may keep: only one that was made from kind and place. */
function keptId(block: Block | undefined): string | undefined {
  if (block === undefined || block.kind === 'prose') return block?.id;
  const draft = drafts.get(block);
  return draft?.statedId === undefined && draft?.symbol === undefined ? block.id : undefined;
}

function blockOf(segment: Segment, draft: CellDraft | undefined, identity: Identity, earlier: Block | undefined): Block {
  const { id } = identity;
  const isSame = earlier !== undefined && earlier.source === segment.source && earlier.id === id;
  if (segment.kind === 'prose' || draft === undefined) {
    return isSame ? earlier : { kind: 'prose', id, source: segment.source };
  }
  const cell = placeDraft(draft, id, segment.line + 1, identity.duplicateOf);
  if (isSame && earlier.kind === 'cell' && hasSameProblems(cell.problems, earlier.cell.problems) && hasSameProblems(cell.unknownKeys, earlier.cell.unknownKeys)) return earlier;
  const { cellKind, source, body } = segment;
  const block: CellBlock = { kind: 'cell', id, cellKind, source, body, cell };
  drafts.set(block, draft);
  return block;
}

/** Whether two readings of the same text under the same id tell the same: only lines and duplicates can differ. */
function hasSameProblems(a: readonly Problem[], b: readonly Problem[]): boolean {
  return a.length === b.length && a.every(({ code, line }, i) => code === b[i]?.code && line === b[i]?.line);
}
