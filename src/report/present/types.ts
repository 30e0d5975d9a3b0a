import type { Problem } from '../../core/problem/index.ts';
import type { Verdict } from '../../graph/index.ts';
import type { AskedStates, CheckState, RangeWord, SheetStates } from '../../graph/types.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import type { UnitSystem } from '../../core/units/types.ts';
import type { PresentedNotes } from './notes-types.ts';

/** What is said of a cell, as plain data: the page, the report and the headless command all read it from here. */
export interface PresentContext {
  readonly document: SheetDocument;
  readonly states: AskedStates;
  /** Results are shown in this system; what was typed keeps its unit. */
  readonly system: UnitSystem;
  /** Shows results that the reader has not answered yet: for the headless command and for marking. */
  readonly reveal?: boolean | undefined;
  /** A class guesses which way the results go: all but those of the cells named here keep to themselves. */
  readonly guess?: { readonly shown: ReadonlySet<string> } | undefined;
  /** Cells of the reader's own working that a lecture has told. */
  readonly told?: ReadonlySet<string> | undefined;
}

/** The sheet itself, and not what somebody asks of it: states as a whole are had through `asked` and `wholeOf`, which note it. */
export interface WholeContext extends PresentContext {
  readonly states: SheetStates;
}

/** A result as it stands on the page, rounded by its uncertainty. Texts are plain, `tex` is for KaTeX. */
export type PresentedResult =
  | {
      readonly kind: 'value';
      /** `312.4`, `1.23·10⁵`; minus sign U+2212; digits grouped by thin spaces (U+202F) from five on. */
      readonly number: string;
      /** '' for a plain number. */
      readonly unit: string;
      /** Standard uncertainty in the same unit and exponent, absent where 0: `2.1`, `0.02·10⁵`. */
      readonly uncertainty?: string;
      /** 95 % interval in the same unit, absent where u is 0: coverage factor, degrees of freedom, both ends. */
      readonly interval?: {
        readonly factor: string;
        readonly low: string;
        readonly high: string;
        /** Effective degrees of freedom as computed; absent where infinite or not claimed (correlated inputs). */
        readonly degreesOfFreedom?: string;
      };
      /** For lives: times or divided by, one standard uncertainty: `1.12`. It stands in place of `uncertainty`. */
      readonly spreadFactor?: string;
      /** `312.4 ± 2.1 MPa`, plain text, as the headless command prints it. */
      readonly text: string;
      /** Number and unit without the uncertainty, which stands beside the line. */
      readonly tex: string;
    }
  | { readonly kind: 'range'; readonly word: RangeWord; readonly text: string }
  | { readonly kind: 'problem'; readonly problem: Problem };

/** A common mistake that the sheet offers to show. */
export interface PresentedSlip {
  /** `I.radius` */
  readonly id: string;
  readonly cellId: string;
  readonly symbol: string;
  /** Label of the given or step that it makes wrong. */
  readonly where: string;
  /** `radius put in for the diameter` */
  readonly label: string;
  readonly note?: string;
  readonly source?: string;
  readonly on: boolean;
}

/** What the slips switched on do to one result. */
export interface PresentedSlipMark {
  /** Where a slip acts itself; absent further down. */
  readonly slip?: PresentedSlip;
  /** What stands in the formula's place, of a given. */
  readonly slippedTex?: string;
  /** `I = \frac{...}{...}`, the formula that is right, of a step. */
  readonly rightTex?: string;
  /** `312.4 ± 2.1 MPa`; absent while the result is hidden. */
  readonly right?: string;
  /** `8.00 times what is right`, or how far away where a ratio means nothing; absent while it is hidden or has no number. */
  readonly effect?: string;
}

