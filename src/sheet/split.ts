import { isKnownKind } from './keys.ts';
import { lineText, splitLines } from './text-lines.ts';

/** A stretch of the text as it stands in the file; all sources, joined behind the front matter's, are the text. */
export type Segment = ProseSegment | CellSegment;

interface ProseSegment {
  readonly kind: 'prose';
  readonly source: string;
  /** Line of the file on which the source begins, counted from 1. */
  readonly line: number;
}

export interface CellSegment {
  readonly kind: 'cell';
  readonly source: string;
  readonly line: number;
  readonly cellKind: string;
  readonly body: string;
}

export interface FrontMatterSegment {
  readonly source: string;
  /** YAML between the two lines of hyphens; undefined where the document has no front matter. */
  readonly body: string | undefined;
}

export interface SplitText {
  readonly frontMatter: FrontMatterSegment;
  readonly segments: readonly Segment[];
  /** Lines of the fences, and of the front matter, that never close. */
  readonly open: readonly OpenPlace[];
}

export interface OpenPlace {
  readonly what: 'cell' | 'fence' | 'front matter';
  readonly line: number;
}

/** A line that opens a fence, by CommonMark 0.31 section 4.5. */
interface Fence {
  readonly indent: string;
  readonly mark: '`' | '~';
  readonly length: number;
  readonly info: string;
}

const BYTE_ORDER_MARK = '\uFEFF';
const PLAIN_WORD = /^\p{L}[\p{L}\p{N}_-]*$/u;

export function readFence(line: string): Fence | undefined {
  const match = /^( {0,3})(`{3,}|~{3,})/.exec(line);
  const run = match?.[2];
  if (match === null || run === undefined) return undefined;
  const info = lineText(line.slice(match[0].length)).trim();
  const mark = run.startsWith('`') ? '`' : '~';
  if (mark === '`' && info.includes('`')) return undefined;
  return { indent: match[1] ?? '', mark, length: run.length, info };
}

/**
 * Splits a text into front matter, prose and cells without losing a character. A cell is a fenced block whose info
 * string is one plain word; any other fenced block is prose. A fence that does not close is told in `open` and stays
 * prose: up to the end, or up to the next line that begins a cell of the sheet, so that one forgotten fence does not
 * swallow the cells that follow.
 */
export function splitText(text: string): SplitText {
  const lines = splitLines(text);
  const open: OpenPlace[] = [];
  const frontMatter = takeFrontMatter(lines, open);
  // The byte order mark is the front matter's, also where that is otherwise empty.
  if (frontMatter.rows === 0) lines[0] = (lines[0] ?? '').slice(frontMatter.segment.source.length);
  const segments = splitBlocks(lines, frontMatter.rows, open);
  return { frontMatter: frontMatter.segment, segments, open };
}

/** Prose and cells of a text that has no front matter. */
export function splitBody(text: string): Omit<SplitText, 'frontMatter'> {
  const open: OpenPlace[] = [];
  return { segments: splitBlocks(splitLines(text), 0, open), open };
}

function splitBlocks(lines: readonly string[], firstRow: number, open: OpenPlace[]): readonly Segment[] {
  const segments: Segment[] = [];
  let prose: string[] = [];
  let proseRow = firstRow;
  const flush = (): void => {
    const source = prose.join('');
    if (source !== '') segments.push({ kind: 'prose', source, line: proseRow + 1 });
    prose = [];
  };
  let row = firstRow;
  while (row < lines.length) {
    const fence = readFence(lines[row] ?? '');
    const end = fence === undefined ? { row: row + 1, isClosed: true } : endOfFence(lines, row, fence);
    const isCell = fence !== undefined && PLAIN_WORD.test(fence.info);
    if (!end.isClosed) open.push({ what: isCell ? 'cell' : 'fence', line: row + 1 });
    const source = lines.slice(row, end.row).join('');
    if (isCell && end.isClosed) {
      flush();
      const body = lines.slice(row + 1, end.row - 1).join('');
      segments.push({ kind: 'cell', source, line: row + 1, cellKind: fence.info, body });
    } else {
      if (prose.length === 0) proseRow = row;
      prose.push(source);
    }
    row = end.row;
  }
  flush();
  return segments;
}

/** The row after the fence's last line: after its closing line, or where its text ends because it does not close. */
function endOfFence(lines: readonly string[], start: number, fence: Fence): { row: number; isClosed: boolean } {
  for (let row = start + 1; row < lines.length; row++) {
    const inner = readFence(lines[row] ?? '');
    if (inner === undefined || inner.mark !== fence.mark || inner.length < fence.length) continue;
    if (inner.info === '') return { row: row + 1, isClosed: true };
    if (isKnownKind(inner.info)) return { row, isClosed: false };
  }
  return { row: lines.length, isClosed: false };
}

/** Front matter opens on the first line only; it must close before a cell begins. */
function takeFrontMatter(lines: readonly string[], open: OpenPlace[]): { segment: FrontMatterSegment; rows: number } {
  const first = lines[0] ?? '';
  const mark = first.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : '';
  const none = { segment: { source: mark, body: undefined }, rows: 0 };
  if (!/^---[ \t]*$/.test(lineText(first.slice(mark.length)))) return none;
  for (let row = 1; row < lines.length; row++) {
    const line = lineText(lines[row] ?? '');
    if (/^(?:---|\.\.\.)[ \t]*$/.test(line)) {
      const body = lines.slice(1, row).join('');
      return { segment: { source: lines.slice(0, row + 1).join(''), body }, rows: row + 1 };
    }
    if (isKnownKind(readFence(line)?.info ?? '')) break;
  }
  open.push({ what: 'front matter', line: 1 });
  return none;
}
