import type { Findings } from './findings/types.ts';
import type { NodeInput, Plan, PlanNode } from './plan.ts';
import { sameResult } from './same.ts';
import { isAsRead } from './slips/as-read.ts';
import type { TableState } from './table/index.ts';
import type { CellState, FitState, SheetStates, SymbolState } from './types.ts';

/** What one input of a node is at this moment. */
export type InputState = SymbolState | TableState | FitState | Findings;

/** What a node reads of a cell's state. */
export function readFrom(input: NodeInput, state: CellState | undefined): InputState | undefined {
  if ('symbol' in input) return symbolIn(state, input.symbol);
  if ('table' in input) return state?.table;
  return 'fit' in input ? state?.fit : state?.findings;
}

/** The state of one of the symbols that a cell defines. */
export function symbolIn(state: CellState | undefined, symbol: string): SymbolState | undefined {
  return state?.results?.get(symbol) ?? state?.result;
}

/** @param read what the node's inputs are, in their order; @param before state whose equal results are kept */
export function computeNode(node: PlanNode, read: readonly (InputState | undefined)[], before: CellState | undefined): CellState {
  const symbols = new Map<string, SymbolState>();
  const tables = new Map<string, TableState>();
  const fits = new Map<string, FitState>();
  node.inputs.forEach((input, i) => {
    const value = read[i];
    if (value === undefined) return;
    if ('symbol' in input) symbols.set(input.symbol, value as SymbolState);
    else if ('table' in input) tables.set(input.cellId, value as TableState);
    else if ('fit' in input) fits.set(input.cellId, value as FitState);
  });
  return keepEqualResults(node.compute(symbols, tables, fits), before);
}

/** One consistent moment of the sheet. */
export function takeSnapshot(plan: Plan, states: ReadonlyMap<string, CellState>): SheetStates {
  const byCell = new Map(states);
  const definers = new Map<string, string>();
  for (const { symbols, cellId } of plan.nodes) {
    for (const symbol of symbols) if (!definers.has(symbol)) definers.set(symbol, cellId);
  }
  return {
    cell: (cellId) => byCell.get(cellId),
    symbol: (name) => symbolIn(byCell.get(definers.get(name) ?? ''), name),
    definedBy: (name) => definers.get(name),
    symbols: [...definers.keys()].filter((symbol) => !isAsRead(symbol)),
  };
}

/** The fresh state with the results of before wherever they say the same, so that an edit stops spreading there. */
function keepEqualResults(fresh: CellState, before: CellState | undefined): CellState {
  const kept = (now: SymbolState, then: SymbolState | undefined): SymbolState =>
    then !== undefined && sameResult(then, now) ? then : now;
  if (before === undefined) return fresh;
  return Object.freeze({
    ...fresh,
    ...(fresh.result === undefined ? {} : { result: kept(fresh.result, before.result) }),
    ...(fresh.results === undefined
      ? {}
      : { results: new Map([...fresh.results].map(([name, result]) => [name, kept(result, before.results?.get(name))])) }),
  });
}

export function sameItems<T>(a: readonly T[], b: readonly T[]): boolean {
  return a.length === b.length && a.every((item, i) => item === b[i]);
}

/** An exception is a fault of the sheet's own; the reader is told so and the other cells stay alive. */
export function faultState(cellId: string, error: unknown): CellState {
  const problem = {
    code: 'fault',
    what: `The sheet could not work this out (${error instanceof Error ? error.message : String(error)}).`,
    mend: 'This is a fault of the sheet and not yours; please report it with the file.',
    cell: cellId,
  };
  return { cellId, reads: [], problems: [problem], warnings: [], result: { status: 'problem', problem } };
}
