import { bilinear, fisherQuantile, noncentralStudentQuantile, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { firstOfSeveralFactor } from './first-of-several.ts';
import { standardQuantile } from './life-distribution.ts';
import { locationAt, locationGradient, type FittedLine } from './line.ts';
import { predictiveQuantile } from './predictive.ts';

/**
 * What the limits are to hold, each with the stated confidence:
 * `median` the median life at this one stress; `band` the whole median line at once; `next` the life of the next specimen;
 * `first of several` the shortest life of the next m specimens (lower only); `tolerance` the life that at least the stated
 * share of specimens exceeds (lower only); `share` that same life with limits on both sides; `two s` the median less 2·s,
 * which no confidence belongs to, for comparison.
 */
export type LimitKind =
  | { readonly kind: 'median' | 'band' | 'next'; readonly confidence: number }
  | { readonly kind: 'first of several'; readonly several: number; readonly confidence: number }
  | { readonly kind: 'tolerance' | 'share'; readonly share: number; readonly confidence: number }
  | { readonly kind: 'two s' };

/**
 * How limits after maximum likelihood are reckoned; least squares is exact and knows no choice.
 * `adjusted`: s is enlarged by √(f/(f − p)), f broken specimens and p parameters, and Student's t with f − p degrees of
 * freedom is used as for least squares; without runouts, lognormal limits then are those of least squares. Holds its
 * confidence better in small samples (own simulation; no published source). `large sample`: as software for survival data
 * gives them.
 */
export type LimitApproach = 'adjusted' | 'large sample';

/** log10 of lives in cycles; null for a side that the kind does not bound. */
export interface LifeLimits {
  /** Median life; for `tolerance` and `share` the life that the stated share is estimated to exceed. */
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/**
 * Limits of life at a stress, by the fit's own method.
 *
 * Least squares: exact normal theory with leverage h = var/s² of the line at the stress and ν = n − p: ±t·s√h (median),
 * ±√(p·F(p, ν))·s√h (band), ±t·s√(1 + h) (next), −s√h·t′(ν, z_share/√h) (tolerance; both tails for `share`).
 * Maximum likelihood: see `LimitApproach`. For large samples, normal limits of the quantile by the delta method with the observed information;
 * `band` √χ²(p); `next` and `first of several` from the distribution of life averaged over the normal distribution of the
 * estimates.
 * At or below a fatigue limit the estimate is +∞ and there are no limits.
 * @param stressMpa > 0
 * @source ASTM E739, 8.2 (equation 12, simultaneous band of Working and Hotelling) and any text on regression; tolerance
 * limits by noncentral t: Owen, SCR-607 (1963), and ISO 12107; delta method: Meeker and Escobar (1998), 17.4. From memory.
 */
export function lifeLimits(line: FittedLine, stressMpa: number, asked: LimitKind, approach: LimitApproach = 'adjusted'): LifeLimits {
  const location = locationAt(line, stressMpa);
  const share = asked.kind === 'tolerance' || asked.kind === 'share' ? asked.share : 0.5;
  const estimate = location + standardQuantile(line.life, 1 - share) * line.s;
  if (!Number.isFinite(location)) return Object.freeze({ estimate, lower: null, upper: null });
  if (asked.kind === 'two s') return Object.freeze({ estimate, lower: estimate - 2 * line.s, upper: null });
  const [lower, upper] = sides(line, stressMpa, asked, share, approach);
  return Object.freeze({ estimate, lower, upper });
}

type Sides = readonly [lower: number | null, upper: number | null];
type Bounded = Exclude<LimitKind, { readonly kind: 'two s' }>;

function sides(line: FittedLine, stressMpa: number, asked: Bounded, share: number, approach: LimitApproach): Sides {
  if (line.degreesOfFreedom !== null) return exact(line, stressMpa, asked, line.degreesOfFreedom);
  const dof = line.failures - line.parameters.length;
  if (approach === 'large sample' || dof < 1) return byDelta(line, stressMpa, asked, share, Infinity);
  const adjusted = enlarged(line, line.failures / dof);
  return line.life === 'lognormal' ? exact(adjusted, stressMpa, asked, dof) : byDelta(adjusted, stressMpa, asked, share, dof);
}

/** The line with variances enlarged by a factor, that of s among them. */
function enlarged(line: FittedLine, factor: number): FittedLine {
  return { ...line, s: line.s * Math.sqrt(factor), covariance: line.covariance.map((row) => row.map((value) => value * factor)) };
}

/** Standard error of the location at a stress, log10 cycles. */
export function locationStandardError(line: FittedLine, stressMpa: number): number {
  const gradient = [...locationGradient(line, stressMpa), 0];
  return Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
}

function exact(line: FittedLine, stressMpa: number, asked: Bounded, dof: number): Sides {
  const { s } = line;
  const median = locationAt(line, stressMpa);
  const root = locationStandardError(line, stressMpa) / s;
  const t = studentQuantile((1 + asked.confidence) / 2, dof);
  const both = (half: number): Sides => [median - half, median + half];
  switch (asked.kind) {
    case 'median':
      return both(t * s * root);
    case 'band':
      return both(s * root * Math.sqrt(line.parameters.length * fisherQuantile(asked.confidence, line.parameters.length, dof)));
    case 'next':
      return both(t * s * Math.hypot(1, root));
    case 'first of several':
      return [median - s * firstOfSeveralFactor(asked.several, asked.confidence, root, dof), null];
    case 'tolerance':
      return [median - s * root * noncentralStudentQuantile(asked.confidence, dof, normalQuantile(asked.share) / root), null];
    case 'share': {
      const delta = normalQuantile(asked.share) / root;
      const factor = (p: number): number => s * root * noncentralStudentQuantile(p, dof, delta);
      return [median - factor((1 + asked.confidence) / 2), median - factor((1 - asked.confidence) / 2)];
    }
  }
}

/** @param dof of Student's t and F; Infinity for the normal distribution and χ² */
function byDelta(line: FittedLine, stressMpa: number, asked: Bounded, share: number, dof: number): Sides {
  const { life, s } = line;
  const z = standardQuantile(life, 1 - share);
  const quantile = locationAt(line, stressMpa) + z * s;
  // ∂/∂ln s of z·s is z·s itself.
  const gradient = [...locationGradient(line, stressMpa), z * s];
  const se = Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
  const both = (factor: number): Sides => [quantile - factor * se, quantile + factor * se];
  switch (asked.kind) {
    case 'median':
    case 'share':
      return both(studentQuantile((1 + asked.confidence) / 2, dof));
    case 'band':
      return both(Math.sqrt(line.parameters.length * fisherQuantile(asked.confidence, line.parameters.length, dof)));
    case 'tolerance':
      return [quantile - studentQuantile(asked.confidence, dof) * se, null];
    case 'next': {
      const tail = (1 - asked.confidence) / 2;
      return [predictiveQuantile(line, stressMpa, 1, 1 - tail), predictiveQuantile(line, stressMpa, 1, tail)];
    }
    case 'first of several':
      return [predictiveQuantile(line, stressMpa, asked.several, asked.confidence), null];
  }
}
