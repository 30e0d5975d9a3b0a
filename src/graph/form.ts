import type { Dimension } from '../core/units/index.ts';
import type { Cell, CellBlock, HeldState, SheetDocument } from '../sheet/types.ts';
import type { Names, CompileContext, CompiledNode } from './compiled-types.ts';
import type { GivenState } from './read-given.ts';

type Growing<T> = { readonly [K in keyof T]: T[K] extends ReadonlyMap<infer Key, infer Value> ? Map<Key, Value> : T[K] };

/** What cells give to a document's names beside their symbols, while it is gathered. */
export type NamesInMaking = Growing<Omit<Names, 'definitions' | 'slips'>>;

/** A node without what its form says of it already. `symbols`: where it has more of them than its cell defines. */
export type NodeOfForm = Omit<CompiledNode, 'cellId' | 'symbols'> & Partial<Pick<CompiledNode, 'symbols'>>;

/** All that the graph asks of one kind of cell. Where something is left out, the kind has none of it. */
export interface Form<C extends Cell> {
  /** Symbols that a cell defines; one whose symbol is not written yet defines none (its own problems say so). */
  symbols(cell: C): readonly string[];
  /** Puts what else a cell has to say to others among the names: options, fillings, a table, a fit. */
  addTo?(names: NamesInMaking, cell: C, document: SheetDocument): void;
  /** What one of its symbols is read from. */
  reads?(cell: C, symbol: string, names: Names): readonly string[];
  /** Names under which what was read is kept while a slip stands in its place. */
  keptAside?(cell: C, names: Names): readonly string[];
  /** Dimension of one of its symbols, once those of the symbols that it reads are `known`. */
  dimension?(cell: C, symbol: string, names: Names, known: ReadonlyMap<string, Dimension>): Dimension | undefined;
  /** A quantity read from what is typed, where the cell is one. */
  typed?(cell: C, names: Names): GivenState;
  /** The cell as the graph evaluates it. */
  node(block: CellBlock, cell: C, context: CompileContext): NodeOfForm;
  /**
   * Of a cell with one symbol: whether the nodes of all others are the same with the cell `after` as with the one `before`, so that none of them has to
   * be made again. They may hang on what a cell is called, on its dimension, on what it reads, and on whether it is empty.
   */
  leavesOthers?(before: C, after: C, names: Names): boolean;
  /** Whether a held state puts a text of its own into the cell. */
  isHeld?(cell: C, held: HeldState): boolean;
  /**
   * What is kept of a cell when a test is started: name and text. Undefined where nothing is.
   * @param valueOf a symbol's value as it is kept
   */
  atStart?(cell: C, valueOf: (symbol: string) => string): readonly [name: string, text: string] | undefined;
}

/** Under which name a cell that defines several symbols gives this one. */
export function nameOf<Name extends string>({ symbols }: { readonly symbols: ReadonlyMap<Name, string> }, symbol: string): Name | undefined {
  return [...symbols].find(([, defined]) => defined === symbol)?.[0];
}

/** The one symbol of a cell, unless it has still to be written. */
export function ownSymbol({ symbol }: { readonly symbol: string }): readonly string[] {
  return symbol === '' ? [] : [symbol];
}
