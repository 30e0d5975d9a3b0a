import { normalCumulative, normalQuantile, scaledErfc } from '../numeric/index.ts';
import type { LifeDistribution } from './types.ts';

export const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);
const ROOT_TWO_OVER_PI = Math.sqrt(2 / Math.PI);
const ROOT_HALF_OVER_PI = Math.sqrt(0.5 / Math.PI);
/** Beyond this the normal tail is left to its asymptotic series. */
const FAR = 30;

/**
 * What a life adds to the likelihood, by its standardised logarithm z = (log10 N − location)/s: the log density of one that broke, the log probability to
 * exceed z of a runout; with the first and second derivative to z. Lognormal: standard normal. Weibull: smallest extreme value, exp(z − eᶻ).
 * @param into takes the three numbers: one for each specimen, many times over, costs no memory so
 * @source Meeker and Escobar, Statistical Methods for Reliability Data (1998), 4.3 and 4.6 (from memory).
 */
export function logTerm(into: Float64Array, life: LifeDistribution, isBroken: boolean, z: number): void {
  if (life === 'weibull') {
    const power = Math.exp(z);
    into[0] = isBroken ? z - power : -power;
    into[1] = isBroken ? 1 - power : -power;
    into[2] = -power;
  } else if (isBroken) {
    into[0] = -0.5 * z * z - HALF_LOG_TWO_PI;
    into[1] = -z;
    into[2] = -1;
  } else normalSurvival(into, z);
}

/** The same of a lognormal runout alone, as a number each. */
export function logSurvival(z: number): readonly [value: number, slope: number, curvature: number] {
  const found = new Float64Array(3);
  normalSurvival(found, z);
  return [found[0] as number, found[1] as number, found[2] as number];
}

/** The same of as many z, each a runout, into columns. */
export function logSurvivals(
  life: LifeDistribution, z: Float64Array, count: number,
  { value, slope, curvature }: { readonly value: Float64Array; readonly slope: Float64Array; readonly curvature: Float64Array },
): void {
  if (life === 'weibull') {
    for (let i = 0; i < count; i++) value[i] = slope[i] = curvature[i] = -Math.exp(z[i] as number);
    return;
  }
  const term = new Float64Array(3);
  for (let i = 0; i < count; i++) {
    normalSurvival(term, z[i] as number);
    value[i] = term[0] as number;
    slope[i] = term[1] as number;
    curvature[i] = term[2] as number;
  }
}

function normalSurvival(into: Float64Array, z: number): void {
  if (z > FAR) {
    const square = 1 / (z * z);
    into[0] = -0.5 * z * z - HALF_LOG_TWO_PI - Math.log(z) + Math.log1p(-square * (1 - 3 * square));
    // The hazard of the far tail, z + 1/z − 2/z³ + 10/z⁵, and its derivative.
    into[1] = -(z + (1 - 2 * square * (1 - 5 * square)) / z);
    into[2] = -(1 - square * (1 - 6 * square));
    return;
  }
  // Density over survival. Above zero both fall as exp(−z²/2), which is left out of the quotient.
  let hazard;
  if (z >= 0) {
    const scaled = scaledErfc(z * Math.SQRT1_2);
    into[0] = Math.log(0.5 * scaled) - 0.5 * z * z;
    hazard = ROOT_TWO_OVER_PI / scaled;
  } else {
    const fall = Math.exp(-0.5 * z * z);
    const below = 0.5 * fall * scaledErfc(-z * Math.SQRT1_2);
    into[0] = Math.log1p(-below);
    hazard = (ROOT_HALF_OVER_PI * fall) / (1 - below);
  }
  into[1] = -hazard;
  into[2] = -hazard * (hazard - z);
}

/** The z below which a share p of the standardised log lives lies. */
export function standardQuantile(life: LifeDistribution, p: number): number {
  return life === 'lognormal' ? normalQuantile(p) : Math.log(-Math.log1p(-p));
}

/** Probability that the standardised log life exceeds z. */
export function standardSurvival(life: LifeDistribution, z: number): number {
  return life === 'lognormal' ? normalCumulative(-z) : Math.exp(-Math.exp(z));
}
