import { standardUncertainty, type Estimate } from '../core/estimate/index.ts';
import { unknownNameMend } from '../core/formula/index.ts';
import type { Problem } from '../core/problem/index.ts';
import type { CompileContext, CompiledNode } from './compiled-types.ts';
import type { Estimates } from './step.ts';
import type { SheetSymbols } from './table/types.ts';
import type { SymbolState } from './types.ts';

/** Cells that define the symbols read; a name nobody defines is a problem that offers near ones. */
export function resolveInputs(
  symbols: readonly string[],
  context: CompileContext,
  cellId: string,
  key: string,
): { readonly inputs: CompiledNode['inputs']; readonly problems: readonly Problem[] } {
  const { definitions } = context.names;
  const unknown = symbols.filter((symbol) => !definitions.has(symbol));
  return { inputs: definedInputs(symbols, context), problems: unknown.map((symbol) => unknownName(symbol, [...definitions.keys()], cellId, key)) };
}

/** The same where nothing is said of a name that nobody defines. */
export function definedInputs(symbols: readonly string[], { names: { definitions } }: CompileContext): CompiledNode['inputs'] {
  return symbols.flatMap((symbol) => {
    const definition = definitions.get(symbol);
    return definition === undefined ? [] : [{ symbol, cellId: definition.block.id }];
  });
}

function unknownName(symbol: string, known: readonly string[], cellId: string, key: string): Problem {
  return {
    code: 'symbol-unknown',
    what: `Nothing in this sheet is called ${symbol}.`,
    mend: unknownNameMend(symbol, known),
    cell: cellId,
    key,
  };
}

/** The estimates among the states of some symbols. */
export function valuesOf(symbols: readonly string[], states: ReadonlyMap<string, SymbolState>): Estimates {
  const estimates = new Map<string, Estimate>();
  for (const symbol of symbols) {
    const state = states.get(symbol);
    if (state?.status === 'value') estimates.set(symbol, state.estimate);
  }
  return estimates;
}

/** What a formula reads of symbols, SI; NaN of one that has no value. */
export function readingOf(stateOf: (name: string) => SymbolState | undefined): Pick<SheetSymbols, 'value' | 'standardUncertainty'> {
  const read = (name: string, what: (estimate: Estimate) => number): number => {
    const state = stateOf(name);
    return state?.status === 'value' ? what(state.estimate) : Number.NaN;
  };
  return { value: (name) => read(name, ({ value }) => value), standardUncertainty: (name) => read(name, standardUncertainty) };
}

/** Problems told at a cell. */
export function toldAt(cellId: string, problems: readonly Problem[]): readonly Problem[] {
  return problems.map((problem) => ({ ...problem, cell: cellId }));
}
