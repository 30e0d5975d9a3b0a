/**
 * The sheet as it would be with some givens at other values, worked out by its own nodes: estimates with their
 * uncertainty, range words, checks and whatever tables and fits find, exactly as an edit would show them. Where a slip is
 * switched on at a given, the other value is what is read there, and the slip acts on it.
 */
import { inOrderOfReading } from '../core/formula/index.ts';
import { remembered } from '../core/remembered/index.ts';
import { evaluateNode, symbolIn, type CellLookup } from './evaluate.ts';
import type { CompiledSheet, CompiledNode } from './compiled-types.ts';
import { isAsRead } from './slips/as-read.ts';
import type { CellState, SheetStates, SymbolState } from './types.ts';

/** States at another place; what does not hang on the moved symbols is as it is. */
export type StatesThere = Pick<SheetStates, 'cell' | 'symbol'>;

export interface Elsewhere {
  /** @param moved a state for each of the givens that were named; @param asks whether the checks are asked, too */
  at(moved: ReadonlyMap<string, SymbolState>, asks?: { readonly checks: boolean }): StatesThere;
  /** Ids of the checks that can turn: they read what hangs on the moved givens, and nothing behind the wanted symbols. */
  readonly checks: readonly string[];
  /** Symbols on the way from the moved givens to the wanted ones, both included, each after those it reads. */
  readonly way: readonly string[];
}

/** @param wanted symbols whose states will be asked for */
export function sheetElsewhere(compiled: CompiledSheet, states: SheetStates, givens: readonly string[], wanted: readonly string[]): Elsewhere {
  const nodes = inReadingOrder(compiled);
  const moved = new Map(givens.flatMap((symbol) => {
    const cellId = states.definedBy(symbol);
    return cellId === undefined ? [] : [[cellId, symbol] as const];
  }));
  const slippedNodes = new Map(nodes.filter(({ cellId, atReading }) => atReading !== undefined && moved.has(cellId)).map((node) => [node.cellId, node]));
  const behind = new Set(moved.keys());
  const steps: CompiledNode[] = [];
  for (const node of nodes) {
    if (behind.has(node.cellId) || !node.inputs.some(({ cellId }) => behind.has(cellId))) continue;
    behind.add(node.cellId);
    steps.push(node);
  }
  const needed = new Set(wanted.flatMap((symbol) => states.definedBy(symbol) ?? []));
  for (const node of nodes.toReversed()) if (needed.has(node.cellId)) for (const { cellId } of node.inputs) needed.add(cellId);
  const checks = steps.filter(({ cellId, inputs }) =>
    states.cell(cellId)?.check !== undefined && inputs.every((input) => !behind.has(input.cellId) || needed.has(input.cellId)));
  const followed = steps.filter(({ cellId }) => needed.has(cellId));
  return {
    checks: checks.map(({ cellId }) => cellId),
    way: nodes.flatMap(({ cellId, symbols }) => (behind.has(cellId) && needed.has(cellId) ? symbols.filter((symbol) => !isAsRead(symbol)) : [])),
    at: (places, asks = { checks: true }) => {
      const there = new Map<string, CellState>();
      const cell: CellLookup = (cellId) => there.get(cellId) ?? states.cell(cellId);
      for (const [cellId, symbol] of moved) {
        const [now, result] = [states.cell(cellId), places.get(symbol)];
        if (now === undefined || result === undefined) continue;
        const slipped = slippedNodes.get(cellId);
        there.set(cellId, slipped?.atReading === undefined ? { ...now, result } : slipped.atReading(result, symbolsRead(slipped, cell)));
      }
      for (const node of asks.checks ? [...followed, ...checks] : followed) there.set(node.cellId, evaluateNode(node, cell).state);
      return { cell, symbol: (name) => symbolIn(cell(states.definedBy(name) ?? ''), name) };
    },
  };
}

/** What a given reads beside its own text, where a slip puts something else in its place. */
function symbolsRead({ inputs }: CompiledNode, cell: CellLookup): ReadonlyMap<string, SymbolState> {
  return new Map(inputs.flatMap((input) => {
    const state = 'symbol' in input ? symbolIn(cell(input.cellId), input.symbol) : undefined;
    return 'symbol' in input && state !== undefined ? [[input.symbol, state] as const] : [];
  }));
}

/** Every node after those it reads. */
export const inReadingOrder = remembered((compiled: CompiledSheet): readonly CompiledNode[] => {
  const byCell = new Map(compiled.nodes.map((node) => [node.cellId, node]));
  return inOrderOfReading(byCell.keys(), (cellId) => byCell.get(cellId)?.inputs.map((input) => input.cellId) ?? [])
    .flatMap((cellId) => byCell.get(cellId) ?? []);
});

/** Symbols that a symbol hangs on, itself included, in the order of reading. */
export function symbolsBehind(compiled: CompiledSheet, states: SheetStates, symbol: string): readonly string[] {
  const needed = new Set([states.definedBy(symbol)]);
  const nodes = inReadingOrder(compiled);
  for (const node of nodes.toReversed()) if (needed.has(node.cellId)) for (const { cellId } of node.inputs) needed.add(cellId);
  return nodes.flatMap(({ cellId, symbols }) => (needed.has(cellId) ? symbols.filter((name) => !isAsRead(name)) : []));
}

/** Symbols that hang on a symbol, in the order of reading; not itself. */
export function symbolsAfter(compiled: CompiledSheet, states: SheetStates, symbol: string): readonly string[] {
  const after = new Set([states.definedBy(symbol)]);
  return inReadingOrder(compiled).flatMap((node) => {
    if (after.has(node.cellId) || !node.inputs.some(({ cellId }) => after.has(cellId))) return [];
    after.add(node.cellId);
    return node.symbols;
  });
}
