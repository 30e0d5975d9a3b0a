import { bilinear, fisherQuantile, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { chanceBeyond, firstOfSeveralFactor, type LineDoubt } from './first-of-several.ts';
import { standardQuantile } from './life-distribution.ts';
import { locationAt, locationGradient, type FittedLine } from './line.ts';
import { predictiveQuantile } from './predictive.ts';
import { confidenceBeyond, quantileLimit, untiedQuantile } from './quantile-limit.ts';
import { twoSidedToleranceFactor } from './tolerance-interval.ts';

/**
 * What the limits are to hold, each with the stated confidence:
 * `median` the median life at this one stress; `band` the whole median line at once; `next` the life of the next specimen;
 * `first of several` the shortest life of the next m specimens (lower only); `tolerance` the life that at least the stated
 * share of specimens exceeds (lower only); `share` that same life with limits on both sides; `interval` holds the stated share of
 * specimens between its sides; `two s` the median less 2·s,
 * which no confidence belongs to, for comparison.
 */
export type LimitKind =
  | { readonly kind: 'median' | 'band'; readonly confidence: number }
  | { readonly kind: 'next'; readonly confidence: number }
  | { readonly kind: 'first of several'; readonly several: number; readonly confidence: number }
  | { readonly kind: 'tolerance' | 'share' | 'interval'; readonly share: number; readonly confidence: number }
  | { readonly kind: 'two s' };

/**
 * How limits after maximum likelihood are reckoned; least squares is exact and knows no choice.
 * `adjusted`: s is enlarged by √(f/(f − p)), f broken specimens and p parameters, and Student's t with f − p degrees of
 * freedom is used as for least squares; limits for a share are by noncentral t, and Weibull ones for the next specimens by
 * integration, about the quantile that does not hang on s (`untiedQuantile`). Without runouts, lognormal limits then are
 * those of least squares. Holds its confidence better in small samples (own simulation, tests/bench/coverage.bench.ts; no
 * published source). `large sample`: as software for survival data gives them.
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
 * ±√(p·F(p, ν))·s√h (band), ±t·s√(1 + h) (next), ±k·s (`interval`, see `twoSidedToleranceFactor`; Weibull: two one-sided limits that share the doubt), −s√h·t′(ν, z_share/√h) (tolerance; both tails for `share`: see `quantileLimit`).
 * Maximum likelihood: see `LimitApproach`. For large samples, normal limits of the quantile by the delta method with the
 * observed information; `band` √χ²(p); `next` and `first of several` from the distribution of life averaged over the normal
 * distribution of the estimates.
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
  // Specimens exactly on the line leave no doubt to reckon with.
  const oneSided = asked.kind === 'first of several' || asked.kind === 'tolerance';
  if (!(line.s > 0)) return Object.freeze({ estimate, lower: estimate, upper: oneSided ? null : estimate });
  const [lower, upper] = sides(line, stressMpa, asked, share, approach);
  return Object.freeze({ estimate, lower, upper });
}

/** One end of a kind of limits. */
interface AskedLimit {
  readonly asked: LimitKind;
  readonly side: 'lower' | 'upper';
  readonly approach: LimitApproach;
}

/**
 * A number of the sign of the limit of life at a stress less a log life, zero where they are the same; NaN where there is no such
 * limit. Of the first of several it is the chance that all of them live longer, less the confidence, and of a share the confidence that it lives
 * longer, less the one asked for: the same sign, for one integral in place of the search of a limit.
 */
export function limitBeyond(line: FittedLine, stressMpa: number, logLife: number, { asked, side, approach }: AskedLimit): number {
  const { dof, enlargement, isAdjusted } = foundationOf(line, approach);
  const location = locationAt(line, stressMpa);
  const isReckoned = isAdjusted && line.s > 0 && Number.isFinite(location);
  if ((asked.kind === 'tolerance' || asked.kind === 'share') && isReckoned) {
    return confidenceBeyond(line, stressMpa, logLife, confidenceAt(asked, side), { z: standardQuantile(line.life, 1 - asked.share), dof, enlargement });
  }
  if (asked.kind === 'first of several' && isReckoned) {
    return chanceBeyond(asked.several, (logLife - location) / (line.s * enlargement), doubtAt(line, stressMpa, dof)) - asked.confidence;
  }
  return (lifeLimits(line, stressMpa, asked, approach)[side] ?? Number.NaN) - logLife;
}

type Sides = readonly [lower: number | null, upper: number | null];
type Bounded = Exclude<LimitKind, { readonly kind: 'two s' }>;
type OfShare = Extract<Bounded, { readonly share: number }>;
type OfMedian = Extract<Bounded, { readonly kind: 'median' | 'band' }>;
type OfNext = Exclude<Bounded, OfShare | OfMedian>;

function sides(line: FittedLine, stressMpa: number, asked: Bounded, share: number, approach: LimitApproach): Sides {
  const { dof, enlargement, isAdjusted } = foundationOf(line, approach);
  if (!isAdjusted) return largeSample(line, stressMpa, asked, share);
  const { confidence } = asked;
  const median = (kind: OfMedian['kind']): Sides => ofMedian(enlargement === 1 ? line : enlarged(line, enlargement ** 2), stressMpa, { kind, confidence }, dof);
  switch (asked.kind) {
    case 'tolerance':
    case 'share':
      return ofShare(line, stressMpa, asked, dof, enlargement);
    case 'interval':
      return ofInterval(line, stressMpa, asked, dof, enlargement);
    case 'next':
      return around(ofNext(line, stressMpa, asked, dof, enlargement), median('median'));
    case 'first of several':
      return ofNext(line, stressMpa, asked, dof, enlargement);
    case 'median':
    case 'band':
      return median(asked.kind);
  }
}

/** Degrees of freedom of the limits, by what s is enlarged for them, and whether they rest on these at all or on large samples. */
function foundationOf(line: FittedLine, approach: LimitApproach): { readonly dof: number; readonly enlargement: number; readonly isAdjusted: boolean } {
  if (line.degreesOfFreedom !== null) return { dof: line.degreesOfFreedom, enlargement: 1, isAdjusted: true };
  const dof = line.failures - line.parameters.length;
  return { dof, enlargement: Math.sqrt(line.failures / dof), isAdjusted: approach !== 'large sample' && dof >= 1 };
}

function doubtAt(line: FittedLine, stressMpa: number, dof: number): LineDoubt {
  const { z, root } = line.life === 'lognormal' ? { z: 0, root: locationStandardError(line, stressMpa) / line.s } : untiedQuantile(line, stressMpa);
  return { life: line.life, z, root, degreesOfFreedom: dof };
}

function ofShare(line: FittedLine, stressMpa: number, asked: OfShare, dof: number, enlargement: number): Sides {
  const z = standardQuantile(line.life, 1 - asked.share);
  const limit = (side: AskedLimit['side']): number => quantileLimit(line, stressMpa, confidenceAt(asked, side), { z, dof, enlargement });
  return [limit('lower'), asked.kind === 'tolerance' ? null : limit('upper')];
}

/** The confidence with which the share exceeds a limit of it: a tolerance limit has the one that was asked for, two limits stand on both sides of it. */
function confidenceAt({ kind, confidence }: Pick<OfShare, 'kind' | 'confidence'>, side: AskedLimit['side']): number {
  if (kind === 'tolerance') return confidence;
  return (side === 'lower' ? 1 + confidence : 1 - confidence) / 2;
}

/** About the location where lives are lognormal; for Weibull lives from the limits below and above which half of the rest lies, each with half of the doubt. */
function ofInterval(line: FittedLine, stressMpa: number, { share, confidence }: OfShare, dof: number, enlargement: number): Sides {
  if (line.life === 'lognormal') {
    const half = twoSidedToleranceFactor(locationStandardError(line, stressMpa) / line.s, dof, share, confidence) * line.s * enlargement;
    return [locationAt(line, stressMpa) - half, locationAt(line, stressMpa) + half];
  }
  const sure = (1 + confidence) / 2;
  const limit = (p: number, below: number): number => quantileLimit(line, stressMpa, p, { z: standardQuantile(line.life, below), dof, enlargement });
  return [limit(sure, (1 - share) / 2), limit(1 - sure, (1 + share) / 2)];
}

function ofNext(line: FittedLine, stressMpa: number, asked: OfNext, dof: number, enlargement: number): Sides {
  const location = locationAt(line, stressMpa);
  const doubt = doubtAt(line, stressMpa, dof);
  const limit = (several: number, probability: number): number => location + line.s * enlargement * firstOfSeveralFactor(several, probability, doubt);
  if (asked.kind === 'first of several') return [limit(asked.several, asked.confidence), null];
  return [limit(1, (1 + asked.confidence) / 2), limit(1, (1 - asked.confidence) / 2)];
}

/** Two approximations may disagree where few break: a specimen is never surer than the median of all. */
function around([low, high]: Sides, [inLow, inHigh]: Sides): Sides {
  return [Math.min(low ?? Infinity, inLow ?? Infinity), Math.max(high ?? -Infinity, inHigh ?? -Infinity)];
}

/** The line with variances enlarged by a factor, that of s among them. */
function enlarged(line: FittedLine, factor: number): FittedLine {
  return { ...line, s: line.s * Math.sqrt(factor), covariance: line.covariance.map((row) => row.map((value) => value * factor)) };
}

/** Derivatives of log10 of the life that a share exceeds at a stress, to the parameters in their order and to ln s, as the covariance has them. */
export function quantileGradient(line: FittedLine, stressMpa: number, share: number): readonly number[] {
  return [...locationGradient(line, stressMpa), standardQuantile(line.life, 1 - share) * line.s];
}

/** Standard error of the location at a stress, log10 cycles. */
export function locationStandardError(line: FittedLine, stressMpa: number): number {
  const gradient = [...locationGradient(line, stressMpa), 0];
  return Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
}

function ofMedian(line: FittedLine, stressMpa: number, { kind, confidence }: OfMedian, dof: number): Sides {
  const { quantile, se } = quantileByDelta(line, stressMpa, 0.5);
  const p = line.parameters.length;
  const half = se * (kind === 'median' ? studentQuantile((1 + confidence) / 2, dof) : Math.sqrt(p * fisherQuantile(confidence, p, dof)));
  return [quantile - half, quantile + half];
}

/** The life that a share exceeds, log10, with its standard error. */
function quantileByDelta(line: FittedLine, stressMpa: number, share: number): { readonly quantile: number; readonly se: number } {
  const z = standardQuantile(line.life, 1 - share);
  // ∂/∂ln s of z·s is z·s itself.
  const gradient = [...locationGradient(line, stressMpa), z * line.s];
  const se = Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
  return { quantile: locationAt(line, stressMpa) + z * line.s, se };
}

function largeSample(line: FittedLine, stressMpa: number, asked: Bounded, share: number): Sides {
  const tail = (1 - asked.confidence) / 2;
  switch (asked.kind) {
    case 'median':
    case 'band':
      return ofMedian(line, stressMpa, asked, Infinity);
    case 'share':
    case 'tolerance': {
      const { quantile, se } = quantileByDelta(line, stressMpa, share);
      if (asked.kind === 'tolerance') return [quantile - normalQuantile(asked.confidence) * se, null];
      return [quantile + normalQuantile(tail) * se, quantile - normalQuantile(tail) * se];
    }
    case 'interval':
      return largeInterval(line, stressMpa, asked);
    case 'next':
      return [predictiveQuantile(line, stressMpa, 1, 1 - tail), predictiveQuantile(line, stressMpa, 1, tail)];
    case 'first of several':
      return [predictiveQuantile(line, stressMpa, asked.several, asked.confidence), null];
  }
}

/** Two one-sided limits that share the doubt, by the delta method. */
function largeInterval(line: FittedLine, stressMpa: number, { share, confidence }: OfShare): Sides {
  const z = normalQuantile((3 + confidence) / 4);
  const [low, high] = [(1 + share) / 2, (1 - share) / 2].map((exceeding) => quantileByDelta(line, stressMpa, exceeding));
  return low === undefined || high === undefined ? [null, null] : [low.quantile - z * low.se, high.quantile + z * high.se];
}
