import type { Estimate } from '../../core/estimate/index.ts';
import type { Problem, Result } from '../../core/problem/index.ts';
import type { Unit } from '../../core/units/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { FitSettings } from '../fit/published.ts';
import type { Names } from '../compiled-types.ts';
import type { TableState } from '../table/types.ts';
import type { FitState, RangeWord } from '../types.ts';
import type { Findings } from './types.ts';

/** One thing that a form lets the reader ask, by the name it has under `asks`. */
export type Ask =
  | {
      readonly takes: 'quantity';
      readonly name: string;
      /** Unit of a bare number; where it is that of a column, found from the cell. */
      readonly unit: string | ((cell: FitCell, names: Names) => string);
      /** Bounds as a given's `possible` writes them. */
      readonly possible: string;
      /** Where it is not asked, SI; none where left out. */
      readonly usual?: number;
      /** Only whole numbers. */
      readonly whole?: true;
    }
  /** The id of a table beside that of the cell. */
  | { readonly takes: 'table'; readonly name: string }
  | { readonly takes: 'word'; readonly name: string; /** Any word where left out. */ readonly words?: readonly string[]; readonly usual?: string };

/** What a form is handed: everything the cell asks for, read and in order. */
export interface FormReading {
  readonly cell: FitCell;
  readonly settings: FitSettings;
  /** Of an asked quantity, or its usual value; undefined where there is neither. */
  quantity(name: string): Estimate | undefined;
  word(name: string): string | undefined;
  /** The line of the fit that `of` names. */
  line(): Result<FitState>;
  table(): Result<TableState>;
  /** Of an asked table; undefined where none is asked. */
  askedTable(name: string): Result<TableState> | undefined;
}

/** A published symbol without its unit: an estimate whose inputs may be the form's own (ids by `cell.symbols`), or why not. */
export type PublishedValue = { readonly estimate: Estimate } | { readonly range: RangeWord } | { readonly problem: Problem };

export interface Found {
  readonly findings: Findings;
  /** By published name. */
  readonly values: ReadonlyMap<string, PublishedValue>;
  readonly warnings: readonly Problem[];
}

/** One form of findings: what it lets ask, what it publishes, and how it finds it. */
export interface FindingsForm {
  readonly asks: readonly Ask[];
  /** Names that it can publish. */
  readonly published: readonly string[];
  /** Display unit of a published name; known before any number is. */
  unitOf(name: string, cell: FitCell, names: Names): Unit | undefined;
  /** A problem of the reader's: told at the cell. */
  find(reading: FormReading): Result<Found>;
}
