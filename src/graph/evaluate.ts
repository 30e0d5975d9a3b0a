/**
 * What a node computes: the one way in which a sheet is worked out, whether live, as held, with other slips or elsewhere.
 */
import { remembered } from '../core/remembered/index.ts';
import type { Findings } from './findings/types.ts';
import type { NodeInput, CompiledSheet, CompiledNode } from './compiled-types.ts';
import { sameResult } from './same.ts';
import { isAsRead } from './slips/as-read.ts';
import type { TableState } from './table/types.ts';
import type { CellState, FitState, SheetStates, SymbolState } from './types.ts';

/** What one input of a node is at this moment. */
type InputState = SymbolState | TableState | FitState | Findings;

/** What a node has come to, and what it read for that. */
export interface Evaluated {
  readonly read: readonly (InputState | undefined)[];
  readonly state: CellState;
}

/** Which states of other cells a node sees. */
export type CellLookup = (cellId: string) => CellState | undefined;

/** The same, told the place of the input among those of the node besides. */
type InputLookup = (cellId: string, place: number) => CellState | undefined;

/**
 * A node worked out. An exception is a fault of ours: the reader is told so at the cell, what reads it waits, and the others stay alive.
 * @param at the cells that it reads
 * @param before state whose equal results are kept, so that an edit stops spreading there
 * @param known what the very node came to elsewhere or earlier, the nearest first: taken over where it read the same
 */
export function evaluateNode(node: CompiledNode, at: InputLookup, before?: CellState, known: Iterable<Evaluated> = []): Evaluated {
  const read = readBy(node, at);
  for (const one of known) if (sameItems(read, one.read)) return one;
  try {
    return { read, state: keepEqualResults(computed(node, read), before) };
  } catch (error) {
    return { read, state: faultState(node.cellId, error) };
  }
}

/** What a node reads, input by input. */
export function readBy(node: CompiledNode, at: InputLookup): Evaluated['read'] {
  return node.inputs.map((input, place) => readFrom(input, at(input.cellId, place)));
}

function readFrom(input: NodeInput, state: CellState | undefined): InputState | undefined {
  if ('symbol' in input) return symbolIn(state, input.symbol);
  if ('table' in input) return state?.table;
  return 'fit' in input ? state?.fit : state?.findings;
}

/** The state of one of the symbols that a cell defines. */
export function symbolIn(state: CellState | undefined, symbol: string): SymbolState | undefined {
  return state?.results?.get(symbol) ?? state?.result;
}

const NONE: ReadonlyMap<string, never> = new Map<string, never>();

function computed(node: CompiledNode, read: Evaluated['read']): CellState {
  const symbols = new Map<string, SymbolState>();
  // Most nodes read symbols alone.
  let tables: Map<string, TableState> | undefined;
  let fits: Map<string, FitState> | undefined;
  node.inputs.forEach((input, i) => {
    const value = read[i];
    if (value === undefined) return;
    if ('symbol' in input) symbols.set(input.symbol, value as SymbolState);
    else if ('table' in input) (tables ??= new Map()).set(input.cellId, value as TableState);
    else if ('fit' in input) (fits ??= new Map()).set(input.cellId, value as FitState);
  });
  return node.compute(symbols, tables ?? NONE, fits ?? NONE);
}

/** One consistent moment of the sheet. */
export function takeSnapshot(compiled: CompiledSheet, states: ReadonlyMap<string, CellState>): SheetStates {
  const byCell = new Map(states);
  const { definers } = compiled;
  return {
    cell: (cellId) => byCell.get(cellId),
    symbol: (name) => symbolIn(byCell.get(definers.get(name) ?? ''), name),
    definedBy: (name) => definers.get(name),
    symbols: symbolsIn(definers),
  };
}

/** Without the names under which what was read is kept. */
const symbolsIn = remembered((definers: CompiledSheet['definers']): readonly string[] => [...definers.keys()].filter((symbol) => !isAsRead(symbol)));

/** The fresh state with the results of before wherever they say the same. */
function keepEqualResults(fresh: CellState, before: CellState | undefined): CellState {
  if (before === undefined) return fresh;
  const kept = (now: SymbolState, then: SymbolState | undefined): SymbolState =>
    then !== undefined && sameResult(then, now) ? then : now;
  const result = fresh.result === undefined ? undefined : kept(fresh.result, before.result);
  const results = fresh.results === undefined ? undefined : new Map([...fresh.results].map(([name, one]) => [name, kept(one, before.results?.get(name))]));
  if (results === undefined && result === fresh.result) return fresh;
  return Object.freeze({ ...fresh, ...(result === undefined ? {} : { result }), ...(results === undefined ? {} : { results }) });
}

function sameItems<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}

/** What a cell is that a fault of ours kept from being worked out. */
export function faultState(cellId: string, error: unknown): CellState {
  const problem = {
    code: 'fault',
    what: `The sheet could not work this out (${error instanceof Error ? error.message : String(error)}).`,
    mend: 'This is a fault of the sheet and not yours; please report it with the file.',
    cell: cellId,
  };
  return { cellId, reads: [], problems: [problem], warnings: [], result: { status: 'problem', problem } };
}
