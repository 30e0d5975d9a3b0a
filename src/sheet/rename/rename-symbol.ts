import { checkSymbolName } from '../../core/formula/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { asKind } from '../cells-of.ts';
import { withBody } from '../fence.ts';
import { isKnownKind } from '../keys.ts';
import { lastTextBlock, lastTextKey } from '../last-text.ts';
import { HEAD_HOLDS, HOLDS, type Holds } from '../reference/holds.ts';
import { ASKS } from '../reference/parts.ts';
import { splitText } from '../split.ts';
import { splitLines } from '../text-lines.ts';
import type { Block, Cell, CellBlock, SheetDocument } from '../types.ts';
import { readBody } from '../yaml-body.ts';
import { symbolPlaces, withSymbol } from './places.ts';

/** Every symbol that a cell gives the sheet: its own, and what a table, a fit, a picture or a record publishes. */
export function symbolsGiven(cell: Cell): readonly string[] {
  const own = 'symbol' in cell ? [cell.symbol] : [];
  if (!('symbols' in cell)) return own;
  return [...own, ...(asKind(cell, 'table')?.symbols.map(({ symbol }) => symbol) ?? (cell.symbols as ReadonlyMap<string, string>).values())];
}

/**
 * The document's text with another name for a symbol wherever that stands for it: formulas, conditions, what choices set, values in text, drawings, what is asked
 * and published, the head with its held states. Words that only look like it stay (a column of that key in its own table, units, parts of drawings).
 * Problems: `symbol-gone`, `symbol-taken`, and those of a name that can be no symbol.
 */
export function renamedSymbol(document: SheetDocument, from: string, to: string): Result<string> {
  const given = document.blocks.flatMap((block) => (block.kind === 'cell' ? symbolsGiven(block.cell) : []));
  if (!given.includes(from)) return fail(symbolGoneProblem(from));
  const name = checkSymbolName(to);
  if (!name.ok) return name;
  if (to !== from && given.includes(to)) return fail(symbolTakenProblem(to));
  return ok(headWith(document, from, to) + document.blocks.map((block) => sourceWith(block, from, to)).join(''));
}

/** How the reference says that what is asked is a word, a column, a group or a table. */
const NO_QUANTITY = /^(?:`|the (?:id|key) of|a word)/u;

type Holding = Readonly<Record<string, Holds | undefined>>;

function sourceWith(block: Block, from: string, to: string): string {
  if (block.kind === 'prose') return withSymbol(block.source, 'told', from, to);
  if (!isKnownKind(block.cellKind)) return block.source;
  const last = lastTextKey(block.cellKind);
  const long = last === undefined ? undefined : lastTextBlock(block.body, last);
  const head = long?.head ?? block.body;
  const changed = bodyWith(head, readBody(head).entries, holdsOf(block, from), from, to);
  return changed === head ? block.source : withBody(block, changed + block.body.slice(head.length));
}

/** What the keys of a cell hold; in a table that has a column of the name, its formulas mean that. */
function holdsOf({ cell, cellKind }: CellBlock, from: string): Holding {
  const holds: Holding = isKnownKind(cellKind) ? HOLDS[cellKind] : {};
  if (asKind(cell, 'table')?.columns.some(({ key }) => key === from) === true) return { ...holds, where: undefined, columns: { keys: { note: 'told' } } };
  const fit = asKind(cell, 'fit');
  if (fit === undefined) return holds;
  const asks: Readonly<Record<string, { readonly takes: string }>> = fit.finds === 'line' ? {} : ASKS[fit.finds].keys;
  const keys = Object.fromEntries(Object.entries(asks).filter(([, { takes }]) => !NO_QUANTITY.test(takes)).map(([key]) => [key, 'mixed'] as const));
  return { ...holds, asks: { keys } };
}

function bodyWith(body: string, entries: ReturnType<typeof readBody>['entries'], holds: Holding, from: string, to: string): string {
  let [result, at] = ['', 0];
  for (const { start, end, how } of [...symbolPlaces(entries, holds)].toSorted((a, b) => a.start - b.start)) {
    if (start < at) continue;
    result += body.slice(at, start) + withSymbol(body.slice(start, end), how, from, to);
    at = end;
  }
  return result + body.slice(at);
}

function headWith({ frontMatter: { source } }: SheetDocument, from: string, to: string): string {
  const { body } = splitText(source).frontMatter;
  if (body === undefined) return source;
  const lines = splitLines(source);
  return (lines[0] ?? '') + bodyWith(body, readBody(body).entries, HEAD_HOLDS, from, to) + (lines.at(-1) ?? '');
}

function symbolGoneProblem(symbol: string): Problem {
  return { code: 'symbol-gone', what: `No cell of this sheet has the symbol ${symbol}.`, mend: 'Look at the sheet as it stands now.' };
}

function symbolTakenProblem(symbol: string): Problem {
  return { code: 'symbol-taken', what: `${symbol} is a symbol of this sheet already.`, mend: 'Choose another name, or rename that one first.' };
}
