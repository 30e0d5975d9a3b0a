export type Entry = Readonly<Record<string, unknown>>;

/** Everything that the command says; JSON is this as it stands. */
export interface Answer {
  readonly title: string;
  /** Only where trial values stand in place of what was measured, by symbol: what stands there, as written. */
  readonly trials?: Readonly<Record<string, string>>;
  /** Slips switched on: values with a `right` of their own are then wrong on purpose. */
  readonly slips: readonly string[];
  readonly values: Readonly<Record<string, unknown>>;
  /** Only where states are held. */
  readonly held?: readonly { readonly name: string; readonly values: Readonly<Record<string, unknown>> }[];
  /** Only where the sheet has fits. */
  readonly fits?: Readonly<Record<string, unknown>>;
  /** Only where budgets are asked for, by symbol; null where it has no value. */
  readonly budgets?: Readonly<Record<string, Entry | null>>;
  /** What fits find that find no line, by cell id, in the words of the page: limits, lives, comparisons, staircases, plans. */
  readonly findings?: Readonly<Record<string, FoundEntry>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null; readonly message: string }[];
  /** Blanks by symbol, and choices by id, that are still empty and that results wait for. */
  readonly open: readonly string[];
  /** `line`: of the file, counted from 1, where it is known. */
  readonly errors: readonly { readonly cell: string; readonly key?: string; readonly line?: number; readonly message: string }[];
  /** What is odd and used all the same, and keys that have no effect. */
  readonly warnings: readonly { readonly cell: string; readonly key?: string; readonly line?: number; readonly message: string }[];
  /** Rows that nothing reads, each with every field that is at fault; rows are counted from 1, the header not. */
  readonly leftOut: readonly LeftOutRow[];
}

export interface LeftOutRow {
  readonly cell: string;
  readonly row: number;
  /** By its name, where the table has such a column. */
  readonly specimen?: string;
  readonly reasons: readonly { readonly column?: string; readonly message: string }[];
}

export interface FoundEntry {
  readonly finds: string;
  readonly label: string;
  readonly settings: readonly string[];
  readonly advice?: string;
  readonly sentences: readonly string[];
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  readonly tables: readonly { readonly caption: string; readonly heads: readonly string[]; readonly rows: readonly (readonly string[])[]; readonly note?: string }[];
}
