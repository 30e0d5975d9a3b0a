import type { Unit } from '../core/units/types.ts';
import type { RowField } from '../report/index.ts';

/** What stands in the title block of a returned sheet; '' where nothing does. */
export interface ReturnedHead {
  readonly title: string;
  readonly team: string;
  readonly operators: string;
  readonly specimen: string;
  readonly machine: string;
  readonly date: string;
  /** Which numbers the team was given; '' where all teams have the same. */
  readonly variant: string;
}

/** A blank in which somebody entered something. Numbers are SI. */
export interface ReturnedValue {
  readonly symbol: string;
  readonly label: string;
  /** As typed, readings with commas between. */
  readonly typed: string;
  /** How it stands in a report: `401.62 ± 0.11 mm`, or what is wrong with it. */
  readonly text: string;
  readonly readings: readonly number[];
  /** Absent where it can't be read. */
  readonly value?: number;
  readonly standardUncertainty: number;
  readonly unit?: Unit;
}

/**
 * What became of an own result: `agrees`, `carried` (right for earlier results of their own), `too few digits`, `differs`, `unreadable`,
 * `no result` where the sheet itself has none, `for the marker` where nothing is right or wrong by itself, `open` where nothing was entered.
 */
export type ReturnedVerdict = 'agrees' | 'carried' | 'too few digits' | 'differs' | 'unreadable' | 'no result' | 'for the marker' | 'open';

/** A step that asks for an own result, or a question. */
export interface ReturnedAnswer {
  /** Symbol of the step, or id of the question. */
  readonly symbol: string;
  readonly label: string;
  readonly isQuestion: boolean;
  readonly typed: string;
  readonly verdict: ReturnedVerdict;
  /** What is said of it; '' where nothing is. */
  readonly sentence: string;
  /** Wrong ones before it, as typed. */
  readonly earlier: readonly string[];
  /** What slip it comes of; found after everything else (`explain`). */
  readonly comesOf: readonly string[];
  /** The sheet's result: `312.4 ± 2.1 MPa`. */
  readonly right: string;
}

export interface ReturnedCheck {
  readonly id: string;
  readonly label: string;
  /** undefined: can't be told. */
  readonly holds: boolean | undefined;
  readonly message: string;
}

/** A test record of the sheet. */
export interface ReturnedTest {
  readonly label: string;
  readonly phase: 'not started' | 'running' | 'paused' | 'ended';
  /** `fracture`; '' before the end. */
  readonly outcome: string;
  /** The finished specimen by column, as a table of specimens takes it; absent as long as something is missing. */
  readonly row?: ReadonlyMap<string, RowField>;
}

/** One sheet that came back: facts alone, nothing that could be run or opened. */
export interface ReturnedSheet {
  /** `1`, in the order in which they came. */
  readonly id: string;
  /** Names of the files that hold just this sheet. */
  readonly files: readonly string[];
  /** The sheet's text. */
  readonly text: string;
  /** Whether the file says that its sheet was altered after it was taken away. */
  readonly isAltered: boolean;
  readonly head: ReturnedHead;
  readonly values: readonly ReturnedValue[];
  readonly answers: readonly ReturnedAnswer[];
  readonly checks: readonly ReturnedCheck[];
  readonly tests: readonly ReturnedTest[];
  /** What was written in remarks: conclusions, for whoever marks. */
  readonly remarks: readonly { readonly heading: string; readonly text: string }[];
  /** Formulas, conditions and rules for own results by symbol or cell, without blanks between signs: two sheets of one origin have the same. */
  readonly formulas: ReadonlyMap<string, string>;
  /** What is wrong in its cells, in words. */
  readonly troubles: readonly string[];
}
