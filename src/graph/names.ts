import type { Expression } from '../core/formula/types.ts';
import { parseFormula, referencedSymbols } from '../core/formula/index.ts';
import type { Problem } from '../core/problem/index.ts';
import { recordFillings } from './record/fillings.ts';
import type { Cell, CellBlock, ChoiceCell, ChoiceOption, SheetDocument } from '../sheet/types.ts';

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
  /** Ids of the tables. */
  readonly tables: ReadonlySet<string>;
}

export function collectNames(document: SheetDocument): Names {
  const definitions = new Map<string, Definition>();
  const fillings = new Map<string, Filling>();
  const chosen = new Map<string, ChoiceOption>();
  const tables = new Set<string>();
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const cell = block.cell;
    for (const symbol of definedSymbols(cell)) {
      const earlier = definitions.get(symbol);
      if (earlier === undefined) definitions.set(symbol, { symbol, block, rivals: [] });
      else definitions.set(symbol, { ...earlier, rivals: [...earlier.rivals, block] });
    }
    if (cell.kind === 'table') tables.add(cell.id);
    if (cell.kind === 'record') {
      const option = { key: cell.id, label: cell.label ?? 'the test record' };
      for (const [symbol, text] of recordFillings(cell)) fillings.set(symbol, { text, choice: cell, option });
    }
    if (cell.kind === 'choice') {
      const option = cell.options.find(({ key }) => key === cell.chosen);
      if (option === undefined) continue;
      chosen.set(cell.id, option);
      for (const [symbol, text] of option.sets) fillings.set(symbol, { text, choice: cell, option });
    }
  }
  return { definitions, fillings, chosen, tables };
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
  /** For each symbol found on a loop: the whole loop in order of reading, starting with that symbol. */
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
        loop.forEach((member, i) => {
          if (!loops.has(member)) loops.set(member, [...loop.slice(i), ...loop.slice(0, i)]);
        });
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

export function loopProblem(cellId: string, loop: readonly string[]): Problem {
  const [first] = loop;
  const chain = [...loop, first].join(' → ');
  return {
    code: 'loop',
    what:
      loop.length === 1
        ? `${first} is computed from itself.`
        : `These symbols are computed from each other in a loop: ${chain} (each reads the next).`,
    mend: 'Change one of the formulas so that it no longer needs the others.',
    cell: cellId,
    key: 'formula',
  };
}

/** How a message names a cell: its label, else its id. */
export function cellName(block: CellBlock | undefined): string {
  if (block === undefined) return 'another cell';
  return block.cell.label === undefined ? `the cell ${block.id}` : `“${block.cell.label}” (${block.id})`;
}
