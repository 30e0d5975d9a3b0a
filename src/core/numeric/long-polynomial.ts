import type { LinearFit } from './least-squares.ts';
import { powersOfShifted, spanOf } from './shifted-polynomial.ts';
import { congruent, dot } from './symmetric.ts';

/** A polynomial whose size on the points is below this share of 1 is taken as a combination of the lower ones. */
const RANK = 1e-12;
/** Values added up by themselves before they join the others: rounding grows with this and with the number of such parts, not with that of all values. */
const PART = 1024;
/** A pass over all points stands where its polynomials were as near to orthogonal, and its coefficients as near to the best, as this share of the squares. */
const NEAR = 0.05;
const MOST_PASSES = 4;

/** Many points, told in parts: they need not lie in columns, and what they are worked out from is then read once. */
export interface Points {
  readonly length: number;
  /** Least and greatest x. */
  readonly range: readonly [low: number, high: number];
  /** Puts x and y of the points from `from` to before `to` into these, from their beginning on. */
  readonly read: (from: number, to: number, x: Float64Array, y: Float64Array) => void;
}

/** A fit with what is told of y besides. */
export interface TotalledFit extends LinearFit {
  readonly mean: number;
  /** Sum of squares of y about its mean. */
  readonly totalSumOfSquares: number;
}

/** Points that lie in columns. */
export function pointsOf(x: Float64Array, y: Float64Array): Points {
  const { centre, scale } = spanOf(x);
  let [low, high] = [centre, centre];
  for (let i = 0; i < x.length && scale >= 0; i++) [low, high] = [Math.min(low, x[i] as number), Math.max(high, x[i] as number)];
  return {
    length: x.length,
    range: [low, high],
    read(from, to, intoX, intoY) {
      intoX.set(x.subarray(from, to));
      intoY.set(y.subarray(from, to));
    },
  };
}

/**
 * Least squares of a straight line or a parabola over many points, coefficients from the constant upwards; undefined where there are fewer points than
 * coefficients or they lie too close. By polynomials p₀ = 1, p₁ = z − a, p₂ = (z − b)·p₁ − c, z about −1 to 1, that are all but orthogonal on the points,
 * and coefficients that are all but the best: both found from points here and there. One pass over all points sums what is left of y over the polynomials,
 * its squares and the polynomials' products; as these sums are small beside the squares, what they mend loses no digits. Where some points told too little of the others, as in a table with
 * a rhythm, there is a further pass. As exact as a factorisation, in mostly one pass and without columns.
 * @source Forsythe, Generation and use of orthogonal polynomials for data-fitting with a digital computer, J. SIAM 5 (1957) 74; from memory.
 */
export function longPolynomial(points: Points, degree: 1 | 2): TotalledFit | undefined {
  const n = points.length;
  const { centre, scale } = spanOf(points.range);
  if (n <= degree || !(scale > 0)) return undefined;
  const span = { centre, perScale: 1 / scale };
  let line: Mended = { taken: 0, skew: 0, a: 0, b: 0, c: 0.25, sizes: [], found: [0, 0, 0] };
  const some = mended(line, sumsOver(here(points), span, line, degree), degree);
  if (isSound(some, Math.min(n, PART))) line = some;
  let squares = Number.NaN;
  for (let pass = 0; pass < MOST_PASSES; pass++) {
    const sums = sumsOver(points, span, line, degree);
    line = mended(line, sums, degree);
    if (!isSound(line, n)) return undefined;
    squares = Math.max(0, sums.squares - line.taken);
    if (line.taken <= NEAR * squares && line.skew <= NEAR) break;
  }
  const { a, b, c, sizes, found } = line;
  const powers = [[1, 0, 0], [-a, 1, 0], [a * b - c, -a - b, 1]].slice(0, degree + 1);
  const back = powersOfShifted(degree, centre, scale).map((row) => powers.map((power) => dot(row, power)));
  const unscaled = sizes.map((size, k) => sizes.map((_, j) => (j === k ? 1 / size : 0)));
  let known: ReturnType<typeof rowsOf> | undefined;
  const rows = (): ReturnType<typeof rowsOf> => (known ??= rowsOf(points, span, line));
  return {
    coefficients: back.map((row) => dot(row, found.slice(0, degree + 1))),
    unscaledCovariance: congruent(back, unscaled),
    get residuals() {
      return rows().residuals;
    },
    get leverages() {
      return rows().leverages;
    },
    residualSumOfSquares: squares,
    degreesOfFreedom: n - degree - 1,
    mean: found[0],
    totalSumOfSquares: sizes.reduce((sum, size, k) => sum + (k === 0 ? 0 : size * (found[k] ?? 0) ** 2), squares),
  };
}

/** Polynomials and what each counts in the line; b and c where there is a parabola. */
interface Line {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  /** Sums of the polynomials' squares over the points; none before there was a pass. */
  readonly sizes: readonly number[];
  readonly found: readonly [number, number, number];
}

interface Mended extends Line {
  /** What the change of the coefficients took off the squares of what was left. */
  readonly taken: number;
  /** The largest share of a polynomial's squares that was a combination of lower ones. */
  readonly skew: number;
}

interface Span {
  readonly centre: number;
  readonly perScale: number;
}

/** Sums over the points: of what is left of y, by itself and over p₁ and p₂; of its squares; and of the polynomials and their products. */
interface Sums {
  readonly n: number;
  readonly left: readonly [number, number, number];
  readonly squares: number;
  readonly products: { readonly p1: number; readonly p1p1: number; readonly p2: number; readonly p1p2: number; readonly p2p2: number };
}

function isSound({ sizes }: Line, n: number): boolean {
  return sizes.every((size) => size > RANK ** 2 * n);
}

