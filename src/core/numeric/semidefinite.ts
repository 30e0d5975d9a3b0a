/** How far from zero a pivot of a matrix with ones on its diagonal may be by rounding alone. */
const ROUNDING = 1e-9;

/**
 * Factor of a symmetric positive semidefinite matrix with ones (or zeros) on its diagonal: rows of F with F·Fᵀ equal to
 * the matrix, as many columns as its rank. Undefined where the matrix is not positive semidefinite beyond rounding.
 * @param matrix square, symmetric, finite
 * @source Cholesky's factorisation with complete pivoting; Higham, Accuracy and Stability of Numerical Algorithms, 10.3
 * (from memory).
 */
export function factorSemidefinite(matrix: readonly (readonly number[])[]): readonly (readonly number[])[] | undefined {
  const rest = matrix.map((row) => [...row]);
  const factor: number[][] = matrix.map(() => []);
  const open = new Set(rest.keys());
  while (open.size > 0) {
    const pivot = largestDiagonal(rest, open);
    const size = entry(rest, pivot, pivot);
    if (size <= ROUNDING) break;
    const root = Math.sqrt(size);
    const column = rest.map((_, i) => (open.has(i) ? entry(rest, i, pivot) / root : 0));
    open.delete(pivot);
    for (const [i, row] of factor.entries()) row.push(column[i] ?? 0);
    for (const i of open) {
      for (const j of open) setEntry(rest, i, j, entry(rest, i, j) - (column[i] ?? 0) * (column[j] ?? 0));
    }
  }
  // What is left must be nothing: a semidefinite matrix has no entry above its largest diagonal one.
  for (const i of open) for (const j of open) if (Math.abs(entry(rest, i, j)) > 2 * ROUNDING) return undefined;
  return factor;
}

function largestDiagonal(matrix: readonly number[][], among: ReadonlySet<number>): number {
  let best = -1;
  for (const i of among) if (best < 0 || entry(matrix, i, i) > entry(matrix, best, best)) best = i;
  return best;
}

function entry(matrix: readonly (readonly number[])[], i: number, j: number): number {
  return matrix[i]?.[j] ?? 0;
}

function setEntry(matrix: readonly number[][], i: number, j: number, value: number): void {
  const row = matrix[i];
  if (row !== undefined) row[j] = value;
}
