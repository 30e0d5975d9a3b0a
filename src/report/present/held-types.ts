import type { PresentedShift } from './shift.ts';

/** The present state and the held ones side by side. */
export interface PresentedHeldTable {
  /** Names of the held states, after the present one. */
  readonly columns: readonly HeldColumn[];
  /** Inputs that are not the same in all of them. */
  readonly inputs: readonly HeldRow[];
  readonly results: readonly HeldRow[];
}

export interface HeldColumn {
  readonly name: string;
  readonly at?: string;
  readonly isPresent: boolean;
  readonly isReference: boolean;
}

export interface HeldRow {
  readonly symbol: string;
  readonly label: string;
  readonly isQuantity: boolean;
  /** One for each column. */
  readonly cells: readonly { readonly text: string; readonly shift?: PresentedShift }[];
}
