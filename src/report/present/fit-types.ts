import type { PresentedNotes } from './notes-types.ts';

/** What is said of fits and of what they find, as plain data. */

/** A parameter of a fitted line, or s, with figures of one place. */
export interface PresentedParameter {
  /** Its name in the fit: `A`. */
  readonly name: string;
  /** The symbol that it defines in the sheet, where it does. */
  readonly symbol?: string;
  readonly symbolTex: string;
  /** What it is: `slope`. */
  readonly words: string;
  readonly value: string;
  readonly standardError: string;
  readonly low: string;
  readonly high: string;
}

/** What heads a column or a row: words, or a symbol for KaTeX. */
export type PresentedHead = { readonly text: string } | { readonly tex: string };

/** A small table of results, ruled as in a printed report. Cells are in figures and stand under all heads but the first. */
export interface PresentedSmallTable {
  readonly caption: string;
  readonly heads: readonly PresentedHead[];
  readonly rows: readonly {
    readonly head: PresentedHead;
    readonly cells: readonly string[];
    /** Symbol of the sheet that the row publishes. */
    readonly symbol?: string;
  }[];
  /** What is to be known of the numbers. */
  readonly note?: string;
}

/** What a fit says that finds no line. */
export interface PresentedFindings extends PresentedNotes {
  /** What it was asked, in words. */
  readonly settings: readonly string[];
  /** What to do next, before everything else. */
  readonly advice?: string;
  /** The first stands before the tables, the others after them. */
  readonly sentences: readonly string[];
  readonly tables: readonly PresentedSmallTable[];
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  /** The row with which to go on in a table: the text of one of its fields, and what the button says. */
  readonly suggestedRow?: { readonly tableId: string; readonly column: string; readonly text: string; readonly label: string };
  readonly bench?: PresentedBench;
}

/** The test that is set or to be set now, as it is read from some steps away, and how it can end. */
export interface PresentedBench {
  readonly tableId: string;
  /** What the level is: `Next level`, `Q19 is tested at`. */
  readonly name: string;
  readonly level: string;
  /** Of which test the outcome is pressed: `Outcome of row 19, Q19, at 280 MPa`. */
  readonly asks: string;
  readonly outcomes: readonly string[];
  /** Column of the outcome, and the row that waits for it, from 0; a new row with this level where none does. */
  readonly column: string;
  readonly row?: number;
}

export interface PresentedFit extends PresentedNotes {
  /** Settings in force in words: `maximum likelihood`, `Weibull lives`, `straight line`. */
  readonly settings: readonly string[];
  /** What the fit did, in a sentence; '' where there is none. */
  readonly method: string;
  /** `\log_{10} N = A + B \log_{10}(S/\mathrm{MPa})`; absent where there is no fit, as all that follows. */
  readonly lineTex?: string;
  /** The same with the numbers put in. */
  readonly numbersTex?: string;
  readonly parameters: readonly PresentedParameter[];
  /** Where the limits come from: `95 % limits by Student’s t with 10 degrees of freedom`. */
  readonly limits: string;
  /** `16 specimens: 14 broken, 2 runouts`. */
  readonly counts: string;
  /** Whether other models can be put beside it: `presentBeside`. */
  readonly hasBeside: boolean;
  /** What else is to be said of the line, as pairs of words: lack of fit, replication, tested range... */
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  /** For a line from another sheet that is there but not chosen yet: the choice that would use it. */
  readonly offer?: PresentedOffer;
}

/** An option of a choice that reads what a fit publishes, and is not the one in force. */
export interface PresentedOffer {
  readonly choiceId: string;
  readonly optionKey: string;
  readonly optionLabel: string;
  /** Label of the option in force. */
  readonly chosenLabel: string;
}
