import type { CountedCycles, Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { FrozenValue } from './frozen.ts';

export type RecordOutcome = 'fracture' | 'runout' | 'suspended' | 'invalid';

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
  /** Counter readings in order of time, that at the start first. */
  readonly counter: readonly { readonly at: number; readonly reading: number }[];
  /** Cycles up to the last counter reading; absent without two readings, or without that at the start. */
  readonly counted?: CountedCycles;
  /** Mean of the noted speeds, else the speed frozen at the start; cycles per second. */
  readonly speed?: { readonly value: number; readonly standardUncertainty: number; readonly noted: number; readonly last: number };
  readonly loadingCycles?: number;
  readonly outcome?: RecordOutcome;
  /** By role; a role without a value at the start is not there. */
  readonly predicted: ReadonlyMap<string, FrozenValue>;
  readonly problems: readonly Problem[];
  readonly warnings: readonly Problem[];
}
