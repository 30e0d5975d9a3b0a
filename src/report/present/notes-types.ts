import type { Problem } from '../../core/problem/index.ts';

/** What every cell may say besides its own business. */
export interface PresentedNotes {
  readonly label: string;
  readonly note?: string;
  /** Errors of the cell, those of its text first; what went wrong upstream is in the result. */
  readonly problems: readonly Problem[];
  /** Implausible, typed over, not understood: used all the same. */
  readonly warnings: readonly Problem[];
}
