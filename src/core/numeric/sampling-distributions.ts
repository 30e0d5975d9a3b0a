import { betaKernel, gammaKernel } from './gamma.ts';
import { betaTails, gammaTails, type Tails } from './incomplete.ts';
import { normalCumulative, normalDensity, normalQuantile } from './normal.ts';
import { positiveQuantile, type PositiveDistribution } from './quantile.ts';

/**
 * Student's t, chi-square and Fisher's F: cumulative probabilities and quantiles. Degrees of freedom are positive, need not
 * be whole, and may be Infinity. A probability outside 0..1 or degrees of freedom that are not positive give NaN.
 */

/** Beyond this, t differs from the normal distribution by less than the first term of its expansion is off. */
const NEARLY_INFINITE = 1e10;

/** Density of Student's t. */
export function studentDensity(t: number, degreesOfFreedom: number): number {
  if (degreesOfFreedom > NEARLY_INFINITE) return normalDensity(t);
  const half = degreesOfFreedom / 2;
  // 1/B(½, ν/2) from the kernel at its own peak: a difference of two logarithms of Γ would lose digits for large ν.
  const peak = betaKernel(0.5, half, 0.5 / (half + 0.5), half / (half + 0.5)) * Math.sqrt(1 + 2 * half) * Math.exp(half * Math.log1p(0.5 / half));
  return (peak / Math.sqrt(degreesOfFreedom)) * Math.exp(-(half + 0.5) * Math.log1p((t * t) / degreesOfFreedom));
}

/**
 * Probability that Student's t with the given degrees of freedom is at most t.
 * @source t² is F(1, ν) distributed; for huge ν Fisher's expansion, Abramowitz and Stegun 26.7.8 (from memory).
 */
export function studentCumulative(t: number, degreesOfFreedom: number): number {
  if (!(degreesOfFreedom > 0) || Number.isNaN(t)) return Number.NaN;
  if (degreesOfFreedom > NEARLY_INFINITE) {
    return normalCumulative(t) - (normalDensity(t) * (t ** 3 + t)) / (4 * degreesOfFreedom);
  }
  const half = fisher(1, degreesOfFreedom).tails(t * t).upper / 2;
  return t < 0 ? half : 1 - half;
}

/** The t below which Student's t lies with probability p; relative accuracy about 1e-13. */
export function studentQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p >= 0 && p <= 1 && degreesOfFreedom > 0)) return Number.NaN;
  if (p === 0.5) return 0;
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity;
  if (degreesOfFreedom > NEARLY_INFINITE) {
    const z = normalQuantile(p);
    return z + (z ** 3 + z) / (4 * degreesOfFreedom);
  }
  // Both are exact differences: p is a double between 0 and 1, and near the middle 0.5 − p loses nothing.
  const tail = p < 0.5 ? p : 1 - p;
  const square = tail < 0.25
    ? positiveQuantile(fisher(1, degreesOfFreedom), 'upper', 2 * tail)
    : positiveQuantile(fisher(1, degreesOfFreedom), 'lower', 2 * Math.abs(0.5 - p));
  return p < 0.5 ? -Math.sqrt(square) : Math.sqrt(square);
}

/** Probability that chi-square with the given degrees of freedom is at most x. */
export function chiSquareCumulative(x: number, degreesOfFreedom: number): number {
  return degreesOfFreedom > 0 && !Number.isNaN(x) ? chiSquare(degreesOfFreedom).tails(x).lower : Number.NaN;
}

/** Density of chi-square at x > 0; NaN elsewhere. */
export function chiSquareDensity(x: number, degreesOfFreedom: number): number {
  return x > 0 && degreesOfFreedom > 0 ? chiSquare(degreesOfFreedom).slope(x) / x : Number.NaN;
}

/** Density of Fisher's F at x > 0; NaN elsewhere. */
export function fisherDensity(x: number, numerator: number, denominator: number): number {
  return x > 0 && numerator > 0 && denominator > 0 ? ratio(numerator, denominator).slope(x) / x : Number.NaN;
}

/** The x below which chi-square lies with probability p; degrees of freedom finite. */
export function chiSquareQuantile(p: number, degreesOfFreedom: number): number {
  return degreesOfFreedom > 0 ? quantile(chiSquare(degreesOfFreedom), p) : Number.NaN;
}

/** Probability that Fisher's F with the given degrees of freedom above and below the line is at most x. */
export function fisherCumulative(x: number, numerator: number, denominator: number): number {
  return numerator > 0 && denominator > 0 && !Number.isNaN(x) ? ratio(numerator, denominator).tails(x).lower : Number.NaN;
}

/** The x below which Fisher's F lies with probability p. */
export function fisherQuantile(p: number, numerator: number, denominator: number): number {
  return numerator > 0 && denominator > 0 ? quantile(ratio(numerator, denominator), p) : Number.NaN;
}

function quantile(distribution: PositiveDistribution, p: number): number {
  if (!(p >= 0 && p <= 1)) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? 0 : Infinity;
  if (distribution === CERTAIN) return CERTAIN.start;
  return p < 0.5 ? positiveQuantile(distribution, 'lower', p) : positiveQuantile(distribution, 'upper', 1 - p);
}

function chiSquare(degreesOfFreedom: number): PositiveDistribution {
  const a = degreesOfFreedom / 2;
  return {
    tails: (x) => gammaTails(a, x / 2),
    slope: (x) => gammaKernel(a, x / 2),
    start: degreesOfFreedom,
  };
}

/** F for finite degrees of freedom. */
function fisher(numerator: number, denominator: number): PositiveDistribution {
  const a = numerator / 2;
  const b = denominator / 2;
  // n x/(n x + m) and m/(n x + m), written so that neither overflows.
  const share = (x: number): readonly [number, number] => {
    const odds = (numerator / denominator) * x;
    return odds === Infinity ? [1, 0] : [odds / (1 + odds), 1 / (1 + odds)];
  };
  return {
    tails: (x) => (x > 0 ? betaTails(...share(x), a, b) : { lower: 0, upper: 1 }),
    slope: (x) => betaKernel(a, b, ...share(x)),
    start: 1,
  };
}

/** F, where either side may be exactly known: a chi-square over its degrees of freedom, or its inverse. */
function ratio(numerator: number, denominator: number): PositiveDistribution {
  if (numerator < Infinity && denominator < Infinity) return fisher(numerator, denominator);
  if (numerator === Infinity && denominator === Infinity) return CERTAIN;
  if (denominator === Infinity) {
    const above = chiSquare(numerator);
    return { tails: (x) => above.tails(numerator * x), slope: (x) => above.slope(numerator * x), start: 1 };
  }
  const below = chiSquare(denominator);
  return {
    tails: (x) => swapped(below.tails(denominator / x)),
    slope: (x) => below.slope(denominator / x),
    start: 1,
  };
}

function swapped({ lower, upper }: Tails): Tails {
  return { lower: upper, upper: lower };
}

/** Always 1. */
const CERTAIN: PositiveDistribution = {
  tails: (x) => (x < 1 ? { lower: 0, upper: 1 } : { lower: 1, upper: 0 }),
  slope: () => 0,
  start: 1,
};
