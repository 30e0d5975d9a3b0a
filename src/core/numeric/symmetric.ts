/** A matrix as rows; symmetric where it says so. */
export type Matrix = readonly (readonly number[])[];

/**
 * Lower factor L with L·Lᵀ equal to the symmetric matrix; undefined where it is not positive definite.
 * @source Cholesky's factorisation; Golub and Van Loan, Matrix Computations, 4.2 (from memory).
 */
export function cholesky(matrix: Matrix): Matrix | undefined {
  const factor: number[][] = [];
  for (const [i, given] of matrix.entries()) {
    const row: number[] = [];
    for (let j = 0; j <= i; j++) {
      const other = factor[j] ?? row;
      let rest = given[j] ?? Number.NaN;
      for (let k = 0; k < j; k++) rest -= (row[k] ?? 0) * (other[k] ?? 0);
      if (j < i) row.push(rest / (other[j] ?? Number.NaN));
      else if (rest > Math.abs(given[i] ?? 0) * 1e-15) row.push(Math.sqrt(rest));
      else return undefined;
    }
    factor.push(row);
  }
  return factor;
}

/** Solution of M·x = right for a symmetric positive definite M given by its Cholesky factor. */
export function solveFactored(factor: Matrix, right: readonly number[]): number[] {
  const forward: number[] = [];
  for (const [i, row] of factor.entries()) {
    let rest = right[i] ?? 0;
    for (let k = 0; k < i; k++) rest -= (row[k] ?? 0) * (forward[k] ?? 0);
    forward.push(rest / (row[i] ?? Number.NaN));
  }
  const solution = forward.slice();
  for (let i = factor.length - 1; i >= 0; i--) {
    let rest = forward[i] ?? 0;
    for (let k = i + 1; k < factor.length; k++) rest -= (factor[k]?.[i] ?? 0) * (solution[k] ?? 0);
    solution[i] = rest / (factor[i]?.[i] ?? Number.NaN);
  }
  return solution;
}

/**
 * Inverse of a symmetric positive definite matrix; undefined where it is not. Rows and columns are first scaled to ones on
 * the diagonal, so that parameters of very different size do no harm.
 */
export function invertSymmetric(matrix: Matrix): Matrix | undefined {
  const scale = matrix.map((row, i) => 1 / Math.sqrt(row[i] ?? 0));
  if (!scale.every((value) => Number.isFinite(value) && value > 0)) return undefined;
  const scaled = matrix.map((row, i) => row.map((value, j) => value * (scale[i] ?? 0) * (scale[j] ?? 0)));
  const factor = cholesky(scaled);
  if (factor === undefined) return undefined;
  const columns = scale.map((_, j) => solveFactored(factor, scale.map((_, i) => (i === j ? 1 : 0))));
  return scale.map((own, i) => scale.map((other, j) => {
    // The mean of both halves keeps the inverse exactly symmetric.
    const mean = ((columns[j]?.[i] ?? 0) + (columns[i]?.[j] ?? 0)) / 2;
    return own * other * mean;
  }));
}

/** Sum of aᵢ·bᵢ. */
export function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}

/** aᵀ·M·b. */
export function bilinear(a: readonly number[], matrix: Matrix, b: readonly number[]): number {
  let sum = 0;
  for (const [i, row] of matrix.entries()) sum += (a[i] ?? 0) * dot(row, b);
  return sum;
}

/** T·M·Tᵀ: the covariance of linear combinations. */
export function congruent(transform: Matrix, matrix: Matrix): Matrix {
  return transform.map((a) => transform.map((b) => bilinear(a, matrix, b)));
}
