import { normalCumulative, normalQuantile } from '../numeric/index.ts';

/** A lognormal prediction of one specimen's life: mean and standard deviation of log10 N. */
export interface PredictedLife {
  readonly logLife: number;
  readonly standardDeviation: number;
}

/** Share of such specimens expected to have broken by so many cycles. */
export function brokenBy(cycles: number, { logLife, standardDeviation }: PredictedLife): number {
  return cycles > 0 ? normalCumulative(distance(cycles, logLife, standardDeviation)) : 0;
}

/**
 * The life by which a specimen that has lasted `survived` cycles breaks with probability p: the quantile of the predicted
 * distribution cut off below. Survival S gives S(N) = (1 − p) S(survived).
 */
export function lifeGivenSurvival(p: number, survived: number, { logLife, standardDeviation }: PredictedLife): number {
  if (standardDeviation === 0) return Math.max(survived, 10 ** logLife);
  // Upper tails are accurate where the share that survives is small.
  const surviving = survived > 0 ? normalCumulative(-distance(survived, logLife, standardDeviation)) : 1;
  const life = 10 ** (logLife - standardDeviation * normalQuantile((1 - p) * surviving));
  return Math.max(survived, life);
}

function distance(cycles: number, logLife: number, standardDeviation: number): number {
  const difference = Math.log10(cycles) - logLife;
  if (standardDeviation > 0) return difference / standardDeviation;
  return difference < 0 ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
}
