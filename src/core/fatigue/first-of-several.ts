import {
  findRoot,
  integrate,
  normalCumulative,
  normalDensity,
  scaledChiDensity,
  scaledChiRange,
  studentQuantile,
} from '../numeric/index.ts';

const NORMAL_BREAKS = [-7.5, 0, 7.5];
const PIECES = 3;

/**
 * The k for which the shortest of the next m log lives at a stress exceeds median − k·s with the given confidence. The m
 * lives share the doubt of the line and of s, so Bonferroni's t(1 − (1 − confidence)/m)·√(1 + h) is a little too wide and
 * t(confidence) √(1 + h) is exact only for m = 1; here the shared parts are integrated over.
 * @param rootLeverage √h: standard error of the line at the stress over s
 * @source Hahn, JASA 65 (1970) 1668: the problem, as multivariate t; the integral is written out here.
 */
export function firstOfSeveralFactor(several: number, confidence: number, rootLeverage: number, degreesOfFreedom: number): number {
  const single = (p: number): number => studentQuantile(p, degreesOfFreedom) * Math.hypot(1, rootLeverage);
  if (several <= 1) return single(confidence);
  const [low, high] = scaledChiRange(degreesOfFreedom);
  const chiBreaks = Array.from({ length: PIECES + 1 }, (_, i) => low + ((high - low) * i) / PIECES);
  const chance = (k: number): number => integrate((w) => scaledChiDensity(w, degreesOfFreedom) * integrate(
    (z) => normalDensity(z) * normalCumulative(k * w - rootLeverage * z) ** several, NORMAL_BREAKS, 14,
  ), chiBreaks, 14);
  const found = findRoot((k) => chance(k) - confidence, single(confidence) - 1e-6, single(1 - (1 - confidence) / several) + 1e-6, 1e-10);
  return found ?? single(1 - (1 - confidence) / several);
}
