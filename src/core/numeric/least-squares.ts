import { householder, type Factored } from './householder.ts';
import { LongSum } from './long-sum.ts';
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

/** Above this ratio of the largest to the smallest diagonal of R, a step by RᵀR could lead away. */
const WELL_CONDITIONED = 1e6;

/**
 * Least squares by Householder's QR factorisation, then refined with residuals to twice double precision; undefined where
 * there are fewer rows than columns or a column is a combination of the others.
 * @param columns columns of the design, each as long as the response. Where the first is constant the others are measured
 * from their means inside, and all are scaled: collinear sets with large offsets keep their digits.
 * @source Golub and Van Loan, Matrix Computations, 5.2 and 5.3; corrected seminormal equations: Björck, Linear Algebra Appl.
 * 88/89 (1987) 31; from memory.
 */
export function leastSquares(columns: readonly ArrayLike<number>[], response: ArrayLike<number>): LinearFit | undefined {
  const n = response.length;
  const p = columns.length;
  if (n < p || p === 0) return undefined;
  const { prepared, back } = prepare(columns, n);
  const factor = householder(prepared, n);
  if (factor === undefined) return undefined;
  const first = factor.solve(tabulate(n, (i) => response[i] ?? 0));
  // The same factor on what is left takes away most of the rounding of the first pass.
  const correction = factor.solve(residualsOf(prepared, first, response));
  const refined = first.map((value, j) => value + (correction[j] ?? 0));
  const coefficients = back.map((row) => dot(row, refined));
  const { solution, residuals } = factor.condition < WELL_CONDITIONED
    ? sharpened(columns, response, coefficients, back, factor)
    : { solution: coefficients, residuals: residualsOf(prepared, refined, response) };
  return {
    coefficients: solution,
    unscaledCovariance: congruent(back, factor.inverse()),
    residuals,
    leverages: factor.leverages(),
    residualSumOfSquares: dot(residuals, residuals),
    degreesOfFreedom: n - p,
  };
}

/**
 * Large residuals are themselves rounded too much for a correction; their sums over the columns, which should vanish, are not,
 * once they are summed to twice double precision.
 */
function sharpened(columns: readonly ArrayLike<number>[], response: ArrayLike<number>, coefficients: readonly number[], back: Matrix, factor: Factored) {
  const rest = longResidualsOf(columns, coefficients, response);
  const correction = factor.solveNormal(across(back, columns, rest));
  const change = back.map((row) => dot(row, correction));
  return {
    solution: coefficients.map((value, j) => value + (change[j] ?? 0)),
    residuals: residualsOf(columns, change, rest.high),
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

function residualsOf(columns: readonly ArrayLike<number>[], coefficients: readonly number[], response: ArrayLike<number>): Float64Array {
  return tabulate(response.length, (i) => {
    let rest = response[i] ?? 0;
    for (let j = 0; j < columns.length; j++) rest -= (columns[j]?.[i] ?? 0) * (coefficients[j] ?? 0);
    return rest;
  });
}

interface LongResiduals {
  readonly high: Float64Array;
  /** What rounding took from them. */
  readonly low: Float64Array;
}

function longResidualsOf(columns: readonly ArrayLike<number>[], coefficients: readonly number[], response: ArrayLike<number>): LongResiduals {
  const rest = { high: new Float64Array(response.length), low: new Float64Array(response.length) };
  const sum = new LongSum();
  for (let i = 0; i < response.length; i++) {
    sum.clear().add(response[i] ?? 0);
    for (let j = 0; j < columns.length; j++) sum.addProduct(-(columns[j]?.[i] ?? 0), coefficients[j] ?? 0);
    rest.high[i] = sum.value;
    rest.low[i] = sum.rest;
  }
  return rest;
}

/** preparedᵀ·residuals, from the columns as given, whose entries have not been rounded. */
function across(back: Matrix, columns: readonly ArrayLike<number>[], { high, low }: LongResiduals): number[] {
  const sum = new LongSum();
  const given = columns.map((column) => {
    sum.clear();
    for (let i = 0; i < high.length; i++) {
      sum.addProduct(column[i] ?? 0, high[i] ?? 0);
      sum.add((column[i] ?? 0) * (low[i] ?? 0));
    }
    return sum.value;
  });
  return back.map((_, j) => back.reduce((total, row, i) => total + (row[j] ?? 0) * (given[i] ?? 0), 0));
}
