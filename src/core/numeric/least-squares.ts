import { powersOfShifted, spanOf } from './shifted-polynomial.ts';
import { congruent, dot, type Matrix } from './symmetric.ts';

/** A linear fit: response ≈ design · coefficients. */
export interface LinearFit {
  readonly coefficients: readonly number[];
  /** (XᵀX)⁻¹: times s² it is the covariance of the coefficients. */
  readonly unscaledCovariance: Matrix;
  readonly residuals: Float64Array;
  /** Diagonal of the hat matrix: how much each response pulls its own fitted value, 0..1. */
  readonly leverages: Float64Array;
  readonly residualSumOfSquares: number;
  /** Rows less columns. */
  readonly degreesOfFreedom: number;
}

/** Columns whose part across the earlier ones is smaller than this share are taken as their combination. */
const RANK = 1e-12;

/**
 * Least squares by Householder's QR factorisation with one step of refinement; undefined where there are fewer rows than
 * columns or a column is a combination of the others.
 * @param columns columns of the design, each as long as the response. Where the first is constant the others are measured
 * from their means inside, and all are scaled: collinear sets with large offsets keep their digits.
 * @source Golub and Van Loan, Matrix Computations, 5.2 and 5.3 (from memory).
 */
export function leastSquares(columns: readonly ArrayLike<number>[], response: ArrayLike<number>): LinearFit | undefined {
  const n = response.length;
  const p = columns.length;
  if (n < p || p === 0) return undefined;
  const { prepared, back } = prepare(columns, n);
  const factor = householder(prepared, n);
  if (factor === undefined) return undefined;
  const solution = factor.solve(tabulate(response.length, (i) => response[i] ?? 0));
  const residuals = residualsOf(prepared, solution, response);
  // The same factor on what is left takes away most of the rounding of the first pass.
  const correction = factor.solve(residuals);
  const refined = solution.map((value, j) => value + (correction[j] ?? 0));
  const rest = residualsOf(prepared, refined, response);
  const unscaled = factor.inverse();
  return {
    coefficients: back.map((row) => dot(row, refined)),
    unscaledCovariance: congruent(back, unscaled),
    residuals: rest,
    leverages: factor.leverages(),
    residualSumOfSquares: dot(rest, rest),
    degreesOfFreedom: n - p,
  };
}

/**
 * Least squares of a polynomial in x, coefficients from the constant upwards, reckoned in the centred and scaled variable.
 */
export function polynomialLeastSquares(
  x: ArrayLike<number>,
  response: ArrayLike<number>,
  degree: number,
): LinearFit | undefined {
  const { centre, scale } = spanOf(x);
  if (!(scale > 0)) return undefined;
  const columns = Array.from({ length: degree + 1 }, (_, power) => tabulate(x.length, (i) => (((x[i] ?? 0) - centre) / scale) ** power));
  const fit = leastSquares(columns, response);
  if (fit === undefined) return undefined;
  const back = powersOfShifted(degree, centre, scale);
  return {
    ...fit,
    coefficients: back.map((row) => dot(row, fit.coefficients)),
    unscaledCovariance: congruent(back, fit.unscaledCovariance),
  };
}

/** Column of f(0), f(1), …; a plain loop, since columns may have 10⁵ rows. */
function tabulate(length: number, f: (i: number) => number): Float64Array {
  const column = new Float64Array(length);
  for (let i = 0; i < length; i++) column[i] = f(i);
  return column;
}

/** Scaled (and, beside a constant, centred) columns, and the rows that lead back to the given ones' coefficients. */
function prepare(columns: readonly ArrayLike<number>[], n: number): { prepared: Float64Array[]; back: Matrix } {
  const first = columns[0];
  const constant = first?.[0] ?? 0;
  let hasConstant = constant !== 0;
  for (let i = 1; i < n && hasConstant; i++) hasConstant = first?.[i] === constant;
  const scales: number[] = [];
  const centres: number[] = [];
  const prepared = columns.map((column, j) => {
    const centre = hasConstant && j > 0 ? mean(column, n) : 0;
    const shifted = tabulate(n, (i) => (column[i] ?? 0) - centre);
    const size = Math.sqrt(dot(shifted, shifted) / n);
    const scale = size > 0 ? size : 1;
    centres.push(centre);
    scales.push(scale);
    for (let i = 0; i < n; i++) shifted[i] = (shifted[i] ?? 0) / scale;
    return shifted;
  });
  const back = columns.map((_, i) => columns.map((_, j) => {
    if (i === j) return 1 / (scales[j] ?? 1);
    return i === 0 ? -(centres[j] ?? 0) / ((scales[j] ?? 1) * constant || 1) : 0;
  }));
  return { prepared, back };
}

