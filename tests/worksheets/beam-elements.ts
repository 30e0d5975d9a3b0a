/**
 * A straight beam by finite elements, apart from the project's code: cubic deflection in each element, as in any textbook of the method
 * (consistent mass, stiffness of an Euler–Bernoulli beam). Freedom 2i is the deflection of node i, 2i + 1 its slope.
 */
export interface Element { readonly length: number; readonly EI: number; readonly mass: number }
export interface Beam {
  readonly elements: readonly Element[];
  /** Mass at nodes besides that of the elements, by node. */
  readonly lumped?: ReadonlyMap<number, number>;
  /** Freedoms that are held at zero. */
  readonly held: ReadonlySet<number>;
}
type Matrix = number[][];

function zeros(size: number): Matrix {
  return Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
}

/** Stiffness and mass; a held freedom stands alone with a one in the stiffness. */
export function matrices({ elements, lumped, held }: Beam): { readonly K: Matrix; readonly M: Matrix } {
  const size = 2 * elements.length + 2;
  const [K, M] = [zeros(size), zeros(size)];
  elements.forEach(({ length: l, EI, mass }, i) => {
    const stiffness = [[12, 6 * l, -12, 6 * l], [6 * l, 4 * l * l, -6 * l, 2 * l * l], [-12, -6 * l, 12, -6 * l], [6 * l, 2 * l * l, -6 * l, 4 * l * l]];
    const inertia = [[156, 22 * l, 54, -13 * l], [22 * l, 4 * l * l, 13 * l, -3 * l * l], [54, 13 * l, 156, -22 * l], [-13 * l, -3 * l * l, -22 * l, 4 * l * l]];
    for (let a = 0; a < 4; a += 1) {
      for (let b = 0; b < 4; b += 1) {
        K[2 * i + a]![2 * i + b]! += (EI / l ** 3) * stiffness[a]![b]!;
        M[2 * i + a]![2 * i + b]! += ((mass * l) / 420) * inertia[a]![b]!;
      }
    }
  });
  for (const [node, mass] of lumped ?? []) M[2 * node]![2 * node]! += mass;
  for (const freedom of held) {
    for (let j = 0; j < size; j += 1) for (const matrix of [K, M]) matrix[freedom]![j] = matrix[j]![freedom] = 0;
    K[freedom]![freedom] = 1;
  }
  return { K, M };
}

/** Solution of A x = b by elimination with pivots. */
export function solveLinear(A: Matrix, b: readonly number[]): number[] {
  const rows = A.map((row, i) => [...row, b[i] ?? 0]);
  const size = rows.length;
  for (let k = 0; k < size; k += 1) {
    let pivot = k;
    for (let i = k + 1; i < size; i += 1) if (Math.abs(rows[i]![k]!) > Math.abs(rows[pivot]![k]!)) pivot = i;
    [rows[k], rows[pivot]] = [rows[pivot]!, rows[k]!];
    for (let i = k + 1; i < size; i += 1) {
      const factor = rows[i]![k]! / rows[k]![k]!;
      if (factor !== 0) for (let j = k; j <= size; j += 1) rows[i]![j]! -= factor * rows[k]![j]!;
    }
  }
  const x = Array.from({ length: size }, () => 0);
  for (let i = size - 1; i >= 0; i -= 1) {
    let sum = rows[i]![size]!;
    for (let j = i + 1; j < size; j += 1) sum -= rows[i]![j]! * x[j]!;
    x[i] = sum / rows[i]![i]!;
  }
  return x;
}

export function times(A: Matrix, x: readonly number[]): number[] {
  return A.map((row) => row.reduce((sum, value, j) => sum + value * (x[j] ?? 0), 0));
}

/** Lowest natural frequency in hertz, by inverse iteration from a lopsided shape. */
export function lowestFrequency(beam: Beam): number {
  const { K, M } = matrices(beam);
  let shape = K.map((_row, i) => (beam.held.has(i) ? 0 : 1 + 0.01 * i));
  let square = 0;
  for (let turn = 0; turn < 12; turn += 1) {
    const next = solveLinear(K, times(M, shape));
    const [top, bottom] = [times(K, next), times(M, next)].map((image) => image.reduce((sum, value, i) => sum + value * (next[i] ?? 0), 0));
    square = (top ?? 0) / (bottom ?? 1);
    const size = Math.max(...next.map(Math.abs));
    shape = next.map((value) => value / size);
  }
  return Math.sqrt(square) / (2 * Math.PI);
}
