import type { Expression } from '../core/formula/types.ts';
import { parseFormula, referencedSymbols } from '../core/formula/index.ts';
import type { Problem } from '../core/problem/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { groupsBehind, type OfferedSlip } from '../sheet/index.ts';
import type { Cell, CellBlock, ChoiceCell, ChoiceOption, FitCell, SheetDocument, TableCell } from '../sheet/types.ts';
import { recordFillings } from './record/fillings.ts';

/** Code of the trouble that the symbols of a fit have while no line has been taken yet. Their readers make it their own. */
export const LINE_AWAITED = 'line-awaited';

/** The value or formula that the chosen option of a choice gives to a symbol. */
export interface Filling {
  readonly text: string;
  /** The choice, or the test record, that fills it. */
  readonly choice: Pick<ChoiceCell, 'id' | 'label'>;
  readonly option: Pick<ChoiceOption, 'key' | 'label'>;
}

/** The cell that defines a symbol, and the others that claim it too. */
export interface Definition {
  readonly symbol: string;
  readonly block: CellBlock;
  readonly rivals: readonly CellBlock[];
}

/** Who defines what in a document, before any number is looked at. */
export interface Names {
  readonly definitions: ReadonlyMap<string, Definition>;
  readonly fillings: ReadonlyMap<string, Filling>;
  /** Option in force of each choice by cell id; absent where the chosen key is unknown. */
  readonly chosen: ReadonlyMap<string, ChoiceOption>;
  /** Where the chosen key is no option: what was written, and the groups of specimens that it may name for a fit that takes its group from the choice. */
  readonly otherKeys: ReadonlyMap<string, { readonly typed: string; readonly groups: readonly string[] }>;
  /** Tables and fits by their ids. */
  readonly tables: ReadonlyMap<string, TableCell>;
  readonly fits: ReadonlyMap<string, FitCell>;
  /** Slips in force by the symbol that they make wrong. */
  readonly slips: ReadonlyMap<string, OfferedSlip>;
}

/** @param on slips in force */
export function collectNames(document: SheetDocument, on: readonly OfferedSlip[]): Names {
  const definitions = new Map<string, Definition>();
  const fillings = new Map<string, Filling>();
  const chosen = new Map<string, ChoiceOption>();
  const otherKeys = new Map<string, { typed: string; groups: readonly string[] }>();
  const tables = new Map<string, TableCell>();
  const fits = new Map<string, FitCell>();
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const cell = block.cell;
    for (const symbol of definedSymbols(cell)) {
      const earlier = definitions.get(symbol);
      if (earlier === undefined) definitions.set(symbol, { symbol, block, rivals: [] });
      else definitions.set(symbol, { ...earlier, rivals: [...earlier.rivals, block] });
    }
    if (cell.kind === 'table') tables.set(cell.id, cell);
    if (cell.kind === 'fit') fits.set(cell.id, cell);
    if (cell.kind === 'record') {
      const option = { key: cell.id, label: cell.label ?? 'the test record' };
      for (const [symbol, text] of recordFillings(cell)) fillings.set(symbol, { text, choice: cell, option });
    }
    if (cell.kind === 'choice') {
      const option = cell.options.find(({ key }) => key === cell.chosen);
      if (option === undefined) otherKeys.set(cell.id, { typed: cell.chosen, groups: groupsBehind(document, cell.id) });
      if (option === undefined) continue;
      chosen.set(cell.id, option);
      if (isMissing(option, document)) continue;
      for (const [symbol, text] of option.sets) fillings.set(symbol, { text, choice: cell, option });
    }
  }
  const slips = new Map(on.map((slip) => [slip.cell.symbol, slip]));
  return { definitions, fillings, chosen, otherKeys, tables, fits, slips };
}

/** Symbols of fits that still wait for a line from another sheet. */
const awaitedSymbols = remembered((document: SheetDocument): ReadonlySet<string> =>
  new Set(document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'fit' && awaitsLine(block.cell) ? [...block.cell.symbols.values()] : []))));

/** Whether a fit still waits for a line from another sheet. */
export function awaitsLine(cell: FitCell): boolean {
  return cell.finds === 'line' && cell.snapshot === undefined && cell.table === '' && cell.of === undefined;
}

/** Whether an option that says what it may lack does lack it: it sets nothing, or reads a line that has still to be taken. */
export function isMissing(option: ChoiceOption, document: SheetDocument): boolean {
  if (option.missing === undefined) return false;
  const symbols = awaitedSymbols(document);
  return option.sets.size === 0 || [...option.sets.values()].some((text) => symbolsOf(text).some((symbol) => symbols.has(symbol)));
}

