/** Up to here the series of erf, beyond it the continued fraction of erfc: both need fewer than a hundred terms. */
const SERIES_END = 1.5;

/**
 * Error function erf(x) = 2/√π ∫₀ˣ exp(−t²) dt, to about 1e-15 relative.
 * @source NIST Digital Library of Mathematical Functions, 7.2.1, 7.6.2 (series), 7.9.1 (continued fraction); from memory.
 */
export function erf(x: number): number {
  if (x < 0) return -erf(-x);
  return x < SERIES_END ? series(x) * exponentialOfSquare(x, -1) : 1 - erfc(x);
}

/** Complement 1 − erf(x), to about 1e-14 relative also where it is tiny. */
export function erfc(x: number): number {
  return x < SERIES_END ? 1 - erf(x) : exponentialOfSquare(x, -1) * scaledComplement(x);
}

/** erf(x)·exp(x²) = 2/√π Σ 2ⁿ x²ⁿ⁺¹/(1·3·…·(2n+1)): all terms have one sign. */
function series(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; term > sum * 1e-17; n++) {
    term *= (2 * x * x) / (2 * n + 1);
    sum += term;
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}

/** erfc(x)·exp(x²) for x ≥ 1.5: 1/√π · 1/(x + ½/(x + 1/(x + 3⁄2/(x + …)))), from its end backwards. */
function scaledComplement(x: number): number {
  if (x === Infinity) return 0;
  // Truncation falls as exp(−2x√(2n)); the constant is chosen so that 1e-17 is reached at the shortest x.
  const terms = Math.ceil(200 / (x * x)) + 10;
  let tail = x;
  for (let n = terms; n >= 1; n--) tail = x + n / 2 / tail;
  return 1 / (Math.sqrt(Math.PI) * tail);
}

/** exp(factor·x²) without the rounding of x² where it would show: x is split so that the larger square is exact. */
export function exponentialOfSquare(x: number, factor: number): number {
  if (Math.abs(x) > 1e3) return 0;
  if (Math.abs(x) < 1) return Math.exp(factor * x * x);
  const coarse = Math.round(x * 16) / 16;
  return Math.exp(factor * coarse * coarse) * Math.exp(factor * (x - coarse) * (x + coarse));
}
