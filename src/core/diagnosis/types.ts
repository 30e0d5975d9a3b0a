import type { Expression } from '../formula/types.ts';
import type { Unit } from '../units/types.ts';

/** One thing done wrongly. What is named by a part is a part of the formula, for the words to show. */
export type Slip =
  /** The result times a whole power of ten. */
  | { readonly kind: 'power of ten'; readonly power: number }
  | { readonly kind: 'factor'; readonly factor: number }
  | { readonly kind: 'sign' }
  /** A number of the one unit given as one of the other. */
  | { readonly kind: 'unit'; readonly from: Unit; readonly to: Unit }
  /** Two neighbouring digits of the result changed places. */
  | { readonly kind: 'digits' }
  /** A symbol put in with so many times its value: 0.5 for a radius where a diameter belongs, or a part for the whole. */
  | { readonly kind: 'times'; readonly symbol: string; readonly factor: number }
  | { readonly kind: 'symbol in unit'; readonly symbol: string; readonly from: Unit; readonly to: Unit }
  | { readonly kind: 'another symbol'; readonly symbol: string; readonly taken: string }
  /** A symbol put in with two neighbouring digits of its number changed. */
  | { readonly kind: 'digits inside'; readonly symbol: string }
  /** Two symbols that changed places. */
  | { readonly kind: 'changed places'; readonly symbol: string; readonly taken: string }
  | { readonly kind: 'power'; readonly part: Expression; readonly right: number; readonly taken: number }
  | { readonly kind: 'left out'; readonly part: Expression }
  | { readonly kind: 'sign inside'; readonly part: Expression }
  | { readonly kind: 'sign of a power'; readonly part: Expression }
  | { readonly kind: 'turned over'; readonly part: Expression }
  | { readonly kind: 'multiplied'; readonly part: Expression }
  | { readonly kind: 'divided'; readonly part: Expression }
  | { readonly kind: 'logarithm'; readonly part: Expression }
  | { readonly kind: 'function left out'; readonly part: Expression; readonly name: string }
  | { readonly kind: 'degrees'; readonly part: Expression }
  /** A mistake that the sheet lists itself, by its name there. */
  | { readonly kind: 'listed'; readonly id: string };

/** What may have been done, and what then comes out. */
export interface Explanation {
  /** One, or two that were made together. */
  readonly slips: readonly Slip[];
  /** The symbol in whose formula it was done; undefined for the asked one itself. */
  readonly at?: string;
  /** What comes out, SI. */
  readonly value: number;
  /** How far-fetched it is: below 1 for what the sheet lists, 1 to 4 for what is met less and less often. Those with one whole part are as simple as each other. */
  readonly tier: number;
}

/** A symbol as the formulas have it. */
export interface Quantity {
  /** SI. */
  readonly value: number;
  /** The one that it is read or shown in: powers forgotten and factors left out are those of its number there. */
  readonly unit: Unit;
}

/** What is asked, and all that may have been mistaken for something else. */
export interface Working {
  readonly formula: Expression;
  /** The right result, SI. */
  readonly right: number;
  /** The one that it is shown in. */
  readonly unit: Unit;
  /** Symbols that the formula reads whose own formulas belong to the same working, nobody having asked for them; upstream ones may read one another. */
  readonly inner: ReadonlyMap<string, Expression>;
  /** Every symbol of the sheet that has a value. */
  readonly quantity: (symbol: string) => Quantity | undefined;
  /** Those that may be taken for one another with the ones that are read: near in the sheet, or alike by name. */
  readonly near: readonly string[];
  /** Mistakes that the sheet lists, with what comes out of each: those of the asked step itself, and those of what lies before it. */
  readonly listed: readonly { readonly id: string; readonly value: number; readonly isHere: boolean }[];
}

/** A result of the reader's. */
export interface Wrong {
  /** SI. */
  readonly value: number;
  /** Half a unit of the last place typed, SI. */
  readonly halfLastPlace: number;
}

