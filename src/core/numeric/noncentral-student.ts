import { normalCumulative, normalDensity, normalQuantile } from './normal.ts';
import { integrate } from './quadrature.ts';
import { findRoot } from './root.ts';
import { studentCumulative, studentQuantile } from './sampling-distributions.ts';
import { scaledChiDensity, scaledChiRange } from './scaled-chi.ts';

/** From here on the sample's standard deviation is as good as known. */
const NEARLY_INFINITE = 1e10;

/**
 * Probability that noncentral t, (Z + δ)/√(χ²/ν), is at most t; absolute accuracy about 1e-13.
 * Works where series in incomplete beta functions underflow (large δ), since it integrates over the chi distribution.
 * @param degreesOfFreedom ν > 0, need not be whole, may be Infinity
 * @param noncentrality δ, finite
 * @source definition as an integral, Owen, Biometrika 52 (1965) 437, equation 1 (from memory).
 */
export function noncentralStudentCumulative(t: number, degreesOfFreedom: number, noncentrality: number): number {
  if (!(degreesOfFreedom > 0) || !Number.isFinite(noncentrality) || Number.isNaN(t)) return Number.NaN;
  if (Math.abs(t) === Infinity) return t > 0 ? 1 : 0;
  if (noncentrality === 0) return studentCumulative(t, degreesOfFreedom);
  if (degreesOfFreedom > NEARLY_INFINITE) return normalCumulative(t - noncentrality);
  // The smaller of the two tails is integrated, so that its digits are kept.
  if (t > noncentrality) {
    return 1 - overChi(t, degreesOfFreedom, noncentrality, (w) => normalCumulative(noncentrality - t * w));
  }
  return overChi(t, degreesOfFreedom, noncentrality, (w) => normalCumulative(t * w - noncentrality));
}

/**
 * The t below which noncentral t lies with probability p; relative accuracy about 1e-12.
 * @returns NaN outside the domain, ∓∞ at p = 0 and 1
 */
export function noncentralStudentQuantile(p: number, degreesOfFreedom: number, noncentrality: number): number {
  if (!(p >= 0 && p <= 1 && degreesOfFreedom > 0) || !Number.isFinite(noncentrality)) return Number.NaN;
  if (p === 0 || p === 1) return p === 0 ? -Infinity : Infinity;
  if (noncentrality === 0) return studentQuantile(p, degreesOfFreedom);
  if (degreesOfFreedom > NEARLY_INFINITE) return noncentrality + normalQuantile(p);
  const gap = (t: number): number => noncentralStudentCumulative(t, degreesOfFreedom, noncentrality) - p;
  let t = approximateQuantile(p, degreesOfFreedom, noncentrality);
  for (let step = 0; step < 12; step++) {
    const slope = overChi(t, degreesOfFreedom, noncentrality, (w) => w * normalDensity(t * w - noncentrality));
    const change = gap(t) / slope;
    if (!(Math.abs(change) < 0.5 * (1 + Math.abs(t)))) break;
    t -= change;
    if (Math.abs(change) <= 1e-13 * (1 + Math.abs(t))) return t;
  }
  return bracketed(gap, t);
}

function bracketed(gap: (t: number) => number, start: number): number {
  let reach = 1 + Math.abs(start);
  while (gap(start - reach) > 0 || gap(start + reach) < 0) reach *= 2;
  return findRoot(gap, start - reach, start + reach) ?? Number.NaN;
}

/** Jennett and Welch, J. R. Statist. Soc. Suppl. 6 (1939) 80: near normality of Z − t√(χ²/ν) (from memory). */
function approximateQuantile(p: number, dof: number, delta: number): number {
  const z = normalQuantile(p);
  const mean = 1 - 1 / (4 * dof);
  const variance = 1 - mean * mean;
  const below = mean * mean - z * z * variance;
  if (!(below > 0.05)) return delta + z * (1 + Math.abs(delta) / Math.sqrt(2 * dof));
  const root = Math.sqrt(delta * delta * variance + below);
  return (delta * mean + z * root) / below;
}

/** Mean of f(w) over w = √(χ²/ν); f may change within about 1/t of w = δ/t. */
function overChi(t: number, dof: number, delta: number, f: (w: number) => number): number {
  const [low, high] = scaledChiRange(dof);
  const breaks = [low, high];
  const pieces = 12;
  for (let i = 1; i < pieces; i++) breaks.push(low + ((high - low) * i) / pieces);
  // With few degrees of freedom the density is a power of w near zero, no polynomial: pieces that halve towards it.
  if (dof < 16) for (let i = 1; i <= 8; i++) breaks.push(low + (high - low) / (pieces * 2 ** i));
  const step = delta / t;
  for (const distance of [-32, -16, -8, -4, -2, -1, 0, 1, 2, 4, 8, 16, 32]) {
    const at = step + distance / Math.abs(t);
    if (at > low && at < high) breaks.push(at);
  }
  breaks.sort((a, b) => a - b);
  return integrate((w) => scaledChiDensity(w, dof) * f(w), breaks);
}
