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
