import { compileSheet } from './compile.ts';
import { chainOf, evaluateAlong } from './along/index.ts';
import { slopesAround } from './slopes.ts';
import type { SheetDocument } from '../sheet/types.ts';
import type { SheetStates } from './types.ts';

/** What changes of one symbol do to another, worked out anew and not by its slope: relative changes, NaN where there is no value then. */
export type Effects = readonly number[];

/** Each symbol upstream is a chain to be evaluated by itself: of a sheet with thousands of them the slopes have to do. */
const MOST_LINKS = 200_000;

/** By symbol, as `slopesAround` has them. */
export interface EffectsAround {
  /** What changes of that one do to the chosen symbol; empty in a very long chain. */
  readonly upstream: ReadonlyMap<string, Effects>;
  /** What changes of the chosen symbol do to that one. */
  readonly downstream: ReadonlyMap<string, Effects>;
}

/**
 * The chain evaluated with a symbol changed by the given shares of its value, where its steps are valid: a law with a high power, or one with a
 * bend, does by 1 % what its slope does not say. A result in the middle is changed itself, whatever it comes from.
 * @param shares such as 0.01 and −0.01
 */
export function effectsAround(symbol: string, document: SheetDocument, states: SheetStates, shares: readonly number[]): EffectsAround {
  const chain = chainOf(compileSheet(document), states);
  const { upstream, downstream } = slopesAround(symbol, states);
  const valueOf = (name: string): number => {
    const state = states.symbol(name);
    return state?.status === 'value' ? state.estimate.value : Number.NaN;
  };
  const changed = (moved: string, wanted: readonly string[]): ReadonlyMap<string, Effects> => {
    const column = Float64Array.from(shares, (share) => valueOf(moved) * (1 + share));
    const found = evaluateAlong(chain, new Map([[moved, column]]), shares.length, { wanted, within: true });
    return new Map(wanted.map((name) => {
      const result = found.get(name);
      return [name, shares.map((_, i) => (typeof result === 'number' ? result : (result?.[i] ?? Number.NaN)) / valueOf(name) - 1)];
    }));
  };
  const isShort = upstream.size * chain.links.length <= MOST_LINKS;
  return {
    upstream: new Map(isShort ? [...upstream.keys()].map((name) => [name, changed(name, [symbol]).get(symbol) ?? []]) : []),
    downstream: changed(symbol, [...downstream.keys()]),
  };
}
