import { Lexer } from 'yaml';
import { seedOfText } from '../../core/numeric/index.ts';
import { fail, ok, type Result } from '../../core/problem/index.ts';
import { asKind } from '../cells-of.ts';
import { applyEdit, type EditCommand } from '../edit.ts';
import { entering } from '../enter-text.ts';
import { withBody } from '../fence.ts';
import { HELD, REFERENCE } from '../held/read-held.ts';
import { leftByTest } from '../next-specimen.ts';
import { parseSheet } from '../parse.ts';
import { splitText } from '../split.ts';
import { splitLines } from '../text-lines.ts';
import type { CellBlock, SheetDocument } from '../types.ts';
import { sealed } from './sealed.ts';
import { VARIANT } from './variant.ts';

/** The entry of the front matter from which the numbers of all teams come. */
const CLASS_SEED = 'class_seed';

/** Entries of the front matter that are the instructor's own, or show what the instructor looked at. */
const INSTRUCTORS: readonly string[] = [CLASS_SEED, HELD, REFERENCE, 'slips', 'handed_in'];

/** Whose file it is, and what stands in its blanks. */
export interface ForTeam {
  readonly team: string;
  /** Who is in it; '' where the list does not say. */
  readonly names: string;
  readonly variant: string;
  readonly entries: readonly { readonly symbol: string; readonly text: string }[];
}

/**
 * The sheet as it is handed out: without ranges and conditions, the seed of the class, comments between its keys, own results, trial values, held
 * states, slips that are switched on, ticks, pictures and records of tests.
 */
export function handedOut(document: SheetDocument): Result<SheetDocument> {
  const plain = parseSheet(withoutComments(document));
  const commands: EditCommand[] = INSTRUCTORS.flatMap((key) => (plain.frontMatter.entries.has(key) || (key === HELD && plain.frontMatter.held.length > 0)
    ? [{ do: 'set front matter', key, value: undefined } as const] : []));
  for (const block of plain.blocks) {
    if (block.kind !== 'cell') continue;
    commands.push(...(leftByTest(block)?.commands ?? []), ...ranges(block));
  }
  return applyEdit(plain, { do: 'together', commands });
}

function ranges({ id, cell }: CellBlock): readonly EditCommand[] {
  const [given, step, check] = [asKind(cell, 'given'), asKind(cell, 'step'), asKind(cell, 'check')];
  const key = given?.varies !== undefined ? 'varies' : (step ?? check)?.wanted !== undefined ? 'wanted' : undefined;
  return key === undefined ? [] : [{ do: 'set key', cellId: id, key, value: undefined }];
}

/** The sheet that is handed out, as the file of one team. */
export function forTeam(document: SheetDocument, { team, names, variant, entries }: ForTeam): Result<SheetDocument> {
  const commands: EditCommand[] = [];
  for (const { symbol, text } of entries) {
    const command = entering(document, symbol, text);
    if (!command.ok) return command;
    commands.push(command.value.do === 'set keys' ? { ...command.value, values: new Map([...command.value.values, ['taken', undefined], ['origin', 'set']]) } : command.value);
  }
  for (const block of document.blocks) if (block.kind === 'cell') commands.push(...sealing(block, variant));
  const head = [['team', team], ...(names === '' ? [] : [['operators', names]]), [VARIANT, variant]] as const;
  commands.push(...head.map(([key = '', value]): EditCommand => ({ do: 'set front matter', key, value })));
  return applyEdit(document, { do: 'together', commands });
}

/** What is right of a question does not stand in the file for whoever looks in. */
function sealing({ id, cell }: CellBlock, variant: string): readonly EditCommand[] {
  const question = asKind(cell, 'question');
  const values = (['right', 'formula', 'why'] as const).flatMap((key) => (question?.[key] === undefined ? [] : [[key, sealed(question[key], seedOfText([variant, id, key].join('\n')))] as const]));
  return values.length === 0 ? [] : [{ do: 'set keys', cellId: id, values: new Map(values) }];
}

/** The numbers alone, for working the sheet out without a team. */
export function withEntries(document: SheetDocument, entries: ForTeam['entries']): Result<SheetDocument> {
  const commands: EditCommand[] = [];
  for (const { symbol, text } of entries) {
    const command = entering(document, symbol, text);
    if (!command.ok) return fail(command.problem);
    commands.push(command.value);
  }
  return commands.length === 0 ? ok(document) : applyEdit(document, { do: 'together', commands });
}

function withoutComments({ frontMatter: { source }, blocks }: SheetDocument): string {
  const { body } = splitText(source).frontMatter;
  const lines = splitLines(source);
  const head = body === undefined || !body.includes('#') ? source : (lines[0] ?? '') + commentsGone(body) + (lines.at(-1) ?? '');
  return head + blocks.map((block) => (block.kind === 'cell' && block.body.includes('#') ? withBody(block, commentsGone(block.body)) : block.source)).join('');
}

/** Signs that the reader of YAML puts in between, which stand for no text. */
const BETWEEN: readonly string[] = ['\u0002', '\u0018', '\u001f'];
const TEXT_FOLLOWS = '\u001f';

/** A body without its comments: a line of nothing else goes whole, what stands in texts stays. */
export function commentsGone(body: string): string {
  let [kept, at, from, before] = ['', 0, 0, ''];
  for (const piece of new Lexer().lex(body)) {
    if (!BETWEEN.includes(piece)) {
      // What follows the sign for a text is that text, whatever it begins with.
      if (piece.startsWith('#') && before !== TEXT_FOLLOWS) {
        const [start, end] = around(body, at, at + piece.length);
        kept += body.slice(from, Math.max(from, start));
        from = end;
      }
      at += piece.length;
    }
    before = piece;
  }
  return kept + body.slice(from);
}

/** The whole line where nothing else stands on it, else the comment with the blanks before it. */
function around(body: string, start: number, end: number): readonly [start: number, end: number] {
  const lineStart = body.lastIndexOf('\n', start - 1) + 1;
  const blanks = /[ \t]*$/u.exec(body.slice(lineStart, start))?.[0].length ?? 0;
  if (start - blanks > lineStart) return [start - blanks, end];
  return [lineStart, end + (/^\r?\n/u.exec(body.slice(end, end + 2))?.[0].length ?? 0)];
}
