import { normalCumulative, normalQuantile } from '../numeric/index.ts';

/** A lognormal prediction of one specimen's life: mean and standard deviation of log10 N. */
export interface PredictedLife {
  readonly logLife: number;
  readonly standardDeviation: number;
  /** Share of such specimens that breaks at all; the others run out. 1 where absent. */
  readonly breaks?: number;
}

/** Share of such specimens expected to have broken by so many cycles, never more than break at all. */
export function brokenBy(cycles: number, { logLife, standardDeviation, breaks = 1 }: PredictedLife): number {
  return cycles > 0 ? Math.min(breaks, normalCumulative(distance(cycles, logLife, standardDeviation))) : 0;
}

/** Chance that a specimen that has lasted `survived` cycles still breaks. */
export function stillBreaks(survived: number, predicted: PredictedLife): number {
  const { breaks = 1 } = predicted;
  if (breaks >= 1) return 1;
  return (breaks - brokenBy(survived, predicted)) / (1 - brokenBy(survived, predicted));
}

/**
 * The life by which a specimen that has lasted `survived` cycles breaks with probability p, if it breaks at all: the quantile of the predicted
 * distribution F cut off below, and above where all have broken that break. With the share b that breaks, F(N) = F(survived) + p (b − F(survived)).
 * NaN where all of these have broken.
 */
export function lifeGivenSurvival(p: number, survived: number, { logLife, standardDeviation, breaks = 1 }: PredictedLife): number {
  if (standardDeviation === 0) return breaks > 0 ? Math.max(survived, 10 ** logLife) : Number.NaN;
  // Upper tails are accurate where the share that survives is small.
  const surviving = survived > 0 ? normalCumulative(-distance(survived, logLife, standardDeviation)) : 1;
  const unbroken = 1 - breaks;
  if (breaks < 1 && !(surviving > unbroken)) return Number.NaN;
  const life = 10 ** (logLife - standardDeviation * normalQuantile((1 - p) * surviving + p * unbroken));
  return Math.max(survived, life);
}

function distance(cycles: number, logLife: number, standardDeviation: number): number {
  const difference = Math.log10(cycles) - logLife;
  if (standardDeviation > 0) return difference / standardDeviation;
  return difference < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
}
