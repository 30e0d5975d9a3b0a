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
/** Degrees of freedom that go with it, ½(1/4)⁻², JCGM 100:2008, G.4.2 (equation G.3). */
const LIMIT_DEGREES_OF_FREEDOM = 0.5 / LIMIT_INEXACTNESS ** 2;

/** What a limit ±a gives a type B component. */
type Spread = Pick<Component, 'distribution' | 'standardUncertainty' | 'degreesOfFreedom' | 'widthInexactness'>;

/**
 * Standard uncertainty of a quantity known to lie within ±halfWidth of its estimate.
 * Rectangular a/√3, triangular a/√6, arcsine a/√2. A normal distribution and Student's t have no ends: the limits are taken
 * to hold 95 % of the values, so a/1.96 and a/t; t has the 8 degrees of freedom of a limit known to a quarter of itself.
 * A curvilinear trapezoid is a rectangle whose half-width is known to a quarter of itself: u² = a²/3 + (a/4)²/9.
 * @param halfWidth SI, ≥ 0
 * @source JCGM 100:2008, 4.3.4 to 4.3.9 and G.4.2; JCGM 101:2008, 6.4.2 to 6.4.6, 6.4.9 (clauses from memory). That the
 * quarter is taken where nothing is said is a choice of ours.
 */
export function spreadOfLimit(halfWidth: number, distribution: Distribution): Spread {
  const exactly = (divisor: number): Spread => ({
    distribution, standardUncertainty: halfWidth / divisor, degreesOfFreedom: Infinity,
  });
  switch (distribution) {
    case 'rectangular': return exactly(Math.sqrt(3));
    case 'triangular': return exactly(Math.sqrt(6));
    case 'arcsine': return exactly(Math.SQRT2);
    case 'normal': return exactly(normalQuantile((1 + WITHIN_LIMITS) / 2));
    case 'curvilinear trapezoid':
      return { ...exactly(1 / trapezoidFactor(LIMIT_INEXACTNESS)), widthInexactness: LIMIT_INEXACTNESS };
    case 't': {
      const factor = studentQuantile((1 + WITHIN_LIMITS) / 2, LIMIT_DEGREES_OF_FREEDOM);
      return { ...exactly(factor), degreesOfFreedom: LIMIT_DEGREES_OF_FREEDOM };
    }
  }
}

/** Standard uncertainty over half-width of a curvilinear trapezoid, JCGM 101:2008, 6.4.3.3. */
export function trapezoidFactor(widthInexactness: number): number {
  return Math.sqrt(1 / 3 + widthInexactness ** 2 / 9);
}
