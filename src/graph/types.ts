import type { Estimate } from '../core/estimate/types.ts';
import type { LineFit, Residual } from '../core/fatigue/index.ts';
import type { Expression } from '../core/formula/types.ts';
import type { Problem } from '../core/problem/index.ts';
import type { Unit } from '../core/units/types.ts';
import type { Findings } from './findings/types.ts';
import type { LineSource } from './fit/line-snapshot.ts';
import type { BesideLine } from './fit/models-beside.ts';
import type { PhotoState } from './photo/types.ts';
import type { RecordState } from './record/types.ts';
import type { TableState } from './table/types.ts';

/** Why there is no value though nothing is wrong: words that files and the headless command share. `open`: waits for what is still to be filled in. */
export type RangeWord = 'below limit' | 'low cycle' | 'beyond data' | 'open';

/** What a symbol of the sheet is at this moment. Frozen; diagnostics are values, never exceptions. */
export type SymbolState =
  | {
      readonly status: 'value';
      readonly estimate: Estimate;
      /** The unit it was typed in, or the step's display unit. */
      readonly unit: Unit;
      /** Made of the standard uncertainties of others, and without one of its own: known to few figures. */
      readonly isOfUncertainties?: true;
    }
  | {
      readonly status: 'range';
      readonly word: RangeWord;
      readonly unit: Unit;
      /** What is still to be filled in, in the order in which it is met; with `open` only. */
      readonly waitsFor?: readonly string[];
    }
  | {
      readonly status: 'problem';
      /** At the cell itself, or the sentence that says which input failed. */
      readonly problem: Problem;
      /** Symbol or cell where the trouble began, when it is not this cell. */
      readonly origin?: string;
      readonly unit?: Unit;
    };

/** What a given's text was read as, beside its value. */
export interface ReadingState {
  /** How it was read, where it could be misread (`6,35 read as 6.35`); also "typed over the material's 630 MPa". */
  readonly echoes: readonly string[];
  /** Each reading, SI, in the order typed. */
  readonly readings: readonly number[];
  readonly typedUnit: Unit;
  /** Key of the option that filled the value, where a choice did. */
  readonly filledBy?: string;
  /** What was measured or typed says, while a trial value stands in its place; `readings`, `typedUnit` and `echoes` are of what was typed. */
  readonly aside?: SymbolState;
}

export interface CheckState {
  /** undefined: cannot be told, because a value it needs is missing. */
  readonly holds: boolean | undefined;
  /** Sentence with live values put in. */
  readonly message: string;
}

/** A line fitted to a table, with the rows it rests on. */
export interface FitState {
  readonly fit: LineFit;
  /** Residuals of least squares, row by row of the rows used; empty for maximum likelihood. */
  readonly residuals: readonly Residual[];
  /** Places in the table of the rows that the fit was given. */
  readonly rows: ArrayLike<number>;
  /** The specimens that were asked for: `all`, or the name of a group. */
  readonly group: string;
  /** Where the line was taken from, for one that was fitted in another sheet: there are no rows then. */
  readonly taken?: LineSource;
  /** The other models and limits by profile likelihood, worked out when they are read; for maximum likelihood only. */
  readonly beside?: BesideLine | undefined;
}

/** Everything the page, the report and the headless command need to know of one cell. Frozen. */
export interface CellState {
  readonly cellId: string;
  readonly symbol?: string;
  readonly result?: SymbolState;
  /** States of several symbols, for a cell that defines more than one. */
  readonly results?: ReadonlyMap<string, SymbolState>;
  readonly table?: TableState;
  /** What a table gives the sheet by symbol, as one expression over its rows. */
  readonly expressions?: ReadonlyMap<string, Expression>;
  readonly fit?: FitState;
  /** What a fit has found that finds no line. */
  readonly findings?: Findings;
  /** What such a cell waits for, where the trouble lies upstream. */
  readonly waiting?: Problem;
  readonly photo?: PhotoState;
  readonly record?: RecordState;
  readonly reading?: ReadingState;
  readonly check?: CheckState;
  /** The formula in force, for steps: the cell's own or the chosen option's. */
  readonly expression?: Expression;
  /** Symbols read by the formula or condition, in order of first mention. */
  readonly reads: readonly string[];
  /** Errors of this cell (text, dimension, value); empty where the trouble lies upstream. */
  readonly problems: readonly Problem[];
  /** Implausible, typed over, not understood: used all the same. */
  readonly warnings: readonly Problem[];
}

/** The states of a sheet to those who ask for single ones. */
export interface AskedStates {
  cell(cellId: string): CellState | undefined;
  symbol(name: string): SymbolState | undefined;
  /** Cell that defines a symbol. */
  definedBy(name: string): string | undefined;
}

/** Lookup by symbol and by cell over one consistent state of the sheet. */
export interface SheetStates extends AskedStates {
  /** Every defined symbol in document order. */
  readonly symbols: readonly string[];
}
