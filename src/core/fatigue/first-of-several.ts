import { findRoot, integrate, normalDensity, scaledChiDensity, scaledChiRange, studentQuantile } from '../numeric/index.ts';
import { standardQuantile, standardSurvival } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

const NORMAL_BREAKS = [-7.5, 0, 7.5];
const PIECES = 3;

/** The doubt of a line at a stress: an untied quantile z₀ (see `untiedQuantile`), and the degrees of freedom of s. */
export interface LineDoubt {
  readonly life: LifeDistribution;
  readonly z: number;
  /** Standard error of the quantile over s; √h for the median of least squares. */
  readonly root: number;
  readonly degreesOfFreedom: number;
}

/** Chance that each of the next m log lives exceeds location + k·s, over what the line and s may be. */
export function chanceBeyond(several: number, k: number, { life, z, root, degreesOfFreedom }: LineDoubt): number {
  const [low, high] = scaledChiRange(degreesOfFreedom);
  const chiBreaks = Array.from({ length: PIECES + 1 }, (_, i) => low + ((high - low) * i) / PIECES);
  return integrate((w) => scaledChiDensity(w, degreesOfFreedom) * integrate(
    (u) => normalDensity(u) * standardSurvival(life, z + (k - z) * w + root * u) ** several, NORMAL_BREAKS, 14,
  ), chiBreaks, 14);
}

/**
 * The k for which each of the next m log lives at a stress exceeds location + k·s with the given probability. The m lives
 * share the doubt of the line and of s, so Bonferroni's t(1 − (1 − probability)/m)·√(1 + h) is a little too wide and
 * t(probability)·√(1 + h) is exact only for m = 1; here the shared parts are integrated over.
 * @source Hahn, JASA 65 (1970) 1668: the problem for normal log lives, as multivariate t; the integral is written out here.
 */
export function firstOfSeveralFactor(several: number, probability: number, doubt: LineDoubt): number {
  const { life, root, degreesOfFreedom } = doubt;
  const single = (p: number): number => -studentQuantile(p, degreesOfFreedom) * Math.hypot(1, root);
  if (several <= 1 && life === 'lognormal' && doubt.z === 0) return single(probability);
  // The ends of the search are asked for again by what searches between them.
  const known = new Map<number, number>();
  const gap = (k: number): number => {
    const there = known.get(k) ?? chanceBeyond(several, k, doubt) - probability;
    known.set(k, there);
    return there;
  };
  const start = life === 'lognormal' ? single(1 - (1 - probability) / several) : standardQuantile(life, 1 - probability ** (1 / several));
  let reach = (1 + root) / 8;
  while (reach < 1e6 && (gap(start - reach) < 0 || gap(start + reach) > 0)) reach *= 2;
  return findRoot(gap, start - reach, start + reach, 1e-10) ?? start;
}
