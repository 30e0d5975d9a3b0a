import { fail, type Result } from '../problem/index.ts';
import { fitCensored } from './maximum-likelihood-fit.ts';
import { readSpecimens } from './specimens.ts';
import type { LifeDistribution, LineFit, Outcome } from './types.ts';
import { allRunouts } from './problems.ts';

/** Lives of specimens that were all tested at one stress. */
export interface LivesAtOneStress {
  /** Cycles at fracture, or reached unbroken; > 0. */
  readonly cycles: ArrayLike<number>;
  readonly outcomes?: readonly Outcome[];
}

/** Where no stress is needed, it stands for the one of the tests. */
export const ONE_STRESS = 1;

/**
 * Lognormal or two-parameter Weibull lives at one stress by maximum likelihood, runouts as right-censored: a line of the model `constant`, of which
 * `lifeLimits` (at `ONE_STRESS`) gives all limits, for complete lognormal lives those of the mean and standard deviation of lg N with n − 1.
 * Problems: `all-runouts`, `specimens-too-few` (fewer than two broken), `scatter-not-found` (all broke at the same life), `fit-not-converged`.
 * @source Meeker and Escobar, Statistical Methods for Reliability Data (1998), chapter 8 (from memory).
 */
export function fitOneStress({ cycles, outcomes }: LivesAtOneStress, life: LifeDistribution, confidence = 0.95): Result<LineFit> {
  const stressMpa = new Float64Array(cycles.length).fill(ONE_STRESS);
  const read = readSpecimens({ stressMpa, cycles, ...(outcomes === undefined ? {} : { outcomes }) });
  if (!read.ok) return read;
  if (read.value.failures === 0 && read.value.runouts > 0) return fail(allRunouts(read.value.runouts));
  return fitCensored(read.value, { model: 'constant', life, confidence });
}
