import type { Origin } from './cell-base.ts';

/** What is put into a sheet: all that a held state keeps. */
export interface HeldInputs {
  /**
   * What stood in the blank of each given, by symbol, its trial value by `trial SYMBOL` where it had one, and the
   * chosen key of each choice, by id: texts that `enterText` takes.
   * '' is an empty blank.
   */
  readonly inputs: ReadonlyMap<string, string>;
  /** The rows of tables, by id: delimited text with its header, '' for a table without rows. A table that is not in it keeps its rows. */
  readonly rows?: ReadonlyMap<string, string>;
  /** Which of these were not the reader's own, by symbol or id; absent where that is not known, as in states of before it was held. */
  readonly origins?: ReadonlyMap<string, Origin>;
}

/** A state of the sheet that was held under a name, to compare with: what was put in, and no result. */
export interface HeldState extends HeldInputs {
  /** Unique over the document. */
  readonly name: string;
  /** When it was held, ISO 8601 with offset, as written; absent where it is not known. */
  readonly at?: string;
}
