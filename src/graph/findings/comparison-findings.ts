import type {
  ComparedStrengths, GroupComparison, LifeDistribution, LineFit, LineModel, RatioOfLines, StressScale,
} from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';

/** A group of specimens with its own line. */
interface ComparedGroup {
  readonly name: string;
  readonly fit: LineFit;
}

/** A difference between two lines at one place (Pa, or cycles), or why there is none. */
export type ComparedAt<T> = { readonly at: number } & ({ readonly found: T } | { readonly none: Problem });

/** Median lives of two lines at a stress, log10 cycles, and their ratio. */
export interface ComparedLives extends RatioOfLines {
  readonly logLives: readonly [first: number, second: number];
}

export interface ComparedPair {
  readonly first: ComparedGroup;
  readonly second: ComparedGroup;
  readonly tests: GroupComparison;
  /** Of the variances about the two lines; only for least squares. */
  readonly scatter?: { readonly F: number; readonly df1: number; readonly df2: number; readonly p: number };
  readonly lives?: ComparedAt<ComparedLives>;
  readonly strengths?: ComparedAt<ComparedStrengths>;
}

/** Two groups of specimens against each other, and all groups together. */
export interface ComparisonFindings {
  readonly form: 'comparison';
  readonly model: LineModel;
  readonly stress: StressScale;
  readonly life: LifeDistribution;
  readonly confidence: number;
  /** Every group that the table names. */
  readonly groups: readonly string[];
  /** The two that are compared; fewer where there are no two. */
  readonly chosen: readonly string[];
  /** Why nothing is compared; what follows is absent then. */
  readonly none?: Problem;
  readonly pair?: ComparedPair;
  /** All groups at once, where there are more than two; or why they are not tested. */
  readonly joint?: { readonly tests: GroupComparison } | { readonly none: Problem };
}
