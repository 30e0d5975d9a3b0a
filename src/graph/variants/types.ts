import type { Expression } from '../../core/formula/types.ts';
import type { Unit } from '../../core/units/index.ts';
import type { SheetDocument } from '../../sheet/types.ts';
import type { Chain } from '../along/index.ts';
import type { Bounds } from '../bounds.ts';
import type { Reckoned } from '../reckon.ts';
import type { Variation } from './read-variation.ts';

/** A given whose number is another one for each team. */
export interface Varied {
  readonly cellId: string;
  readonly symbol: string;
  readonly label: string;
  readonly unit: Unit;
  readonly variation: Variation;
  readonly possible: Bounds;
  readonly plausible?: Bounds;
}

/** What the numbers of every team have to keep to. */
export type Condition = { readonly words: string } & (
  /** A number of the sheet between bounds; a given that varies, or a result. */
  | { readonly kind: 'within'; readonly symbol: string; readonly bounds: Bounds }
  | { readonly kind: 'holds'; readonly cellId: string; readonly condition: Expression }
  /** A result that is asked for has a number at all. */
  | { readonly kind: 'known'; readonly symbol: string }
  /** Two results that are asked for can't be taken for one another. */
  | { readonly kind: 'apart'; readonly symbols: readonly [string, string]; readonly share: number }
);

/** A sheet read as one of which every team gets its own numbers. */
export interface VariantPlan {
  readonly document: SheetDocument;
  /** In the order in which numbers are drawn: what follows from others after them. */
  readonly varied: readonly Varied[];
  readonly conditions: readonly Condition[];
  /** Values in SI of the givens that are the same for all. */
  readonly known: ReadonlyMap<string, number>;
  /** Results that are asked for and have a value, in the order of the sheet. */
  readonly asked: readonly string[];
  /** What is worth knowing and keeps nobody from drawing: pairs that are the same for every team. */
  readonly notes: readonly string[];
  /** The sheet with numbers in the middle of the ranges. */
  readonly middle: Reckoned;
  readonly chain: Chain;
}

/** The numbers of one team. */
export interface Variant {
  readonly seed: number;
  /** What stands in each blank, in the order of drawing. */
  readonly entries: readonly { readonly symbol: string; readonly text: string }[];
  /** At which try they met all conditions, from 1. */
  readonly tries: number;
  readonly reckoned: Reckoned;
}

/** No numbers within so many tries: how often each condition was not met. */
export interface Misfit {
  readonly tries: number;
  readonly failed: readonly { readonly words: string; readonly times: number }[];
}
