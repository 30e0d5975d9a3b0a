import { normalQuantile, studentQuantile } from '../numeric/index.ts';
import type { FittedLine } from './line.ts';

/**
 * Factor k of the two-sided limits ± k·√(s² + u²) of log10 life of the next specimen, u the standard error of the median
 * line at its stress: Student's t with n − p degrees of freedom for least squares; for maximum likelihood Student's t with
 * f − p, times √(f/(f − p)), as the `adjusted` limits of `lifeLimits` (f broken specimens, p parameters), or the normal
 * factor where that leaves no degree of freedom. Undefined for Weibull lives, whose limits are not symmetric.
 * @param confidence 0 < confidence < 1
 * @source ASTM E739 and any text on regression for least squares; see `LimitApproach` for maximum likelihood.
 */
export function nextFactor(line: FittedLine, confidence: number): number | undefined {
  if (line.life === 'weibull') return undefined;
  const upTo = (1 + confidence) / 2;
  if (line.degreesOfFreedom !== null) return studentQuantile(upTo, line.degreesOfFreedom);
  const dof = line.failures - line.parameters.length;
  return dof < 1 ? normalQuantile(upTo) : studentQuantile(upTo, dof) * Math.sqrt(line.failures / dof);
}