/** So many of the points, from all over them. */
function here({ length, range, read }: Points): Points {
  const n = Math.min(length, PART);
  const [x1, y1] = [new Float64Array(1), new Float64Array(1)];
  return {
    length: n,
    range,
    read(from, to, x, y) {
      for (let i = from; i < to; i++) {
        const at = Math.floor((i * length) / n);
        read(at, at + 1, x1, y1);
        x[i - from] = x1[0] as number;
        y[i - from] = y1[0] as number;
      }
    },
  };
}

function sumsOver({ length, read }: Points, span: Span, line: Line, degree: 1 | 2): Sums {
  const [x, y] = [new Float64Array(PART), new Float64Array(PART)];
  const [all, part] = [new Float64Array(9), new Float64Array(9)];
  for (let from = 0; from < length; from += PART) {
    const to = Math.min(length, from + PART);
    read(from, to, x, y);
    if (degree === 1) sumStraight(part, x, y, to - from, span, line);
    else sumParabola(part, x, y, to - from, span, line);
    for (let k = 0; k < all.length; k++) all[k] = (all[k] as number) + (part[k] as number);
  }
  const [s0 = 0, s1 = 0, s2 = 0, squares = 0, p1 = 0, p1p1 = 0, p2 = 0, p1p2 = 0, p2p2 = 0] = all;
  return { n: length, left: [s0, s1, s2], squares, products: { p1, p1p1, p2, p1p2, p2p2 } };
}

/** The innermost loop of a long line, with all that it needs at hand: hence six parameters. */
function sumStraight(into: Float64Array, x: Float64Array, y: Float64Array, count: number, { centre, perScale }: Span, { a, found: [f0, f1] }: Line): void {
  let [s0, s1, squares, sum1, sum11] = [0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const p1 = ((x[i] as number) - centre) * perScale - a;
    const left = (y[i] as number) - f0 - f1 * p1;
    s0 += left;
    s1 += left * p1;
    squares += left * left;
    sum1 += p1;
    sum11 += p1 * p1;
  }
  into[0] = s0;
  into[1] = s1;
  into[3] = squares;
  into[4] = sum1;
  into[5] = sum11;
}

/** The same of a parabola. */
function sumParabola(into: Float64Array, x: Float64Array, y: Float64Array, count: number, { centre, perScale }: Span, { a, b, c, found: [f0, f1, f2] }: Line): void {
  let [s0, s1, s2, squares, sum1, sum11, sum2, sum12, sum22] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < count; i++) {
    const z = ((x[i] as number) - centre) * perScale;
    const p1 = z - a;
    const p2 = (z - b) * p1 - c;
    const left = (y[i] as number) - f0 - f1 * p1 - f2 * p2;
    s0 += left;
    s1 += left * p1;
    s2 += left * p2;
    squares += left * left;
    sum1 += p1;
    sum11 += p1 * p1;
    sum2 += p2;
    sum12 += p1 * p2;
    sum22 += p2 * p2;
  }
  into.set([s0, s1, s2, squares, sum1, sum11, sum2, sum12, sum22]);
}

/** The polynomials made orthogonal on the points of the sums, and the same line in them with what was left taken up. */
function mended({ a, b, c, found: [f0, f1, f2] }: Line, { n, left: [s0, s1, s2], products: { p1, p1p1, p2, p1p2, p2p2 } }: Sums, degree: 1 | 2): Mended {
  const mean1 = p1 / n;
  const size1 = p1p1 - mean1 * p1;
  const newA = a + mean1;
  const left1 = s1 - mean1 * s0;
  const [d0, d1] = [s0 / n, left1 / size1];
  const taken = d0 * s0 + d1 * left1;
  const skew = (mean1 * p1) / p1p1;
  if (degree === 1) return { a: newA, b, c, sizes: [n, size1], found: [f0 + f1 * mean1 + d0, f1 + d1, 0], taken, skew };
  const mean2 = p2 / n;
  const along = (p1p2 - mean1 * p2) / size1;
  const size2 = p2p2 - mean2 * p2 - along * along * size1;
  const left2 = s2 - mean2 * s0 - along * left1;
  const d2 = left2 / size2;
  // p₂ less `along` times the new p₁ and its mean, in the form (z − b)·p₁ − c.
  const newB = a + b + along - newA;
  const newC = newA * newB - a * b + c - along * newA + mean2;
  return {
    a: newA, b: newB, c: newC,
    sizes: [n, size1, size2],
    found: [f0 + f1 * mean1 + f2 * mean2 + d0, f1 + f2 * along + d1, f2 + d2],
    taken: taken + d2 * left2,
    skew: Math.max(skew, 1 - size2 / p2p2),
  };
}

/** Residuals and leverages. */
function rowsOf({ length, read }: Points, { centre, perScale }: Span, { a, b, c, sizes, found: [f0, f1, f2] }: Line): Pick<LinearFit, 'residuals' | 'leverages'> {
  const [w0 = 0, w1 = 0, w2 = 0] = sizes.map((size) => 1 / size);
  const [residuals, leverages] = [new Float64Array(length), new Float64Array(length)];
  const [x, y] = [new Float64Array(PART), new Float64Array(PART)];
  for (let from = 0; from < length; from += PART) {
    const to = Math.min(length, from + PART);
    read(from, to, x, y);
    for (let i = from; i < to; i++) {
      const z = ((x[i - from] as number) - centre) * perScale;
      const p1 = z - a;
      const p2 = (z - b) * p1 - c;
      residuals[i] = (y[i - from] as number) - f0 - f1 * p1 - f2 * p2;
      leverages[i] = w0 + w1 * p1 * p1 + w2 * p2 * p2;
    }
  }
  return { residuals, leverages };
}