/** A trial value that the sheet goes on with in place of what was measured. */
export interface PresentedTrial {
  readonly cellId: string;
  readonly symbol: string;
  /** Label of the given. */
  readonly where: string;
  /** As it was typed or dragged to: `105.0 mm`. */
  readonly typed: string;
  /** `u = 0.3 mm` of it, by the instrument alone; absent where it has none. */
  readonly uncertainty?: string;
  /** What stays: `your readings`, `the value typed`; `nothing` where the blank is empty. */
  readonly stays: 'your readings' | 'the value typed' | 'the value filled in' | 'nothing';
}

export interface PresentedGiven extends PresentedNotes {
  readonly symbol: string;
  readonly symbolTex: string;
  /** What stands in the blanks, one entry a reading, as typed; empty where nothing was. */
  readonly blanks: readonly string[];
  /** Unit that belongs behind bare blanks; '' for a plain number. */
  readonly unit: string;
  /** Mean of several readings in the unit typed: `101.25 mm`. */
  readonly mean?: string;
  /** Range of several readings under the name it has here: `ovality 0.02 mm`. */
  readonly range?: string;
  readonly result: PresentedResult;
  readonly instrument?: string;
  /** How it was read, where it could be misread, and what it was typed over. */
  readonly echoes: readonly string[];
  /** Label of the option that filled the value. */
  readonly filledBy?: string;
  /** Which sheet the value was taken from, and when. */
  readonly takenFrom?: string;
  /** Present while a slip moves it: `result` is then the value as read. */
  readonly slipMark?: PresentedSlipMark & { readonly used: PresentedResult };
  /** Present while a trial value stands in its place: `result` is then what the readings say. */
  readonly trial?: PresentedTrial;
}

/** The three lines of a step. */
export interface PresentedStep extends PresentedNotes {
  /** Equation number: `7`. */
  readonly number: string;
  readonly symbol: string;
  readonly symbolTex: string;
  /** `R_A = \frac{...}{...}`; '' where the formula is one number, which the result line shows already. */
  readonly symbolsTex: string;
  /** `= …`, the same with each number and its unit put in; absent while an input is missing and where it would only repeat. Angle brackets that are zero are left out. */
  readonly numbersTex?: string;
  /** Where the formula has cases, all of them; `symbolsTex` has those that apply, for the reasons in `sinceTex`. */
  readonly wholeTex?: string;
  readonly sinceTex?: readonly string[];
  /** Only another symbol's value under a name of its own: `l_1 = s_1`. */
  readonly takesOver: boolean;
  /** What stands before the result: `=`, or `k_c =` where no line comes before. */
  readonly resultPrefixTex: string;
  readonly result: PresentedResult;
  /** Hidden until the reader has entered theirs, or until they have entered what it rests on. */
  readonly hidden: boolean;
  /** Whether the reader is asked for their own result. */
  readonly asked: boolean;
  /** What stands in the place of a hidden result. */
  readonly withheld: string;
  readonly answer?: PresentedAnswer;
  /** Label of the chosen option that sets the formula. */
  readonly setBy?: string;
  /** The formula as typed, where it could not be read. */
  readonly formulaText?: string;
  /** Present while a slip moves it. */
  readonly slipMark?: PresentedSlipMark;
}

/** The reader's own result beside the sheet's. */
export interface PresentedAnswer {
  readonly typed: string;
  readonly problem?: Problem;
  /** Undefined where the sheet has no value, where it can't be read, and while the verdict is kept for later. */
  readonly verdict?: Verdict;
  /** `Yours is 2.00 times the sheet's.`; while the sheet's is not told, how many tries are left. */
  readonly sentence?: string;
  /** What just that result comes of, the same thing in one or two ways; absent where it agrees, and where nothing or too much fits. */
  readonly comesOf?: readonly string[];
}

export interface PresentedCheck extends PresentedNotes, CheckState {
  /** Hidden while it would give away a result that is still asked. `message` is then ''. */
  readonly hidden: boolean;
}

/** One quantity or formula that the chosen option sets. */
export interface PresentedSetting {
  readonly symbol: string;
  /** `W = F - F_0` in TeX, or `S_{ut} = 630\,\mathrm{MPa}`. */
  readonly tex?: string;
  /** The same as typed, for what has no typeset form. */
  readonly text: string;
}