function mean(column: ArrayLike<number>, n: number): number {
  let sum = 0;
  for (let i = 0; i < n; i++) sum += column[i] ?? 0;
  return sum / n;
}

function residualsOf(columns: readonly Float64Array[], coefficients: readonly number[], response: ArrayLike<number>): Float64Array {
  return tabulate(response.length, (i) => {
    let rest = response[i] ?? 0;
    for (const [j, column] of columns.entries()) rest -= (column[i] ?? 0) * (coefficients[j] ?? 0);
    return rest;
  });
}

interface Factored {
  solve(right: Float64Array): number[];
  inverse(): Matrix;
  leverages(): Float64Array;
}

/** Q·R = columns; undefined where a diagonal of R vanishes beside its column. */
function householder(columns: readonly Float64Array[], n: number): Factored | undefined {
  const p = columns.length;
  const reflectors: Float64Array[] = [];
  const upper: Float64Array[] = [];
  for (const [k, given] of columns.entries()) {
    const column = given.slice();
    for (const [i, reflector] of reflectors.entries()) reflect(reflector, column, i);
    const reflector = new Float64Array(n);
    let square = 0;
    for (let i = k; i < n; i++) square += (column[i] ?? 0) ** 2;
    const length = Math.sqrt(square);
    if (!(length > RANK * Math.sqrt(n))) return undefined;
    const diagonal = (column[k] ?? 0) > 0 ? -length : length;
    for (let i = k; i < n; i++) reflector[i] = column[i] ?? 0;
    reflector[k] = (column[k] ?? 0) - diagonal;
    const size = Math.sqrt(dot(reflector, reflector));
    for (let i = k; i < n; i++) reflector[i] = (reflector[i] ?? 0) / size;
    column[k] = diagonal;
    reflectors.push(reflector);
    upper.push(column.slice(0, k + 1));
  }
  const entry = (i: number, j: number): number => upper[j]?.[i] ?? 0;
  const solveUpper = (right: ArrayLike<number>): number[] => {
    const solution = Array.from({ length: p }, () => 0);
    for (let i = p - 1; i >= 0; i--) {
      let rest = right[i] ?? 0;
      for (let j = i + 1; j < p; j++) rest -= entry(i, j) * (solution[j] ?? 0);
      solution[i] = rest / entry(i, i);
    }
    return solution;
  };
  return {
    solve(right) {
      const turned = right.slice();
      for (const [i, reflector] of reflectors.entries()) reflect(reflector, turned, i);
      return solveUpper(turned);
    },
    inverse() {
      const inverse = columns.map((_, j) => solveUpper(columns.map((_, i) => (i === j ? 1 : 0))));
      return columns.map((_, i) => columns.map((_, j) => inverse.reduce((sum, column) => sum + (column[i] ?? 0) * (column[j] ?? 0), 0)));
    },
    leverages() {
      const sums = new Float64Array(n);
      for (let j = 0; j < p; j++) {
        const unit = new Float64Array(n);
        unit[j] = 1;
        for (let i = p - 1; i >= 0; i--) reflect(reflectors[i] ?? unit, unit, i);
        for (let i = 0; i < n; i++) sums[i] = (sums[i] ?? 0) + (unit[i] ?? 0) ** 2;
      }
      return sums;
    },
  };
}

/** Takes the vector to its mirror image at the plane across the unit reflector, which is zero before `from`. */
function reflect(reflector: Float64Array, vector: Float64Array, from: number): void {
  let along = 0;
  for (let i = from; i < vector.length; i++) along += (reflector[i] ?? 0) * (vector[i] ?? 0);
  for (let i = from; i < vector.length; i++) vector[i] = (vector[i] ?? 0) - 2 * along * (reflector[i] ?? 0);
}
