import { normalCumulative, normalDensity, normalQuantile } from '../numeric/index.ts';
import type { LifeDistribution } from './types.ts';

/** A logarithm of a density or of a survival probability at z, with its first and second derivative to z. */
type LogTerm = readonly [value: number, slope: number, curvature: number];

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
/** Beyond this the normal tail is left to its asymptotic series. */
const FAR = 30;

/**
 * Log density of the standardised log life z = (log10 N − location)/s.
 * Lognormal: standard normal. Weibull: smallest extreme value, exp(z − eᶻ).
 * @source Meeker and Escobar, Statistical Methods for Reliability Data (1998), 4.3 and 4.6 (from memory).
 */
export function logDensity(life: LifeDistribution, z: number): LogTerm {
  if (life === 'lognormal') return [-0.5 * z * z - HALF_LOG_TWO_PI, -z, -1];
  const power = Math.exp(z);
  return [z - power, 1 - power, -power];
}

/** Log of the probability that the standardised log life exceeds z: what a runout adds to the likelihood. */
export function logSurvival(life: LifeDistribution, z: number): LogTerm {
  if (life === 'weibull') {
    const power = Math.exp(z);
    return [-power, -power, -power];
  }
  if (z > FAR) {
    const square = 1 / (z * z);
    const value = -0.5 * z * z - HALF_LOG_TWO_PI - Math.log(z) + Math.log1p(-square * (1 - 3 * square));
    // The hazard of the far tail, z + 1/z − 2/z³ + 10/z⁵, and its derivative.
    return [value, -(z + (1 - 2 * square * (1 - 5 * square)) / z), -(1 - square * (1 - 6 * square))];
  }
  const survival = normalCumulative(-z);
  const hazard = normalDensity(z) / survival;
  return [Math.log(survival), -hazard, -hazard * (hazard - z)];
}

/** The z below which a share p of the standardised log lives lies. */
export function standardQuantile(life: LifeDistribution, p: number): number {
  return life === 'lognormal' ? normalQuantile(p) : Math.log(-Math.log1p(-p));
}

/** Probability that the standardised log life exceeds z. */
export function standardSurvival(life: LifeDistribution, z: number): number {
  return life === 'lognormal' ? normalCumulative(-z) : Math.exp(-Math.exp(z));
}
