import type { Problem } from '../core/problem/index.ts';
import type { Dimension } from '../core/units/index.ts';
import type { OfferedSlip } from '../sheet/index.ts';
import type { CellBlock, ChoiceCell, ChoiceOption, FitCell, PhotoCell, TableCell } from '../sheet/types.ts';
import type { ReadyStep } from './step.ts';
import type { TableState } from './table/types.ts';
import type { CellState, FitState, SymbolState } from './types.ts';

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
  /** Option in force of each choice by cell id; absent where nothing is chosen or the chosen key is unknown. */
  readonly chosen: ReadonlyMap<string, ChoiceOption>;
  /** Where the chosen key is no option: what was written, and the groups of specimens that it may name for a fit that takes its group from the choice. */
  readonly otherKeys: ReadonlyMap<string, { readonly label: string; readonly typed: string; readonly groups: readonly string[] }>;
  /** Tables and fits by their ids. */
  readonly tables: ReadonlyMap<string, TableCell>;
  readonly fits: ReadonlyMap<string, FitCell>;
  /** Pictures by their ids. */
  readonly photos: ReadonlyMap<string, PhotoCell>;
  /** Slips in force by the symbol that they make wrong. */
  readonly slips: ReadonlyMap<string, OfferedSlip>;
}

/** What a node reads: a symbol, the rows of a table, the line of a fit, or what a fit has found besides. */
export type NodeInput =
  | { readonly symbol: string; readonly cellId: string }
  | { readonly table: true; readonly cellId: string }
  | { readonly fit: true; readonly cellId: string }
  | { readonly findings: true; readonly cellId: string };

/** One cell as the graph sees it: what it reads, and how its state comes from that. */
export interface CompiledNode {
  readonly cellId: string;
  /** Symbols it defines. */
  readonly symbols: readonly string[];
  /** Symbols read, with the cells that define them, tables and fits; a name nobody defines is not among them. */
  readonly inputs: readonly NodeInput[];
  /** Equal signatures compute the same state from the same inputs. */
  readonly signature: string;
  readonly compute: (
    symbols: ReadonlyMap<string, SymbolState>,
    tables: ReadonlyMap<string, TableState>,
    fits: ReadonlyMap<string, FitState>,
  ) => CellState;
  /** Givens that a slip changes: their state where something else was read. */
  readonly atReading?: (read: SymbolState, symbols: ReadonlyMap<string, SymbolState>) => CellState;
  /** Steps only: the formula that block evaluation reads. */
  readonly ready?: ReadyStep;
}

export interface CompiledSheet {
  readonly nodes: readonly CompiledNode[];
  /** Symbols, each after those it reads. */
  readonly order: readonly string[];
  /** The cell that defines each symbol. */
  readonly definers: ReadonlyMap<string, string>;
}

/** What the nodes of one document are made from: names resolved, loops found, dimensions settled. */
export interface CompileContext {
  readonly names: Names;
  readonly dimensions: ReadonlyMap<string, Dimension>;
  /** Static trouble by cell id: duplicates, loops, readings in pairs that don't pair up. */
  readonly problems: ReadonlyMap<string, readonly Problem[]>;
}
