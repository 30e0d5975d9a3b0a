import type { GivenCell, SheetDocument } from '../../sheet/types.ts';
import { chainOf, evaluateAlong } from '../along/index.ts';
import { sheetElsewhere } from '../elsewhere.ts';
import { compileSheet } from '../compile.ts';
import type { SheetStates, SymbolState } from '../types.ts';
import { exactAlong } from './exact-along.ts';
import { reasonOf, rootOf } from './curves.ts';
import { movedGiven, nameInChain, unitOfGiven } from './moving.ts';

/** A result over an even grid of two givens. SI. */
interface MapAsk {
  readonly of: string;
  readonly against: readonly [GivenCell, GivenCell];
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

export interface SweptMap {
  readonly columns: number;
  readonly rows: number;
  /** Row by row, the first given along each; NaN where there is no value. */
  readonly values: Float64Array;
  /** Why there is none, each reason once. */
  readonly reasons: readonly (SymbolState | undefined)[];
}

const [COLUMNS, ROWS] = [121, 97];
/** Where each place takes the whole sheet. */
const [FEW_COLUMNS, FEW_ROWS] = [25, 21];
/** Places without a value that are asked why, across and up. */
const ASKED = 9;

/** Along the chain where that says what the sheet would, else by the sheet's own nodes at fewer places. */
export function sweepMap(document: SheetDocument, states: SheetStates, { of, against, from, to }: MapAsk): SweptMap {
  const compiled = compileSheet(document);
  const symbols = against.map(({ symbol }) => symbol);
  const elsewhere = sheetElsewhere(compiled, states, symbols, [of]);
  const chain = chainOf(compiled, states);
  const [first = '', second = ''] = against.map((given) => nameInChain(given, states));
  const isExact = exactAlong(chain, elsewhere.way, [first, second]);
  const [columns, rows] = isExact ? [COLUMNS, ROWS] : [FEW_COLUMNS, FEW_ROWS];
  const place = (side: 0 | 1, at: number, count: number): number => from[side] + (at / (count - 1)) * (to[side] - from[side]);
  const xs = Float64Array.from({ length: columns * rows }, (_, i) => place(0, i % columns, columns));
  const ys = Float64Array.from({ length: columns * rows }, (_, i) => place(1, Math.floor(i / columns), rows));
  const moves = against.map((given) => {
    const unit = unitOfGiven(given, states);
    return unit === undefined ? undefined : movedGiven(given, states, unit);
  });
  const stateAt = (x: number, y: number): { state: SymbolState | undefined; root: SymbolState | undefined } => {
    const moved = new Map(symbols.flatMap((symbol, side) => {
      const state = moves[side]?.(side === 0 ? x : y);
      return state === undefined ? [] : [[symbol, state] as const];
    }));
    const there = elsewhere.at(moved, { checks: false });
    const state = there.symbol(of);
    return { state, root: rootOf(state, there) };
  };
  const valueAt = (i: number): number => {
    const { state } = stateAt(xs[i] ?? Number.NaN, ys[i] ?? Number.NaN);
    return state?.status === 'value' ? state.estimate.value : Number.NaN;
  };
  const found = isExact
    ? evaluateAlong(chain, new Map([[first, xs], [second, ys]]), xs.length, { wanted: [of], within: true }).get(of)
    : Float64Array.from(xs, (_, i) => valueAt(i));
  const values = typeof found === 'object' ? found : new Float64Array(xs.length).fill(found ?? Number.NaN);
  const reasons = new Map<string, SymbolState | undefined>();
  const [stepX, stepY] = [Math.ceil(columns / ASKED), Math.ceil(rows / ASKED)];
  values.forEach((value, i) => {
    if (Number.isFinite(value) || (i % columns) % stepX !== 0 || Math.floor(i / columns) % stepY !== 0) return;
    const { state, root } = stateAt(xs[i] ?? Number.NaN, ys[i] ?? Number.NaN);
    if (!reasons.has(reasonOf(state))) reasons.set(reasonOf(state), root);
  });
  return { columns, rows, values: values.map((value) => (Number.isFinite(value) ? value : Number.NaN)), reasons: [...reasons.values()] };
}
