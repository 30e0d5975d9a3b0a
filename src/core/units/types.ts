import type { Span } from '../problem/index.ts';

/**
 * Exponents of the base quantities. Plane angle is kept apart from the number 1, so that rad/s is never silently a
 * frequency; a cycle and a revolution are the number 1.
 */
export type Dimension = readonly [
  length: number,
  mass: number,
  time: number,
  current: number,
  temperature: number,
  angle: number,
];

/** A unit, simple or compound: value in SI = number * factor + offset. */
export interface Unit {
  /** As the sheet writes it: `N·m`, `rev/min`, `1` for a plain number. */
  readonly name: string;
  readonly dimension: Dimension;
  readonly factor: number;
  /** Only for the temperature scales °C and °F standing alone; 0 elsewhere. */
  readonly offset: number;
}

/** Names as they stand in a document's front matter (`units:`). */
export type UnitSystem = 'SI' | 'US customary';

/** A number with the unit that was typed after it, before anything is said of its dimension. */
export interface TypedQuantity {
  readonly number: number;
  readonly typedNumber: string;
  /** Undefined where no unit was typed. */
  readonly unit: Unit | undefined;
  readonly reinterpreted: boolean;
  /** Value of one unit in the last written place of the number. */
  readonly lastPlace: number;
  readonly text: string;
  readonly unitSpan: Span;
}
