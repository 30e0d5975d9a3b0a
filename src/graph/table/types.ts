import type { Dimension } from '../../core/units/types.ts';
import type { Unit } from '../../core/units/types.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { TableColumn } from '../../sheet/types.ts';
import type { RowTable } from '../../core/rows/index.ts';

/** A column of a table as it stands. */
export interface ColumnState {
  /** Its name in `all` and `usable`: the key, or `other N` for the N-th column that is not understood. */
  readonly name: string;
  /** What edits call it by: the key, or the header's own words. */
  readonly typed: string;
  /** Absent where it is not understood; its fields are then text. */
  readonly column?: TableColumn;
  /** For numbers: the unit that a bare number is read in, from the header where that says one. */
  readonly unit?: Unit;
  /** Place of its field in the rows' text; absent for derived columns and those that the text does not have. */
  readonly place?: number;
}

/** What is wrong, or worth a look, at one cell. */
export interface CellMark {
  /** Number of the row, from 0, the header not counted. */
  readonly row: number;
  /** `name` of the column; absent where the row as a whole is meant. */
  readonly column?: string;
  readonly problem: Problem;
  /** Whether the row is left out for it; else it is used all the same. */
  readonly leavesOut: boolean;
}

/** A table at this moment. Rows keep the order of the text; numbers are SI, NaN where there is none. */
export interface TableState {
  readonly cellId: string;
  readonly columns: readonly ColumnState[];
  /** Every row of the text, also those in error. */
  readonly all: RowTable;
  /** Those that can be used; also rows whose outcome is invalid or that are marked not valid: a fit decides on them. */
  readonly usable: RowTable;
  readonly rowCount: number;
  /** Rows left out because of a mark, or because a column that is needed can't be read. Blank rows are not among them. */
  readonly leftOut: number;
  readonly blank: number;
  /** The table's own condition, where it has one that can be read, and by row whether it is met (1) or not (0). */
  readonly where?: { readonly condition: string; readonly met: Uint8Array };
  /** Sound rows that the condition leaves out of `usable`. */
  readonly notCounted: number;
  readonly marks: readonly CellMark[];
  /** Of the table as a whole: a column that is missing, a unit in the header, a formula. */
  readonly problems: readonly Problem[];
  /** Rows left out, columns not understood: the table is used all the same. */
  readonly warnings: readonly Problem[];
  /** How fields were read where they could be misread, one sentence for each column and reading. */
  readonly echoes: readonly string[];
  /** The text of a row's field as typed; '' where there is none. */
  field(row: number, column: ColumnState): string;
  /** Fields of a row beyond those that the header names. */
  surplus(row: number): readonly string[];
}

/** Symbols of the sheet that formulas of derived columns may read. */
export interface SheetSymbols {
  dimensionOf(name: string): Dimension | undefined;
  /** SI. */
  value(name: string): number;
  standardUncertainty(name: string): number;
  readonly names: readonly string[];
}
