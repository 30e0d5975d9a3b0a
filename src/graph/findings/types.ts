import type { LifeLimits, StrengthLimits } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import type { ComparisonFindings } from './comparison-findings.ts';

/** What a form has found, as plain data told apart by `form`; numbers in SI but for what the core says otherwise. */
export type Findings = LimitsFindings | ComparisonFindings;

/** What a limit is to hold: the kinds of `lifeLimits` that the sheet shows, in this order. */
export type LimitRow = 'median' | 'band' | 'next' | 'first of several' | 'tolerance' | 'two s';

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
