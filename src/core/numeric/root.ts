/**
 * A zero of f between two arguments at which f has opposite signs (or is zero); undefined where it has not.
 * @param tolerance absolute, of the argument; never asks for more than doubles can give
 * @source Brent, Algorithms for Minimization without Derivatives (1973), chapter 4 (from memory).
 */
export function findRoot(f: (x: number) => number, low: number, high: number, tolerance = 0): number | undefined {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (Number.isNaN(fa) || Number.isNaN(fb) || fa * fb > 0) return undefined;
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let count = 0; count < 300; count++) {
    if (fb > 0 === fc > 0) [c, fc, step, before] = [a, fa, b - a, b - a];
    if (Math.abs(fc) < Math.abs(fb)) [a, b, c, fa, fb, fc] = [b, c, b, fb, fc, fb];
    const enough = 2 * Number.EPSILON * Math.abs(b) + tolerance / 2;
    const middle = (c - b) / 2;
    if (Math.abs(middle) <= enough || fb === 0) return b;
    if (Math.abs(before) < enough || Math.abs(fa) <= Math.abs(fb)) [step, before] = [middle, middle];
    else {
      const guess = interpolate(a, b, c, fa, fb, fc);
      if (2 * guess.p < Math.min(3 * middle * guess.q - Math.abs(enough * guess.q), Math.abs(before * guess.q))) {
        [before, step] = [step, guess.p / guess.q];
      } else [step, before] = [middle, middle];
    }
    [a, fa] = [b, fb];
    b += Math.abs(step) > enough ? step : enough * Math.sign(middle);
    fb = f(b);
  }
  return b;
}

/** Step p/q of inverse quadratic (or linear) interpolation, with p ≥ 0. Three places and their values, named as in the formula: hence six parameters. */
function interpolate(a: number, b: number, c: number, fa: number, fb: number, fc: number): { p: number; q: number } {
  const s = fb / fa;
  let p: number;
  let q: number;
  if (a === c) {
    p = (c - b) * s;
    q = 1 - s;
  } else {
    const t = fa / fc;
    const r = fb / fc;
    p = s * ((c - b) * t * (t - r) - (b - a) * (r - 1));
    q = (t - 1) * (r - 1) * (s - 1);
  }
  return p > 0 ? { p, q: -q } : { p: -p, q };
}

const GOLDEN = (3 - Math.sqrt(5)) / 2;

/**
 * Argument and value of the greatest f between low and high, for a function with one peak there: golden sections.
 * @param tolerance absolute, of the argument
 */
export function findPeak(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance: number,
): { readonly at: number; readonly value: number } {
  let [a, b] = [low, high];
  let left = a + GOLDEN * (b - a);
  let right = b - GOLDEN * (b - a);
  let [fLeft, fRight] = [f(left), f(right)];
  for (let count = 0; count < 200 && b - a > tolerance; count++) {
    if (fLeft >= fRight) {
      [b, right, fRight] = [right, left, fLeft];
      left = a + GOLDEN * (b - a);
      fLeft = f(left);
    } else {
      [a, left, fLeft] = [left, right, fRight];
      right = b - GOLDEN * (b - a);
      fRight = f(right);
    }
  }
  return fLeft >= fRight ? { at: left, value: fLeft } : { at: right, value: fRight };
}
