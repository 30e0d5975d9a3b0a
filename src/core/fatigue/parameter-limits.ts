import { chiSquareQuantile, normalQuantile, studentQuantile } from '../numeric/index.ts';
import type { LimitApproach } from './life-limits.ts';
import type { LineFit, ParameterName } from './types.ts';

export interface ParameterLimits {
  readonly parameters: readonly { readonly name: ParameterName; readonly lo: number; readonly hi: number }[];
  readonly s: { readonly lo: number; readonly hi: number };
}

/**
 * Two-sided limits of a fit's parameters and s at another confidence, or adjusted for a small sample. Least squares:
 * Student's t, and χ² for s; it knows no choice. Maximum likelihood: `large sample` gives value ∓ z·se as the fit itself has
 * them; `adjusted` (see `LimitApproach`) those of least squares with s and se enlarged by √(f/(f − p)) and the degrees of
 * freedom that the observed information gives s, 1/(2·var(ln s)), which are f − p for complete lognormal samples and fewer
 * for Weibull. They hold their confidence with few broken specimens: own simulation, tests/bench/coverage.bench.ts.
 */
export function parameterLimits(fit: LineFit, confidence: number, approach: LimitApproach = 'adjusted'): ParameterLimits {
  const free = fit.failures - fit.parameters.length;
  const varLogScale = fit.covariance.at(-1)?.at(-1) ?? 0;
  const adjusted = fit.degreesOfFreedom === null && approach === 'adjusted' && free > 0;
  const enlarge = adjusted ? Math.sqrt(fit.failures / free) : 1;
  const dof = adjusted ? 1 / (2 * varLogScale * enlarge ** 2) : fit.degreesOfFreedom;
  const upper = (1 + confidence) / 2;
  const factor = enlarge * (dof === null ? normalQuantile(upper) : studentQuantile(upper, dof));
  const scale = (p: number): number =>
    fit.s * enlarge * (dof === null ? Math.exp(-normalQuantile(p) * Math.sqrt(varLogScale)) : Math.sqrt(dof / chiSquareQuantile(p, dof)));
  return Object.freeze({
    parameters: Object.freeze(fit.parameters.map(({ name, value, se }) => Object.freeze({ name, lo: value - factor * se, hi: value + factor * se }))),
    s: Object.freeze({ lo: scale(upper), hi: scale(1 - upper) }),
  });
}
