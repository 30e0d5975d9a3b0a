import type {
  ExpectedLine, LifeLimits, NextTest, Outcome, Plan, Staircase, StrengthLimits, WantedPrecision,
} from '../../core/fatigue/index.ts';
import type { LeverSettings, LeverToSet, OwnedWeight } from '../../core/mechanics/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { Unit } from '../../core/units/index.ts';
import type { ComparisonFindings } from './comparison-findings.ts';

/** What a form has found, as plain data told apart by `form`; numbers in SI but for what the core says otherwise. */
export type Findings = LimitsFindings | LivesFindings | ComparisonFindings | StaircaseFindings | PlanFindings | WeightsFindings;

/** What a limit is to hold: the kinds of `lifeLimits` that the sheet shows, in this order. */
export type LimitRow = 'median' | 'band' | 'next' | 'first of several' | 'tolerance' | 'interval' | 'two s';

/** Limits of life at a stress and of strength at a life, from one line. */
export interface LimitsFindings {
  readonly form: 'limits';
  readonly confidence: number;
  readonly share: number;
  /** Number of the next specimens, of which the first to break is asked for. */
  readonly several: number;
  /** Of Student's t behind the limits; null where they are those of large samples. */
  readonly degreesOfFreedom: number | null;
  /** Whether they are limits of maximum likelihood made wider for the few specimens. */
  readonly adjusted: boolean;
  /** Pa, with the limits in log10 cycles; absent where no stress is asked about. */
  readonly atStress?: { readonly stress: number; readonly rows: readonly (readonly [LimitRow, LifeLimits])[] };
  /** Cycles, with the limits in MPa, or why there are none; absent where no life is asked about. */
  readonly atLife?: { readonly cycles: number; readonly rows: readonly (readonly [LimitRow, StrengthLimits])[]; readonly none?: Problem };
}

export type LivesRow = 'median' | 'share' | 'next' | 'first of several' | 'tolerance' | 'interval';

/** A parameter with its limits; null for a side that is not told. */
interface LimitedParameter {
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Lives of specimens at one stress. Limits in log10 cycles. */
export interface LivesFindings {
  readonly form: 'lives';
  readonly distribution: 'lognormal' | 'weibull' | 'weibull-threshold';
  readonly confidence: number;
  readonly share: number;
  readonly several: number;
  /** Lowest and highest of the specimens, Pa. */
  readonly stress: readonly [number, number];
  readonly n: number;
  readonly failures: number;
  readonly runouts: number;
  /** Natural logarithm, of lives in cycles. */
  readonly logLikelihood: number;
  /** Whether the limits are those of exact normal theory. */
  readonly isExact: boolean;
  readonly rows: readonly (readonly [LivesRow, LifeLimits])[];
  /** Of log10 life: the mean, or the logarithm of the characteristic life. */
  readonly location: LimitedParameter;
  /** Of log10 life: the standard deviation, or 1/(shape·ln 10). */
  readonly scale: LimitedParameter;
  /** Cycles, and the chance of at least its gain where there is none. */
  readonly threshold?: LimitedParameter & { readonly p: number };
}

/** Strength at a life from a staircase. Levels and every number of the result are in `unit`, that of the table's levels. */
export interface StaircaseFindings {
  readonly form: 'staircase';
  readonly unit: Unit;
  /** Name of the column of the levels. */
  readonly column: string;
  /** Row by row of the table; `invalid` also where a row is left out or waits for its outcome. */
  readonly levels: readonly number[];
  readonly outcomes: readonly Outcome[];
  /** What the published symbols are: estimates by counting, or by maximum likelihood. */
  readonly method: 'counting' | 'probit';
  /** Null while there is no test or no step, or where one step below there is nothing left. */
  readonly next: NextTest | null;
  /** As stated, or the nearest to it that the machine can set; found from the levels where absent. */
  readonly step?: number;
  /** The step as stated and the smallest that the machine can set; absent where it can set any. */
  readonly settable?: { readonly wanted: number; readonly smallest: number };
  /** Levels that the machine can set, lowest first; absent where no list of them is asked or it is empty. */
  readonly listed?: readonly number[];
  /** Cycles that a runout has to have reached, where stated. */
  readonly life?: number;
  /** Place of the last row that can be used. */
  readonly last?: number;
  /** The same, where it waits for its outcome. */
  readonly waiting?: number;
  readonly result?: Staircase;
  /** Why there is no result yet. */
  readonly none?: Problem;
}

/** Weights that a laboratory owns, put together and placed on a lever for a wanted load. */
export interface WeightsFindings {
  readonly form: 'weights';
  /** Whether they are listed by mass, kg, and not as forces, N. */
  readonly isMass: boolean;
  readonly lever: LeverToSet;
  /** Places in the table of those listed, in the order of `owned`. */
  readonly rows: readonly number[];
  readonly owned: readonly OwnedWeight[];
  readonly settings?: LeverSettings;
  /** Why there are none. */
  readonly none?: Problem;
}

/** A precision that is wanted, and the number of specimens at each of the planned levels that reaches it; null where too many. */
export interface PlanWish {
  readonly wanted: WantedPrecision;
  readonly levels: number;
  readonly each: number | null;
}

/** What planned tests will give and take, or why the line that is expected allows no plan. */
export type PlanFindings = PlanFound | { readonly form: 'plan'; readonly none: Problem };

export interface PlanFound {
  readonly form: 'plan';
  readonly none?: never;
  readonly plan: Plan;
  readonly line: ExpectedLine;
  /** Whether the line is stated, and not that of a fit. */
  readonly isStated: boolean;
  readonly confidence: number;
  readonly machines: number;
  /** Runout life, cycles. */
  readonly life?: number;
  /** Revolutions per second. */
  readonly speed?: number;
  /** Pa, and the half width of the limits of log10 of the median life there. */
  readonly atStress?: { readonly stress: number; readonly halfWidth: number };
  readonly wishes: readonly PlanWish[];
}
