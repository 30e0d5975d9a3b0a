import { dot, type Matrix } from './symmetric.ts';

/** Columns whose part across the earlier ones is smaller than this share are taken as their combination. */
const RANK = 1e-12;

/** A factored design Q·R: what least squares asks of it. */
export interface Factored {
  /** Largest over smallest diagonal of R. */
  readonly condition: number;
  solve(right: Float64Array): number[];
  /** Solution of Rᵀ·R·x = right. */
  solveNormal(right: readonly number[]): number[];
  inverse(): Matrix;
  leverages(): Float64Array;
}

/** Q·R = columns; undefined where a diagonal of R vanishes beside its column. Longer than a screen by the readers of the two triangles, which share them. */
export function householder(columns: readonly Float64Array[], n: number): Factored | undefined {
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
  const solveLower = (right: readonly number[]): number[] => {
    const solution: number[] = [];
    for (let i = 0; i < p; i++) {
      let rest = right[i] ?? 0;
      for (let j = 0; j < i; j++) rest -= entry(j, i) * (solution[j] ?? 0);
      solution.push(rest / entry(i, i));
    }
    return solution;
  };
  const diagonal = upper.map((_, i) => Math.abs(entry(i, i)));
  return {
    condition: Math.max(...diagonal) / Math.min(...diagonal),
    solveNormal: (right) => solveUpper(solveLower(right)),
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
