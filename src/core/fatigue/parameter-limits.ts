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
 * them; `adjusted` (see `LimitApproach`) those of least squares with s and se enlarged, which hold their confidence with few
 * broken specimens.
 */
export function parameterLimits(fit: LineFit, confidence: number, approach: LimitApproach = 'adjusted'): ParameterLimits {
  const free = fit.failures - fit.parameters.length;
  const dof = fit.degreesOfFreedom ?? (approach === 'adjusted' && free > 0 ? free : null);
  const enlarge = fit.degreesOfFreedom === null && dof !== null ? Math.sqrt(fit.failures / dof) : 1;
  const upper = (1 + confidence) / 2;
  const factor = enlarge * (dof === null ? normalQuantile(upper) : studentQuantile(upper, dof));
  const seLogScale = Math.sqrt(fit.covariance.at(-1)?.at(-1) ?? 0);
  const scale = (p: number): number =>
    fit.s * enlarge * (dof === null ? Math.exp(-normalQuantile(p) * seLogScale) : Math.sqrt(dof / chiSquareQuantile(p, dof)));
  return Object.freeze({
    parameters: Object.freeze(fit.parameters.map(({ name, value, se }) => Object.freeze({ name, lo: value - factor * se, hi: value + factor * se }))),
    s: Object.freeze({ lo: scale(upper), hi: scale(1 - upper) }),
  });
}
