import { chiSquareCumulative, findRoot, integrate, normalCumulative, normalDensity, normalQuantile } from '../numeric/index.ts';

const NORMAL_BREAKS = [0, 1, 2.5, 5, 8];
const NODES = 16;
const ENOUGH = 1e-10;

/**
 * The k for which location ∓ k·s holds at least a share of a normal population with the given confidence, where the estimate of the location is off by
 * root·σ (1/√n of a mean of n, √h of a line) and s has its own degrees of freedom, independent of it. Exact.
 * @source Wald and Wolfowitz, Ann. Math. Statist. 17 (1946) 208: the problem; ISO 16269-6 tables k for a mean; the integral is written out here.
 */
export function twoSidedToleranceFactor(root: number, degreesOfFreedom: number, share: number, confidence: number): number {
  const coverage = (k: number): number => 2 * integrate((u) => {
    const need = halfWidthAbout(root * u, share) / k;
    return normalDensity(u) * (1 - chiSquareCumulative(degreesOfFreedom * need * need, degreesOfFreedom));
  }, NORMAL_BREAKS, NODES);
  const least = normalQuantile((1 + share) / 2);
  let high = 2 * least * Math.hypot(1, root);
  while (high < 1e9 && coverage(high) < confidence) high *= 2;
  return findRoot((k) => coverage(k) - confidence, least / 10, high, ENOUGH * high) ?? Number.NaN;
}

/** Half the width about x that holds a share of a standard normal population. */
function halfWidthAbout(x: number, share: number): number {
  const offset = Math.abs(x);
  const inside = (half: number): number => normalCumulative(offset + half) - normalCumulative(offset - half) - share;
  const centred = normalQuantile((1 + share) / 2);
  return findRoot(inside, centred * 0.999, offset + centred, 1e-13) ?? offset + centred;
}
