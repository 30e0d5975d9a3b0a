import type { Problem } from '../problem/index.ts';

/** What became of a specimen. Runout and suspended are both right-censored: the life is only known to exceed N. */
export type Outcome = 'fracture' | 'runout' | 'suspended' | 'invalid';

/**
 * Columns of the specimens' table, all of the same length. Rows with outcome `invalid` are kept out of every fit.
 * Life is the dependent variable, stress is set by the experimenter: nothing here regresses stress on life.
 */
export interface Specimens {
  /** Stress amplitude, MPa, > 0. */
  readonly stressMpa: ArrayLike<number>;
  /** Cycles at fracture, or reached unbroken; > 0. */
  readonly cycles: ArrayLike<number>;
  /** Fracture for all where left out. */
  readonly outcomes?: readonly Outcome[];
  /** Nominal level of each specimen, for replicates whose measured stresses differ a little; equal stress where left out. */
  readonly levels?: ArrayLike<number> | readonly string[];
}

/** `constant`: lives at one stress, no line. */
export type LineModel = 'constant' | 'linear' | 'quadratic' | 'limit';
/** X = log10(S/MPa) or X = S in MPa. */
export type StressScale = 'log' | 'plain';
export type LifeDistribution = 'lognormal' | 'weibull';
export type FitMethod = 'least-squares' | 'maximum-likelihood';

export type ParameterName = 'A' | 'B' | 'C' | 'S_0';

export interface ParameterEstimate {
  readonly name: ParameterName;
  readonly value: number;
  /** Standard error. */
  readonly se: number;
  /** Two-sided limits at the fit's `confidence`: Student's t for least squares, normal for maximum likelihood. */
  readonly lo: number;
  readonly hi: number;
}

/** F test of the line against the means of replicates. */
export interface LackOfFit {
  readonly F: number;
  readonly df1: number;
  readonly df2: number;
  readonly p: number;
  readonly sumOfSquaresLack: number;
  readonly sumOfSquaresPure: number;
}

export type ReplicationClass = 'preliminary' | 'research' | 'design' | 'reliability';

export interface Replication {
  readonly levels: number;
  readonly specimens: number;
  /** 100·(1 − levels/specimens). */
  readonly percent: number;
  /** The most demanding use the plan has the replication and number of specimens for; null below all. */
  readonly suitedFor: ReplicationClass | null;
}

/**
 * What every fit has, whatever the method; plain data that can be stored and read back. Parameters and s are on log10
 * scales: log10 of the location of N = A + B·X (+ C·X²), X on the fit's stress scale; for `limit` A + B·log10(S − S_0), for `constant` A.
 * The location is the median for lognormal life and the characteristic life for Weibull.
 */
export interface LineFit {
  readonly method: FitMethod;
  readonly model: LineModel;
  readonly stress: StressScale;
  readonly life: LifeDistribution;
  /** Specimens the fit rests on. */
  readonly n: number;
  readonly failures: number;
  /** Runouts and suspended tests in the table, used by maximum likelihood, only counted by least squares. */
  readonly runouts: number;
  /** Rows with outcome invalid. */
  readonly invalid: number;
  readonly parameters: readonly ParameterEstimate[];
  /** Of the parameters in their order, then ln s. */
  readonly covariance: readonly (readonly number[])[];
  /** Scale of log10 N: standard deviation for lognormal, 1/(shape·ln 10) for Weibull; n − p divisor for least squares. */
  readonly s: number;
  readonly sLimits: { readonly lo: number; readonly hi: number };
  /** n − p for least squares; null for maximum likelihood, whose intervals are those of large samples. */
  readonly degreesOfFreedom: number | null;
  /** Natural logarithm of the greatest likelihood of the lives N in cycles. */
  readonly logLikelihood: number;
  /** 2·(number of parameters, s among them) − 2·logLikelihood. */
  readonly aic: number;
  readonly confidence: number;
  /** Lowest and highest stress, MPa, and life, cycles, of the specimens used: the line is not meant beyond. */
  readonly tested: { readonly stressMpa: readonly [number, number]; readonly cycles: readonly [number, number] };
  readonly replication: Replication;
  readonly lackOfFit: LackOfFit | null;
  readonly warnings: readonly Problem[];
}

/** In how many of 100 simulated cases limits that say 95 % held the truth. */
export interface Coverage {
  /** Of the parameters, the worse of A and B. */
  readonly parameters: number;
  readonly s: number;
  /** So few broken specimens were not simulated: they hold less. */
  readonly beyond: boolean;
}

/** One specimen used by least squares, row by row. */
export interface Residual {
  /** Place in the table, from 0. */
  readonly row: number;
  /** Fitted log10 N. */
  readonly fitted: number;
  /** log10 N less fitted. */
  readonly residual: number;
  /** 0..1: how much the specimen pulls the line at its own stress. */
  readonly leverage: number;
  /** Residual over its standard error, s from all others (externally studentised); null where the others leave none. */
  readonly studentised: number | null;
  /** Standard normal quantile that belongs to the residual's rank, (i − 0.375)/(n + 0.25). */
  readonly normalScore: number;
  readonly influential: boolean;
}

export interface LeastSquaresFit extends LineFit {
  /** Worked out when it is first read. */
  readonly residuals: readonly Residual[];
  /** Rows, by place in the table, that stand apart or pull the line more than the others. */
  readonly influential: readonly number[];
  /** Share of the variance of log10 N that the line explains. */
  readonly rSquared: number;
}

/** Tests in the order they were made. Levels are stresses or loads of any one unit, > 0. */
export interface StaircaseTests {
  readonly levels: ArrayLike<number>;
  /** Invalid and suspended tests are left out; the next test repeats their level. */
  readonly outcomes: readonly Outcome[];
}
