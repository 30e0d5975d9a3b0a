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
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null; readonly message: string }[];
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
}
