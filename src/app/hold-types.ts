import type { Problem } from '../core/problem/index.ts';
import type { PresentedHeldTable } from '../report/index.ts';

/** What could not be held, or done with what is. */
export interface RefusedHold {
  /** Name of the file, where there were several. */
  readonly from: string;
  readonly problem: Problem;
}

/** What is held, while somebody looks at it. */
export interface HoldState {
  readonly table?: PresentedHeldTable;
  /** What is amiss with what is held. */
  readonly problems: readonly Problem[];
  /** Tables that are too long to be held. */
  readonly notHeld: readonly string[];
  /** Results that the table could show besides. */
  readonly further: readonly { readonly symbol: string; readonly label: string }[];
  /** Why the last press could not be done, or not all of it. */
  readonly refused: readonly RefusedHold[];
}

/** A sheet kept in this browser, whose blanks can be held here. */
export interface OtherSheet {
  readonly id: string;
  readonly label: string;
}

/** What can be done with held states. */
export interface HoldActions {
  readonly hold: (name: string) => boolean;
  /** Holds what another sheet says in the blanks that both have: a team's, for one. */
  readonly holdOfSheet: (sheetId: string) => void;
  /** The same of any number of files, in one step to undo. */
  readonly holdOfFiles: (files: readonly File[]) => Promise<void>;
  readonly renameHeld: (name: string, to: string) => void;
  readonly dropHeld: (name: string) => void;
  readonly goBackTo: (name: string) => void;
  /** Compares with a held state, or with none. */
  readonly compareWith: (name: string | undefined) => void;
  /** Puts a result into the table or takes it out. */
  readonly showResult: (symbol: string, isShown: boolean) => void;
  readonly takeHeldTable: () => void;
}
