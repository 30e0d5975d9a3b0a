import type { CountedCycles, Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { Unit } from '../../core/units/index.ts';

/** A predicted quantity as it was kept. SI. */
export interface FrozenValue {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly unit: Unit;
}

export type RecordOutcome = 'fracture' | 'runout' | 'suspended' | 'invalid';

/** A counter reading of which a roll-over has still to be confirmed: it is below the one before it, or far behind speed and time. */
export interface CounterQuestion {
  /** The n-th of those noted, counted from 0 as they stand in the text, or that at the end. */
  readonly place: 'end' | number;
  readonly before: number;
  readonly reading: number;
  /** How often it went past its last number, as far as speed and time bear it out; once where absent. */
  readonly times?: number;
}

/** Cycles from one reading to the next, and what speed and time give, both to the second and the unit. */
export interface CounterGain {
  readonly cycles: number;
  /** Absent without a speed. */
  readonly expected?: number;
  readonly isPlausible: boolean;
}

/** A test record read from its text. Times in milliseconds since 1970, numbers SI. */
export interface RecordState {
  readonly phase: 'not started' | 'running' | 'paused' | 'ended';
  readonly started?: number;
  readonly ended?: number;
  readonly pauses: readonly Pause[];
  /** Latest time that is stamped anywhere in it. */
  readonly latest?: number;
  readonly multiplier: number;
  readonly digits: number;
  /** Counter readings in order of time, that at the start first; none from the one on that is asked about and below that before it. `rolled`: roll-overs confirmed since that before it. */
  readonly counter: readonly { readonly at: number; readonly reading: number; readonly rolled?: number | undefined }[];
  /** Cycles up to the last counter reading; absent without two readings, without that at the start, and while one below that before it is asked about. */
  readonly counted?: CountedCycles;
  readonly question?: CounterQuestion;
  /** Mean of the noted speeds, else the speed frozen at the start; cycles per second. */
  readonly speed?: { readonly value: number; readonly standardUncertainty: number; readonly noted: number; readonly last: number };
  readonly loadingCycles?: number;
  readonly outcome?: RecordOutcome;
  /** By role; a role without a value at the start is not there. */
  readonly predicted: ReadonlyMap<string, FrozenValue>;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
}
