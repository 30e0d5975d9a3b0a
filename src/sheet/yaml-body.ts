import { Composer, isMap, isScalar, Parser, visit } from 'yaml';
import type { ParsedNode, YAMLMap } from 'yaml';
import { rememberedShortTexts } from '../core/remembered/index.ts';
import type { BodyProblem } from './body-problem.ts';
import { lineText, rowAt, splitLines } from './text-lines.ts';
import {
  DEEPEST,
  foreignProblems,
  isMarker,
  looksTooDeep,
  MOST_PIECES,
  MOST_PROBLEMS,
  MOST_TOKENS,
  survey,
} from './yaml-guard.ts';
import { noKeysProblem, writingProblem } from './writing-problems.ts';
import { slipProblem } from './yaml-slip.ts';

/** One `key: value` with its places in the text: what edits cut and paste by. */
export interface Entry {
  readonly key: string;
  /** Offsets of the key's first character and of the place just after its last. */
  readonly keyStart: number;
  readonly keyEnd: number;
  /** Absent where there is no colon. */
  readonly node: ParsedNode | undefined;
  /** Where the entry can't be read as written: its lines, and what stands behind the colon if that is one line. */
  readonly broken?: { readonly end: number; readonly text: string | undefined };
}

export interface BodyReading {
  readonly entries: readonly Entry[];
  readonly problems: readonly BodyProblem[];
  /** `braces`: one group `{ a: 1 }`; `none`: no keys at all, or refused as a whole. */
  readonly form: 'lines' | 'braces' | 'none';
}

const READING = {
  schema: 'failsafe',
  prettyErrors: false,
  uniqueKeys: false,
  stringKeys: true,
  merge: false,
  version: '1.2',
  logLevel: 'silent',
} as const;

/** Bodies that an edit reads again and again: before it, to see that it reads as meant, and as a cell. */
const BODIES_KEPT = 200;
const LONGEST_KEPT = 4_000;

/**
 * Reads the YAML of a cell or of the front matter as text only: failsafe schema, so that `007`, `1e3` and `6,35 mm` stay
 * what was typed; no aliases, anchors, tags or directives. Where something is wrong, each entry is read by itself, so
 * that the others are read all the same. Places are offsets into `body`.
 */
export const readBody = rememberedShortTexts(BODIES_KEPT, LONGEST_KEPT, (body: string): BodyReading => {
  const text = body.replace(/\r(?!\n)/g, '\n');
  if (isBlank(text)) return { entries: [], problems: [], form: 'lines' };
  if (looksTooDeep(text)) return { entries: [], problems: [writingProblem('too-deep', 0)], form: 'none' };
  const whole = readPiece(text, 0);
  if (whole.isTooLong === true || (whole.slip === undefined && whole.form !== 'none')) return whole;
  const readings = pieces(text)
    .slice(0, MOST_PIECES)
    .map((piece) => asWritten(piece, movedDown(readPiece(piece.text, piece.start), piece.row)));
  const entries = readings.flatMap((reading) => reading.entries);
  const problems = readings.flatMap((reading) => reading.problems).slice(0, MOST_PROBLEMS);
  // Every entry is sound by itself, but not all together: they do not begin at the same column.
  if (problems.length === 0) problems.push(writingProblem('indentation', rowAt(text, whole.slip ?? 0)));
  return { entries, problems, form: entries.length > 0 ? 'lines' : 'none' };
});

interface PieceReading extends BodyReading {
  /** Offset of what the YAML reader stumbled over first. */
  readonly slip?: number;
  readonly isTooLong?: boolean;
}

function readPiece(text: string, offset: number): PieceReading {
  const refused = (problem: BodyProblem): PieceReading => ({ entries: [], problems: [problem], form: 'none' });
  if (isBlank(text)) return { entries: [], problems: [], form: 'lines' };
  const tokens = [...new Parser().parse(text)];
  const found = survey(tokens);
  if (found.depth > DEEPEST) return refused(writingProblem('too-deep', 0));
  if (found.count > MOST_TOKENS) return { ...refused(writingProblem('too-many-entries', 0)), isTooLong: true };
  const marker = tokens.find(isMarker);
  if (marker !== undefined) {
    return refused(writingProblem('marker-line', 'offset' in marker ? rowAt(text, marker.offset) : 0));
  }
  const [document] = [...new Composer(READING).compose(tokens, true, text.length)];
  if (document === undefined) return refused(noKeysProblem(text));
  const contents = document.contents as ParsedNode | null;
  const entries = isMap(contents) ? entriesOf(contents, offset) : [];
  const [slip] = document.errors;
  if (slip !== undefined) {
    return { entries, problems: [slipProblem(document.errors, text, entries[0]?.key)], form: 'lines', slip: slip.pos[0] };
  }
  if (!isMap(contents)) return refused(noKeysProblem(text));
  return { entries, problems: foreignProblems(text, found), form: contents.flow === true ? 'braces' : 'lines' };
}

function movedDown(reading: PieceReading, rows: number): PieceReading {
  return { ...reading, problems: reading.problems.map((problem) => ({ ...problem, row: problem.row + rows })) };
}

/** A broken piece keeps its first entry only, and that as it was written where it is one line. */
function asWritten(piece: Piece, reading: PieceReading): PieceReading {
  const [first] = reading.entries;
  if (reading.slip === undefined || first === undefined) return reading;
  const lines = splitLines(piece.text);
  const used = lines.findLastIndex((line) => !isBlank(line)) + 1;
  const end = piece.start + lines.slice(0, used).join('').length;
  const afterKey = lineText(piece.text.slice(first.keyEnd - piece.start, end - piece.start));
  const behind = /^[ \t]*:(.*)$/.exec(afterKey)?.[1]?.trim();
  return { ...reading, entries: [{ ...first, broken: { end, text: used === 1 ? behind : undefined } }] };
}

interface Piece {
  text: string;
  readonly start: number;
  readonly row: number;
}

/** A piece begins on each line that is indented no deeper than the first and is no comment and no item of a list. */
function pieces(text: string): readonly Piece[] {
  const lines = splitLines(text);
  const base = indentOf(lines.find((line) => !isBlank(line)) ?? '');
  const result: Piece[] = [];
  let start = 0;
  lines.forEach((line, row) => {
    const begins = !isBlank(line) && indentOf(line) <= base && !/^ *-(?:\s|$)/.test(line);
    const last = result.at(-1);
    if (last === undefined || begins) result.push({ text: line, start, row });
    else last.text += line;
    start += line.length;
  });
  return result;
}

/** The entries of a group, `offset` added to their places; those whose key is no text are left out (a problem says so). */
export function entriesOf(map: YAMLMap, offset = 0): readonly Entry[] {
  if (offset > 0) movePlaces(map, offset);
  return map.items.flatMap(({ key, value }) => {
    if (!isScalar(key) || typeof key.value !== 'string' || !key.range) return [];
    const [keyStart, keyEnd] = key.range;
    return [{ key: key.value, keyStart, keyEnd, node: (value as ParsedNode | null) ?? undefined }];
  });
}

function movePlaces(node: YAMLMap, offset: number): void {
  visit(node, {
    Node: (_key, inner) => {
      if (inner.range) inner.range = [inner.range[0] + offset, inner.range[1] + offset, inner.range[2] + offset];
    },
  });
}

/** Nothing but blank lines and comments. */
function isBlank(text: string): boolean {
  return splitLines(text).every((line) => /^\s*(?:#|$)/.test(line));
}

function indentOf(line: string): number {
  return /^ */.exec(line)?.[0].length ?? 0;
}
