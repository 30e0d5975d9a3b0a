import { betaKernel, gammaKernel } from './gamma.ts';

/** A probability and its complement, each with its own relative accuracy. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

/** Keeps Lentz's recurrence off zero. */
const TINY = 1e-300;
const ENOUGH = 3e-16;
/** The fractions need about the root of the parameters; parameters beyond 1e10 are not meant to come here. */
const MOST_TERMS = 2_000_000;

/**
 * Regularised incomplete beta function I_x(a, b) for a, b > 0 and 0 ≤ x ≤ 1.
 * @source even part of the continued fraction DLMF 8.17.22 (as in DiDonato and Morris, ACM Trans. Math. Softw. 18 (1992)
 * 360), evaluated by Lentz's method (Thompson and Barnett 1986); from memory.
 */
export function incompleteBeta(x: number, a: number, b: number): number {
  return betaTails(x, 1 - x, a, b).lower;
}

/** I_x(a, b) and its complement; y = 1 − x is handed over, since it may be known better than 1 − x. */
export function betaTails(x: number, y: number, a: number, b: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (y <= 0) return { lower: 1, upper: 0 };
  const kernel = betaKernel(a, b, x, y);
  if (x * (a + b + 2) < a + 1) {
    const lower = kernel / betaFraction(x, y, a, b);
    return { lower, upper: 1 - lower };
  }
  const upper = kernel / betaFraction(y, x, b, a);
  return { lower: 1 - upper, upper };
}

/** Every second step of the fraction at once: no differences of nearly equal terms where a or b is large. */
function betaFraction(x: number, y: number, a: number, b: number): number {
  const excess = a * y - b * x + 1;
  return lentz((a * excess) / (a + 1), (m) => {
    const odd = a + 2 * m - 1;
    const common = (m * (b - m) * x) / odd;
    return [
      (((a + m - 1) * (a + b + m - 1) * x) / odd) * common,
      m + common + ((a + m) * (excess + m * (1 + y))) / (a + 2 * m + 1),
    ];
  });
}

/**
 * Regularised lower incomplete gamma function P(a, x) for a > 0 and x ≥ 0.
 * @source series DLMF 8.7.1 and continued fraction DLMF 8.9.2 in its contracted form, by Lentz's method; from memory.
 */
export function incompleteGamma(a: number, x: number): number {
  return gammaTails(a, x).lower;
}

/** P(a, x) and its complement Q(a, x). */
export function gammaTails(a: number, x: number): Tails {
  if (x <= 0) return { lower: 0, upper: 1 };
  if (x === Infinity) return { lower: 1, upper: 0 };
  const kernel = gammaKernel(a, x);
  if (x < a + 1) {
    const lower = kernel * gammaSeries(a, x);
    return { lower, upper: 1 - lower };
  }
  const fraction = lentz(x + 1 - a, (step) => [-step * (step - a), x + 2 * step + 1 - a]);
  const upper = kernel / fraction;
  return { lower: 1 - upper, upper };
}

function gammaSeries(a: number, x: number): number {
  let term = 1 / a;
  let sum = term;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= x / (a + n);
    sum += term;
  }
  return sum;
}

/** b₀ + a₁/(b₁ + a₂/(b₂ + …)) from its head, with [aₙ, bₙ] given for n = 1, 2, … */
function lentz(head: number, part: (step: number) => readonly [numerator: number, denominator: number]): number {
  let value = head === 0 ? TINY : head;
  let c = value;
  let d = 0;
  for (let step = 1; step <= MOST_TERMS; step++) {
    const [numerator, denominator] = part(step);
    d = 1 / offZero(denominator + numerator * d);
    c = offZero(denominator + numerator / c);
    value *= c * d;
    if (Math.abs(c * d - 1) < ENOUGH) return value;
  }
  throw new RangeError('a continued fraction did not converge: its parameters are beyond the documented range');
}

function offZero(x: number): number {
  return x === 0 ? TINY : x;
}
