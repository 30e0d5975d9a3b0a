import { findRoot, normalDensity, scaledChiDensity, scaledChiRange, studentQuantile, weighedPoints } from '../numeric/index.ts';
import { rememberedTexts, whenAsked } from '../remembered/index.ts';
import { standardQuantile, standardSurvival } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

const [PIECES, POINTS] = [3, 14];
/** Where the normal law is taken, and with what weight. */
const ofLine = whenAsked(() => weighedPoints(normalDensity, [-7.5, 0, 7.5], POINTS));
/** The same of s over σ, for degrees of freedom as a text: a search asks for the same ones many times. */
const ofScatter = rememberedTexts(20, (text) => {
  const degreesOfFreedom = Number(text);
  const [low, high] = scaledChiRange(degreesOfFreedom);
  return weighedPoints((w) => scaledChiDensity(w, degreesOfFreedom), Array.from({ length: PIECES + 1 }, (_, i) => low + ((high - low) * i) / PIECES), POINTS);
});

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
  const [scatter, line] = [ofScatter(String(degreesOfFreedom)), ofLine()];
  let chance = 0;
  for (let i = 0; i < scatter.nodes.length; i++) {
    const at = z + (k - z) * (scatter.nodes[i] as number);
    let sum = 0;
    for (let j = 0; j < line.nodes.length; j++) {
      const survival = standardSurvival(life, at + root * (line.nodes[j] as number));
      sum += (line.weights[j] as number) * (several === 1 ? survival : survival ** several);
    }
    chance += (scatter.weights[i] as number) * sum;
  }
  return chance;
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
