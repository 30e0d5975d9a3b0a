import { normalQuantile, studentQuantile } from '../numeric/index.ts';
import { standardUncertainty } from './estimate.ts';
import { independentParts } from './independent-parts.ts';
import type { Estimate } from './types.ts';

/** An interval that holds the value with a stated probability, SI. */
export interface CoverageInterval {
  readonly low: number;
  readonly high: number;
  /** Coverage factor k: half-width over standard uncertainty. */
  readonly factor: number;
  /** As computed; undefined where they are not claimed. */
  readonly degreesOfFreedom: number | undefined;
}

/**
 * Degrees of freedom below a whole number by less than this count as that number: the guide's own example calls 18.9987
 * 19.0, and sums leave rounding.
 */
const NEARLY_WHOLE = 0.005;

/**
 * Effective degrees of freedom of a result, as computed: the formula of Welch and Satterthwaite over the parts of its variance that are
 * independent of one another (`independentParts`). Infinity where every part is exactly known; undefined where contributing inputs are
 * correlated by a stated coefficient that does not come of one estimate of the variance, for which the formula does not hold.
 * @source JCGM 100:2008, G.4.1, equation G.2b.
 */
export function effectiveDegreesOfFreedom(estimate: Estimate): number | undefined {
  const parts = independentParts(estimate);
  if (parts === undefined) return undefined;
  const combined = standardUncertainty(estimate);
  if (combined === 0) return Infinity;
  let sum = 0;
  for (const { size, degreesOfFreedom } of parts) sum += (size / combined) ** 4 / degreesOfFreedom;
  return sum === 0 ? Infinity : 1 / sum;
}

/**
 * Interval that holds the value with the given probability: ± Student's t times the standard uncertainty, t taken at the
 * next lower whole number of effective degrees of freedom (at least 1); where those are infinite or not claimed, the
 * normal distribution's quantile.
 * @param probability 0 < probability < 1
 * @source JCGM 100:2008, G.4.1 and G.6.4.
 */
export function coverageInterval(estimate: Estimate, probability = 0.95): CoverageInterval {
  const degreesOfFreedom = effectiveDegreesOfFreedom(estimate);
  const upTo = (1 + probability) / 2;
  const factor = degreesOfFreedom === undefined || degreesOfFreedom === Infinity
    ? normalQuantile(upTo)
    : studentQuantile(upTo, Math.max(1, Math.floor(degreesOfFreedom + NEARLY_WHOLE)));
  const halfWidth = factor * standardUncertainty(estimate);
  return { low: estimate.value - halfWidth, high: estimate.value + halfWidth, factor, degreesOfFreedom };
}

/**
 * The same interval for a positive value whose uncertainty is a factor, as that of a life: first order in the logarithm, so that
 * no end is negative. Undefined for a value that is not positive.
 */
export function factorInterval(estimate: Estimate, probability = 0.95): CoverageInterval | undefined {
  if (!(estimate.value > 0)) return undefined;
  const { factor, degreesOfFreedom } = coverageInterval(estimate, probability);
  const times = Math.exp((factor * standardUncertainty(estimate)) / estimate.value);
  return { low: estimate.value / times, high: estimate.value * times, factor, degreesOfFreedom };
}
