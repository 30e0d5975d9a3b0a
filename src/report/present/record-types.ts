import type { Problem } from '../../core/problem/index.ts';
import type { PresentedNotes } from './notes-types.ts';

/** A clock as the page has it: the present time, and how a time is said at this place. Times in milliseconds since 1970. */
export interface PageClock {
  readonly now: number;
  readonly say: (time: number) => string;
}

export interface RecordFact {
  readonly name: string;
  readonly text: string;
}

export interface PresentedRecord extends PresentedNotes {
  readonly phase: 'not started' | 'running' | 'paused' | 'ended';
  /** `Not started`; `Ended 2026-11-20 14:02:10: fracture`. */
  readonly standing: string;
  /** What is to be known before the start: open items; '' where there is nothing. */
  readonly advice: string;
  /** What is filled in, for the report. */
  readonly facts: readonly RecordFact[];
  /** Noted readings and pauses, for the report. */
  readonly readings: readonly (readonly string[])[];
  readonly pauses: readonly string[];
  /** The prediction that counts, as it was at the start. */
  readonly predicted: readonly RecordFact[];
  /** After the end: running time, cycles from counter and from speed, and whether they agree. */
  readonly counts: readonly RecordFact[];
  readonly verdict?: { readonly agree: boolean; readonly sentence: string };
  /** A counter reading that is asked about: at which of the readings, in which words, how often it would have gone past its last number, and the text that confirms it. */
  readonly question?: { readonly place: 'end' | number; readonly sentence: string; readonly times: number; readonly confirmation: string };
  /** What was changed in the sheet since the start. */
  readonly changed: readonly string[];
}

/** What is true of a running test at one moment. */
export interface PresentedRunning {
  readonly facts: readonly RecordFact[];
  /** `Given that it still runs, there is a half chance that it breaks before 15:40.` */
  readonly outlook: readonly string[];
  /** The clock went backwards, and what that means. */
  readonly problems: readonly Problem[];
}

/** A running test in a few words. */
export interface PresentedGlance {
  /** `over`: not begun, or ended. */
  readonly phase: 'running' | 'paused' | 'over';
  readonly facts: readonly string[];
  /** What is to be looked at in the record. */
  readonly trouble?: string;
}
