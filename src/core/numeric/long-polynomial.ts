import type { LinearFit } from './least-squares.ts';
import { powersOfShifted, spanOf } from './shifted-polynomial.ts';
import { congruent, dot } from './symmetric.ts';

/** A polynomial whose size on the points is below this share of 1 is taken as a combination of the lower ones. */
const RANK = 1e-12;
/** Values added up by themselves before they join the others: rounding grows with this and with the number of such parts, not with that of all values. */
const PART = 1024;

/**
 * Least squares of a straight line or a parabola over many points, coefficients from the constant upwards; undefined where there are fewer points than
 * coefficients or they lie too close. By polynomials p₀ = 1, p₁ = z − a, p₂ = (z − b)·p₁ − c that are orthogonal on the points, so that each
 * coefficient is a quotient of two sums; what rounding leaves shows in sums over the residuals and is taken off. As exact as a factorisation, on a range
 * that `spanOf` makes about −1 to 1, in a few passes and without columns of its own.
 * @source Forsythe, Generation and use of orthogonal polynomials for data-fitting with a digital computer, J. SIAM 5 (1957) 74; from memory.
 */
export function longPolynomial(x: Float64Array, response: Float64Array, degree: 1 | 2): LinearFit | undefined {
  const n = x.length;
  const { centre, scale } = spanOf(x);
  if (n <= degree || !(scale > 0)) return undefined;
  const basis = orthogonal(x, centre, scale, degree);
  const { a, b, c, sizes } = basis;
  if (!sizes.every((size) => size > RANK ** 2 * n)) return undefined;
  const found = [0, 0, 0];
  let residualSumOfSquares = Number.NaN;
  // The second pass finds what rounding left of the first; what it takes off is taken off the squares as well, p being orthogonal.
  for (let pass = 0; pass < 2; pass++) {
    const sums = sumsOfResiduals(x, response, basis, found);
    residualSumOfSquares = sums[3] as number;
    for (let k = 0; k <= degree; k++) {
      const change = (sums[k] as number) / (sizes[k] as number);
      found[k] = (found[k] as number) + change;
      residualSumOfSquares -= change * (sums[k] as number);
    }
  }
  const powers = [[1, 0, 0], [-a, 1, 0], [a * b - c, -a - b, 1]].slice(0, degree + 1);
  const back = powersOfShifted(degree, centre, scale).map((row) => powers.map((power) => dot(row, power)));
  const coefficients = found.slice(0, degree + 1);
  const unscaled = sizes.map((size, k) => sizes.map((_, j) => (j === k ? 1 / size : 0)));
  let known: ReturnType<typeof rowsOf> | undefined;
  const rows = (): ReturnType<typeof rowsOf> => (known ??= rowsOf(x, response, basis, found));
  return {
    coefficients: back.map((row) => dot(row, coefficients)),
    unscaledCovariance: congruent(back, unscaled),
    get residuals() {
      return rows().residuals;
    },
    get leverages() {
      return rows().leverages;
    },
    residualSumOfSquares,
    degreesOfFreedom: n - degree - 1,
  };
}

/** z = (x − centre)·perScale, and the polynomials' coefficients; b and c where there is a parabola. */
interface Basis {
  readonly centre: number;
  readonly perScale: number;
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Sums of the polynomials' squares over the points. */
  readonly sizes: readonly number[];
}

function orthogonal(x: Float64Array, centre: number, scale: number, degree: 1 | 2): Basis {
  const n = x.length;
  const perScale = 1 / scale;
  const a = sumBy(n, (i) => ((x[i] as number) - centre) * perScale) / n;
  const first = (i: number): number => ((x[i] as number) - centre) * perScale - a;
  const size = sumBy(n, (i) => first(i) ** 2);
  if (degree === 1) return { centre, perScale, a, b: 0, c: 0, sizes: [n, size] };
  const b = sumBy(n, (i) => (first(i) + a) * first(i) ** 2) / size;
  const c = size / n;
  return { centre, perScale, a, b, c, sizes: [n, size, sumBy(n, (i) => ((first(i) + a - b) * first(i) - c) ** 2)] };
}

/** A sum in parts. */
function sumBy(n: number, value: (i: number) => number): number {
  let sum = 0;
  for (let from = 0; from < n; from += PART) {
    let part = 0;
    const to = Math.min(n, from + PART);
    for (let i = from; i < to; i++) part += value(i);
    sum += part;
  }
  return sum;
}

/** Sums over the residuals at these coefficients: times each polynomial, and of their squares. */
function sumsOfResiduals(x: Float64Array, response: Float64Array, { centre, perScale, a, b, c }: Basis, found: readonly number[]): Float64Array {
  const [f0 = 0, f1 = 0, f2 = 0] = found;
  const sums = new Float64Array(4);
  for (let from = 0; from < x.length; from += PART) {
    const to = Math.min(x.length, from + PART);
    let [s0, s1, s2, squares] = [0, 0, 0, 0];
    for (let i = from; i < to; i++) {
      const z = ((x[i] as number) - centre) * perScale;
      const p1 = z - a;
      const p2 = (z - b) * p1 - c;
      const rest = (response[i] as number) - f0 - f1 * p1 - f2 * p2;
      s0 += rest;
      s1 += rest * p1;
      s2 += rest * p2;
      squares += rest * rest;
    }
    for (const [k, part] of [s0, s1, s2, squares].entries()) sums[k] = (sums[k] as number) + part;
  }
  return sums;
}

/** Residuals and leverages. */
function rowsOf(x: Float64Array, response: Float64Array, { centre, perScale, a, b, c, sizes }: Basis, found: readonly number[]): Pick<LinearFit, 'residuals' | 'leverages'> {
  const [f0 = 0, f1 = 0, f2 = 0] = found;
  const [w0 = 0, w1 = 0, w2 = 0] = sizes.map((size) => 1 / size);
  const residuals = new Float64Array(x.length);
  const leverages = new Float64Array(x.length);
  for (let i = 0; i < x.length; i++) {
    const z = ((x[i] as number) - centre) * perScale;
    const p1 = z - a;
    const p2 = (z - b) * p1 - c;
    residuals[i] = (response[i] as number) - f0 - f1 * p1 - f2 * p2;
    leverages[i] = w0 + w1 * p1 * p1 + w2 * p2 * p2;
  }
  return { residuals, leverages };
}
