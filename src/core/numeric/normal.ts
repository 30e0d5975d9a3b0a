import { exponentialOfSquare } from './error-function.ts';
import { normalUpperTail } from './scaled-complement.ts';

/** Density of the standard normal distribution at x. */
export function normalDensity(x: number): number {
  return exponentialOfSquare(x, -0.5) / Math.sqrt(2 * Math.PI);
}

/** Probability that a standard normal quantity is at most x; relative accuracy about 1e-14 in the lower tail too. */
export function normalCumulative(x: number): number {
  return x < 0 ? normalUpperTail(-x) : 1 - normalUpperTail(x);
}

/**
 * The x below which a standard normal quantity lies with probability p; ∓∞ at 0 and 1, NaN outside.
 * @source Wichura, Algorithm AS 241 (PPND16), Applied Statistics 37 (1988) 477; coefficients from memory, held by tests
 * against `normalCumulative` over the whole range.
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) return p === 0 ? -Infinity : p === 1 ? Infinity : Number.NaN;
  const q = p - 0.5;
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q;
    return (q * polynomial(CENTRE_ABOVE, r)) / polynomial(CENTRE_BELOW, r);
  }
  const r = Math.sqrt(-Math.log(q < 0 ? p : 1 - p));
  const size = r <= 5
    ? polynomial(MIDDLE_ABOVE, r - 1.6) / polynomial(MIDDLE_BELOW, r - 1.6)
    : polynomial(TAIL_ABOVE, r - 5) / polynomial(TAIL_BELOW, r - 5);
  return q < 0 ? -size : size;
}

function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + (coefficients[i] ?? 0);
  return sum;
}

// Numerators and denominators of AS 241, lowest power first, to double precision.
const CENTRE_ABOVE = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946,
  45921.95393154987, 67265.7709270087, 33430.57558358813, 2509.0809287301227,
];
const CENTRE_BELOW = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751,
  21213.794301586597, 39307.89580009271, 28729.085735721943, 5226.495278852854,
];
const MIDDLE_ABOVE = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045,
  1.2704582524523684, 0.2417807251774506, 0.022723844989269184, 0.0007745450142783414,
];
const MIDDLE_BELOW = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851,
  0.14810397642748008, 0.015198666563616457, 0.0005475938084995345, 1.0507500716444169e-9,
];
const TAIL_ABOVE = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487,
  0.026532189526576124, 0.0012426609473880784, 2.7115555687434876e-5, 2.0103343992922881e-7,
];
const TAIL_BELOW = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615,
  0.0007868691311456133, 1.8463183175100548e-5, 1.421511758316446e-7, 2.0442631033899397e-15,
];
