import type { ValueText } from '../drawings/types.ts';

/** A quantity along an axis. Values are in the unit shown. */
export interface SweepAxis {
  readonly symbol: string;
  /** Its name in words, for sentences: `Minimum diameter`. */
  readonly words: string;
  /** '' for a plain number. */
  readonly unit: string;
  /** A value with its unit, and without. */
  readonly text: ValueText;
  readonly number: ValueText;
}

/** A stretch without values, and why. */
export interface SweptGap {
  readonly from: number;
  readonly to: number;
  readonly words: string;
}

/** One result over the places of the sweep. */
export interface SweepPanel {
  readonly axis: SweepAxis;
  readonly scale: 'log' | 'linear';
  /** At the places of the sweep; NaN where there is none. */
  readonly values: Float64Array;
  /** One standard uncertainty below and above, to first order; equal to the values where there is none. */
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** A place of the line as it is told: `371.8 MPa ± 2.9 MPa`. */
  readonly told: (place: number) => string;
  readonly gaps: readonly SweptGap[];
  /** As it is now. */
  readonly present?: number;
}

/** Results against one quantity, one panel each above a shared axis. */
export interface SweepData {
  readonly against: SweepAxis;
  /** Ascending; the first and the last are the ends of the axis. */
  readonly places: Float64Array;
  /** Whether a place can be read; others only shape the line. */
  readonly isTold: readonly boolean[];
  readonly present?: number;
  readonly panels: readonly SweepPanel[];
  /** Where a check turns, with the sentence that says so. */
  readonly turns: readonly { readonly at: number; readonly words: string }[];
  /** Said last. */
  readonly note?: string;
}

/** One of the two quantities that a result is drawn against. */
interface ContourSide {
  readonly axis: SweepAxis;
  readonly from: number;
  readonly to: number;
}

/** A result over an even grid of two quantities. */
export interface ContourData {
  readonly x: ContourSide;
  readonly y: ContourSide;
  readonly result: SweepAxis;
  readonly scale: 'log' | 'linear';
  readonly columns: number;
  readonly rows: number;
  /** Row by row, along x in each; NaN where there is none. */
  readonly values: Float64Array;
  /** As it is now; the value NaN where there is none. */
  readonly present?: { readonly x: number; readonly y: number; readonly value: number };
  /** Why there are places without a value. */
  readonly gaps: readonly string[];
  readonly note?: string;
}
