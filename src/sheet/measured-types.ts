import type { CellBase } from './cell-base.ts';

/** A common mistake that can be switched on to show what it does. */
export interface CellSlip {
  /** Names it together with the cell's symbol: `radius` in `I.radius`. */
  readonly key: string;
  /** What is done, as a clause: `radius put in for the diameter`. */
  readonly label: string;
  /** What then stands in place of the step's formula, or of a given's value; a given's own symbol is its value as read. */
  readonly formula: string;
  /** How it comes about. */
  readonly note?: string;
  readonly source?: string;
}

/** A measured or stated quantity. All fields as typed. */
export interface GivenCell extends CellBase {
  readonly kind: 'given';
  /** '' where the key is missing (a problem says so); as typed where it is malformed. */
  readonly symbol: string;
  /** One entry as the input takes it: `6.31 mm`, `6.31 ± 0.02 mm`, `200 ± 2 N limit`. */
  readonly value?: string;
  /** Repeated readings: `101.2, 101.4 mm`. At most one of `value` and `readings` counts; `readings` wins. */
  readonly readings?: string;
  /** A value to look at in place of what was measured, as `value` takes it; `value` and `readings` stay as written. '' and blanks are none. */
  readonly trial?: string;
  /**
   * Unit a bare number is read in, and the dimension the quantity has. '' where the key is absent: the unit is then the
   * one written in `value` or `readings`, which this layer does not read.
   */
  readonly unit: string;
  /** Class of instrument and its resolution: `steel rule, 0.5 mm`. */
  readonly instrument?: string;
  /** Override of the class's default resolution, limit of error (`0.02 mm`, `1 %`), the limit's distribution, and how well it is known. */
  readonly resolution?: string;
  readonly limit?: string;
  readonly distribution?: string;
  readonly inexactness?: string;
  readonly degreesOfFreedom?: string;
  /** What the range of repeated readings, largest less smallest, is called here: `ovality`. */
  readonly rangeLabel?: string;
  /** Range that warns: `2 mm .. 20 mm`. */
  readonly plausible?: string;
  /** Range outside which it is an error: `> 0` (the default), `>= 0`, `0 .. 1`, `any`. */
  readonly possible?: string;
  /** true: may stay empty, as what is known only after the test; what reads it is then open and no error. */
  readonly optional?: boolean;
  /** Name of the group of givens read in pairs. */
  readonly together?: string;
  /** Stated correlation coefficients by symbol: `F: 0.5`. */
  readonly correlated?: ReadonlyMap<string, string>;
  /** What of another sheet can be taken over: worked out or typed there. */
  readonly elsewhere?: ValueElsewhere;
  /** { from, specimen, symbol, on, value }: what was taken over, as it was there. */
  readonly taken?: ReadonlyMap<string, string>;
  /** Numbers of which each team gets one: `100 mm .. 140 mm step 1 mm`. */
  readonly varies?: string;
  readonly slips?: readonly CellSlip[];
}

/** A symbol of another sheet, and another one that tells this sheet from those in which the first is another quantity. */
export interface ValueElsewhere {
  readonly symbol: string;
  readonly beside?: string;
}
