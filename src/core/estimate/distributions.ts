import { normalQuantile, studentQuantile } from '../numeric/index.ts';
import type { Component, Distribution } from './types.ts';

/** Every distribution a limit can be spread by, in the order they are offered. */
export const DISTRIBUTIONS: readonly Distribution[] = [
  'rectangular', 'triangular', 'normal', 'arcsine', 'curvilinear trapezoid', 't',
];

/** Share of the values between the limits of a distribution that has no ends. */
const WITHIN_LIMITS = 0.95;
/** How well a limit is known where nothing else is said: to a quarter of itself. */
const LIMIT_INEXACTNESS = 0.25;

/** How well a limit itself is known. */
export interface LimitKnowledge {
  /** How far it may be off, as a share of itself, 0 < r < 1. */
  readonly inexactness?: number;
  /** Above 0; those of the inexactness where absent. */
  readonly degreesOfFreedom?: number;
}

/** Degrees of freedom of an uncertainty that is known to a share r of itself, ½ r⁻²: JCGM 100:2008, G.4.2 (equation G.3). */
function degreesOfFreedomOf(inexactness: number): number {
  return 0.5 / inexactness ** 2;
}

/** What a limit ±a gives a type B component. */
type Spread = Pick<Component, 'distribution' | 'standardUncertainty' | 'degreesOfFreedom' | 'widthInexactness'>;

/**
 * Standard uncertainty of a quantity known to lie within ±halfWidth of its estimate.
 * Rectangular a/√3, triangular a/√6, arcsine a/√2. A normal distribution and Student's t have no ends: the limits are taken
 * to hold 95 % of the values, so a/1.96 and a/t. A curvilinear trapezoid is a rectangle whose half-width a is known to r of itself:
 * u² = a²/3 + (r a)²/9. Where nothing is said of the limit it is exactly known, but for t and the trapezoid, which are for limits that are not: there
 * r = 1/4, with 8 degrees of freedom for t.
 * @param halfWidth SI, ≥ 0
 * @source JCGM 100:2008, 4.3.4 to 4.3.9 and G.4.2; JCGM 101:2008, 6.4.2 to 6.4.6, 6.4.9 (clauses from memory). That the
 * quarter is taken where nothing is said is a choice of ours.
 */
export function spreadOfLimit(halfWidth: number, distribution: Distribution, known: LimitKnowledge = {}): Spread {
  const { inexactness, degreesOfFreedom = inexactness === undefined ? Infinity : degreesOfFreedomOf(inexactness) } = known;
  const over = (divisor: number): Spread => ({ distribution, standardUncertainty: halfWidth / divisor, degreesOfFreedom });
  switch (distribution) {
    case 'rectangular': return over(Math.sqrt(3));
    case 'triangular': return over(Math.sqrt(6));
    case 'arcsine': return over(Math.SQRT2);
    case 'normal': return over(normalQuantile((1 + WITHIN_LIMITS) / 2));
    case 'curvilinear trapezoid': {
      const widthInexactness = inexactness ?? LIMIT_INEXACTNESS;
      return { ...over(1 / trapezoidFactor(widthInexactness)), widthInexactness };
    }
    case 't': {
      const own = known.degreesOfFreedom ?? degreesOfFreedomOf(inexactness ?? LIMIT_INEXACTNESS);
      return { ...over(studentQuantile((1 + WITHIN_LIMITS) / 2, own)), degreesOfFreedom: own };
    }
  }
}

/** Standard uncertainty over half-width of a curvilinear trapezoid, JCGM 101:2008, 6.4.3.3. */
export function trapezoidFactor(widthInexactness: number): number {
  return Math.sqrt(1 / 3 + widthInexactness ** 2 / 9);
}
