/** First and second derivatives while they are summed over many specimens. */
export class Derivatives {
  readonly #size: number;
  readonly #first: Float64Array;
  /** Row by row; above the diagonal only. */
  readonly #second: Float64Array;

  constructor(size: number) {
    this.#size = size;
    this.#first = new Float64Array(size);
    this.#second = new Float64Array(size * size);
  }

  /** What one term of z does, where z is linear with the given slopes. */
  add(slopes: Float64Array, slope: number, curvature: number): void {
    const size = this.#size;
    for (let j = 0; j < size; j++) {
      const own = slopes[j] ?? 0;
      this.#first[j] = (this.#first[j] ?? 0) + slope * own;
      for (let k = j; k < size; k++) {
        const at = j * size + k;
        this.#second[at] = (this.#second[at] ?? 0) + curvature * own * (slopes[k] ?? 0);
      }
    }
  }

  addFirst(i: number, first: number): void {
    this.#first[i] = (this.#first[i] ?? 0) + first;
  }

  /** A second derivative; (i, j) and (j, i) are one. */
  addMixed(i: number, j: number, second: number): void {
    const at = Math.min(i, j) * this.#size + Math.max(i, j);
    this.#second[at] = (this.#second[at] ?? 0) + second;
  }

  gradient(): number[] {
    return [...this.#first];
  }

  hessian(): number[][] {
    const size = this.#size;
    return Array.from({ length: size }, (_, i) =>
      Array.from({ length: size }, (_unused, j) => this.#second[Math.min(i, j) * size + Math.max(i, j)] ?? 0));
  }
}