export interface PresentedChoice extends PresentedNotes {
  readonly options: readonly { readonly key: string; readonly label: string; readonly chosen: boolean }[];
  /** Label of the chosen option; absent where the chosen key names none. */
  readonly chosenLabel?: string;
  readonly settings: readonly PresentedSetting[];
  readonly source?: string;
  readonly optionNote?: string;
  /** The sentence that says what the chosen option still waits for. */
  readonly missing?: string;
  /** Which blanks it waits for, and what counts until they are filled. */
  readonly waits?: string;
}

export interface PresentedItem {
  readonly text: string;
  readonly done: boolean;
  /** `2026-11-20 09:12`; absent while open. */
  readonly time?: string;
}

export interface PresentedChecklist extends PresentedNotes {
  readonly items: readonly PresentedItem[];
  readonly openCount: number;
}

export interface PresentedRemark extends PresentedNotes {
  readonly heading: string;
  readonly text: string;
}

/** A column of a table as the page shows it. */
export interface PresentedColumn {
  /** What edits call it by. */
  readonly typed: string;
  /** Quantity and unit as a printed report heads a column: `S / MPa`; the label of a column without a unit. */
  readonly head: string;
  /** The head in three parts, where its quantity has a subscript: `n`, `i`, ` / cycles`. */
  readonly subscripted?: readonly [letter: string, below: string, rest: string];
  /** The column's label in words: `Stress amplitude`. */
  readonly label: string;
  /** Set to the right and in figures. */
  readonly isFigures: boolean;
  /** Computed from the other columns: nothing can be typed there. */
  readonly isDerived: boolean;
  /** Whether the rows' text has it, or it is computed. */
  readonly isPresent: boolean;
  /** What an empty field stands for; '' where for nothing. */
  readonly standsFor: string;
  readonly options: readonly string[];
}

/** One field of a row. */
export interface PresentedField {
  /** As typed; for derived columns the value in figures. */
  readonly text: string;
  /** As a printed report has it: digits in groups, outcomes in the table's own words, an arrow at a runout. */
  readonly printed: string;
  /** What is wrong, or worth a look, here. */
  readonly marks: readonly Problem[];
  /** Whether the row is left out for one of them. */
  readonly isWrong: boolean;
}

export interface PresentedRow {
  /** From 1, the header not counted. */
  readonly number: number;
  readonly fields: readonly PresentedField[];
  /** What is wrong with the row as a whole. */
  readonly marks: readonly Problem[];
  readonly isLeftOut: boolean;
  /** Whether the table's own condition leaves it out of what is counted. */
  readonly isNotCounted: boolean;
}

/** What a table gives the sheet: one value made of a column's rows. */
export interface PresentedTableSymbol {
  readonly symbol: string;
  readonly symbolTex: string;
  /** `D_M = \sum D_i =`; what stands before the result. */
  readonly prefixTex: string;
  readonly result: PresentedResult;
  /** Hidden until the reader has entered what it rests on. */
  readonly hidden: boolean;
}

export interface PresentedTable extends PresentedNotes {
  readonly gives: readonly PresentedTableSymbol[];
  readonly columns: readonly PresentedColumn[];
  readonly rowCount: number;
  /** `22 rows, 1 left out`. */
  readonly counts: string;
  /** `steel K (12), steel M (10)`; empty without groups. */
  readonly groups: readonly string[];
  readonly echoes: readonly string[];
  /** The condition that rows have to meet to be counted; absent where the table has none. */
  readonly where?: string;
  /** Rows `start` up to, not including, `end`, counted from 0, with a field for each column. A long table is never presented whole. */
  readonly rows: (start: number, end: number) => readonly PresentedRow[];
  /** The first row that is left out from row `start` on, or else from the top; undefined where none is. */
  readonly nextLeftOut: (start: number) => number | undefined;
}

export type * from './budget-types.ts';
export type * from './fit-types.ts';
export type * from './notes-types.ts';