/** Symbols that a text reads, if it is a formula. */
export function symbolsOf(text: string): readonly string[] {
  const read = parseRemembered(text);
  return read.ok ? referencedSymbols(read.value) : [];
}

/** Symbols that a cell defines; one whose symbol is not written yet defines none (its own problems say so). */
export function definedSymbols(cell: Cell): readonly string[] {
  if (cell.kind === 'fit' || cell.kind === 'record') return [...cell.symbols.values()];
  if (cell.kind === 'photo') return [...cell.symbols.values()];
  if (cell.kind === 'table') return cell.symbols.map(({ symbol }) => symbol);
  return (cell.kind === 'given' || cell.kind === 'step') && cell.symbol !== '' ? [cell.symbol] : [];
}

const parsed = new Map<string, ReturnType<typeof parseFormula>>();
const PARSED_LIMIT = 5000;

/** `parseFormula` with the last few thousand texts remembered: an expression keeps its identity while its text stays. */
export function parseRemembered(text: string): ReturnType<typeof parseFormula> {
  const known = parsed.get(text);
  if (known !== undefined) return known;
  if (parsed.size >= PARSED_LIMIT) parsed.clear();
  const result = parseFormula(text);
  parsed.set(text, result);
  return result;
}

/** Symbols read by any of the expressions, in order of first mention. */
export function readsOf(expressions: readonly Expression[]): readonly string[] {
  return [...new Set(expressions.flatMap((expression) => referencedSymbols(expression)))];
}

export interface ReadingOrder {
  /** Every symbol, those it reads before it (loops broken at an arbitrary place). */
  readonly order: readonly string[];
  /** For each symbol found on a loop: the whole loop in order of reading, the same list for all on it. */
  readonly loops: ReadonlyMap<string, readonly string[]>;
}

/** Depth-first walk over who reads whom, with a stack of its own so that a chain of any length passes. */
export function orderByReading(reads: ReadonlyMap<string, readonly string[]>): ReadingOrder {
  const loops = new Map<string, readonly string[]>();
  const order: string[] = [];
  const state = new Map<string, 'open' | 'done'>();
  const path: { readonly symbol: string; next: number }[] = [];
  const open = (symbol: string): void => {
    state.set(symbol, 'open');
    path.push({ symbol, next: 0 });
  };
  for (const root of reads.keys()) {
    if (state.get(root) === undefined) open(root);
    for (let top = path.at(-1); top !== undefined; top = path.at(-1)) {
      const next = reads.get(top.symbol)?.[top.next++];
      if (next === undefined) {
        path.pop();
        state.set(top.symbol, 'done');
        order.push(top.symbol);
      } else if (state.get(next) === 'open') {
        const loop = path.slice(path.findIndex(({ symbol }) => symbol === next)).map(({ symbol }) => symbol);
        for (const member of loop) if (!loops.has(member)) loops.set(member, loop);
      } else if (reads.has(next) && state.get(next) === undefined) open(next);
    }
  }
  return { order, loops };
}

export function duplicateProblem(definition: Definition, block: CellBlock): Problem {
  const other = [definition.block, ...definition.rivals].find((rival) => rival !== block);
  return {
    code: 'symbol-twice',
    what: `The symbol ${definition.symbol} is defined twice: here and in ${cellName(other)}.`,
    mend: 'Give one of the two another symbol, or delete it.',
    cell: block.id,
    key: 'symbol',
  };
}

/** Symbols of a loop that are named; a loop may be as long as the sheet. */
const MOST_ON_LOOP = 12;

/** The loop as it is read from one of its members, back to that: `a → b → a`. */
export function loopText(member: string, loop: readonly string[]): string {
  const from = loop.indexOf(member);
  const named = Array.from({ length: Math.min(loop.length, MOST_ON_LOOP) }, (_, i) => loop[(from + i) % loop.length]);
  const left = loop.length - named.length;
  return [...named, ...(left > 0 ? [`${left} more`] : []), member].join(' → ');
}

/** @param symbol on the loop, with which its sentence begins */
export function loopProblem(cellId: string, symbol: string, loop: readonly string[]): Problem {
  return {
    code: 'loop',
    what:
      loop.length === 1
        ? `${symbol} is computed from itself.`
        : `These symbols are computed from each other in a loop: ${loopText(symbol, loop)} (each reads the next).`,
    mend: 'Change one of the formulas so that it no longer needs the others.',
    cell: cellId,
    key: 'formula',
  };
}

/** How a message names a cell: its label, else its id. */
function cellName(block: CellBlock | undefined): string {
  if (block === undefined) return 'another cell';
  return block.cell.label === undefined ? `the cell ${block.id}` : `“${block.cell.label}” (${block.id})`;
}
