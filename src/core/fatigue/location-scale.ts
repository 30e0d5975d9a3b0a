import { cholesky, dot, maximise, solveFactored, type Expansion, type Matrix, type Maximum } from '../numeric/index.ts';
import { logTerm } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

/** Log lives, some only exceeded, on a linear predictor: y = design·β + s·ε. */
export interface CensoredLives {
  readonly life: LifeDistribution;
  /** log10 of the lives, from any zero. */
  readonly y: Float64Array;
  readonly censored: Uint8Array;
  /** Columns of the design; a censored specimen whose entries are not finite can't break and adds nothing. */
  readonly columns: readonly Float64Array[];
  /** Specimens that each entry stands for; one each where absent. */
  readonly weights?: Float64Array;
  /** Sum of squares of y within entries that stand for several lives of different length (lognormal only). */
  readonly within?: number;
}

/** A linear condition row·φ = right on φ = (β/s, 1/s). */
export interface Condition {
  readonly row: readonly number[];
  readonly right: number;
}

export interface LocationScale {
  readonly beta: readonly number[];
  readonly s: number;
  /** Of log10 life: the terms −ln(N·ln 10) of the failures are not in it. */
  readonly logLikelihood: number;
  /** φ = (β/s, 1/s). */
  readonly point: readonly number[];
  /** Second derivatives of the log likelihood over φ. */
  readonly curvature: Matrix;
  readonly converged: boolean;
}

/**
 * Greatest likelihood of a location-scale model with right-censored rows, perhaps under a linear condition.
 * Reckoned in φ = (β/s, 1/s), in which the logarithm of the likelihood is concave for normal and smallest extreme value
 * errors: there is one top, and Newton's method reaches it from anywhere. Where there is none (the scatter can go to
 * nothing, or a coefficient to infinity) the answer says `converged: false`.
 * @source Burridge, J. R. Statist. Soc. B 43 (1981) 41 (concavity); Olsen, Econometrica 46 (1978) 1211; from memory.
 */
export function maximiseLocationScale(lives: CensoredLives, condition?: Condition, near?: readonly number[]): LocationScale {
  const begin = near ?? startingPoint(lives);
  const expand = (point: readonly number[]): Expansion => expandConcave(lives, point);
  const top = condition === undefined ? maximise(expand, begin) : maximiseUnder(expand, condition, begin);
  const precision = top.point.at(-1) ?? Number.NaN;
  const s = 1 / precision;
  return {
    beta: top.point.slice(0, -1).map((value) => value * s),
    s,
    logLikelihood: top.value,
    point: top.point,
    curvature: top.hessian,
    converged: top.converged,
  };
}

/**
 * The second derivatives over (β, ln s) at a top without a condition: there the slopes are zero, and only how φ moves with (β, ln s) comes in, which is
 * ∂(β/s)/∂β = 1/s, ∂(β/s)/∂ln s = −β/s and ∂(1/s)/∂ln s = −1/s.
 */
export function curvatureOverScale({ curvature, point }: LocationScale): Matrix {
  const last = point.length - 1;
  const precision = point[last] ?? 0;
  const turn = point.map((_, i) => point.map((_unused, j) => (j === last ? -(point[i] ?? 0) : i === j ? precision : 0)));
  return point.map((_, i) => point.map((_unused, j) => {
    let sum = 0;
    for (let k = 0; k <= last; k++) for (let l = 0; l <= last; l++) sum += (turn[k]?.[i] ?? 0) * (curvature[k]?.[l] ?? 0) * (turn[l]?.[j] ?? 0);
    return sum;
  }));
}

/** Least squares with the runouts taken as broken, as a start only: by the normal equations of a design that is centred and scaled. */
function startingPoint({ y, columns, weights, within = 0 }: CensoredLives): readonly number[] {
  const size = columns.length;
  const products = columns.map(() => columns.map(() => 0));
  const right = columns.map(() => 0);
  const row = new Float64Array(size);
  let [count, squares] = [0, 0];
  for (let i = 0; i < y.length; i++) {
    let isFinite = true;
    for (let j = 0; j < size; j++) {
      const entry = columns[j]?.[i] as number;
      row[j] = entry;
      isFinite &&= Number.isFinite(entry);
    }
    if (!isFinite) continue;
    const weight = weights?.[i] ?? 1;
    const life = y[i] as number;
    count += weight;
    squares += weight * life * life;
    for (let j = 0; j < size; j++) {
      const share = weight * (row[j] as number);
      right[j] = (right[j] as number) + share * life;
      const line = products[j] as number[];
      for (let k = 0; k <= j; k++) line[k] = (line[k] as number) + share * (row[k] as number);
    }
  }
  const factor = cholesky(products.map((line, j) => line.map((value, k) => (k <= j ? value : (products[k]?.[j] ?? 0)))));
  const beta = factor === undefined ? undefined : solveFactored(factor, right);
  const left = beta === undefined ? Number.NaN : Math.max(0, squares - dot(beta, right)) + within;
  const spread = beta === undefined ? 1 : Math.sqrt(left / Math.max(1, count));
  const precision = 1 / Math.max(spread, 1e-3);
  return [...columns.map((_, j) => (beta?.[j] ?? 0) * precision), precision];
}

function expandConcave({ life, y, censored, columns, weights, within = 0 }: CensoredLives, point: readonly number[]): Expansion {
  const size = point.length;
  const last = size - 1;
  const precision = point[last] ?? Number.NaN;
  const sums = new Derivatives(size);
  if (!(precision > 0)) return { value: -Infinity, gradient: sums.gradient(), hessian: sums.hessian() };
  let value = -0.5 * within * precision ** 2;
  let failures = 0;
  const row = new Float64Array(last);
  const term = new Float64Array(3);
  // Entries of one stress mostly follow each other: what they share is reckoned once.
  for (let i = 0; i < y.length; ) {
    let location = 0;
    for (let j = 0; j < last; j++) {
      row[j] = columns[j]?.[i] as number;
      location += (row[j] as number) * (point[j] as number);
    }
    const first = i;
    // Sums of first derivatives, alone and times the life, and of second ones, alone, times the life and times its square.
    let [slope, slopeLife, curvature, curvatureLife, curvatureSquare] = [0, 0, 0, 0, 0];
    do {
      const isBroken = censored[i] === 0;
      const life10 = y[i] as number;
      const z = precision * life10 - location;
      if (isBroken || Number.isFinite(z)) {
        const weight = weights === undefined ? 1 : (weights[i] as number);
        logTerm(term, life, isBroken, z);
        if (isBroken) failures += weight;
        value += weight * (term[0] as number);
        const own = weight * (term[1] as number);
        const bend = weight * (term[2] as number);
        slope += own;
        slopeLife += own * life10;
        curvature += bend;
        curvatureLife += bend * life10;
        curvatureSquare += bend * life10 * life10;
      }
      i++;
    } while (i < y.length && isAlike(columns, first, i));
    // z has the slopes (−row, life).
    if (slope !== 0 || curvature !== 0) sums.addRow(row, slope, slopeLife, [curvature, curvatureLife, curvatureSquare]);
  }
  value += failures * Math.log(precision);
  sums.addMixed(last, last, -failures / precision ** 2 - within);
  sums.addFirst(last, failures / precision - within * precision);
  return { value, gradient: sums.gradient(), hessian: sums.hessian() };
}

function isAlike(columns: readonly Float64Array[], a: number, b: number): boolean {
  for (let j = 0; j < columns.length; j++) if (columns[j]?.[a] !== columns[j]?.[b]) return false;
  return true;
}

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

  /** What specimens with one row of the design add, z having the slopes (−row, life): sums of the first derivatives, alone and times the life; then of the second. */
  addRow(row: Float64Array, slope: number, slopeLife: number, [curvature, curvatureLife, curvatureSquare]: readonly [number, number, number]): void {
    const last = this.#size - 1;
    const [first, second] = [this.#first, this.#second];
    for (let j = 0; j < last; j++) {
      const entry = row[j] as number;
      const line = j * this.#size;
      first[j] = (first[j] as number) - entry * slope;
      for (let k = j; k < last; k++) second[line + k] = (second[line + k] as number) + entry * (row[k] as number) * curvature;
      second[line + last] = (second[line + last] as number) - entry * curvatureLife;
    }
    const corner = last * this.#size + last;
    first[last] = (first[last] as number) + slopeLife;
    second[corner] = (second[corner] as number) + curvatureSquare;
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

/** The top where row·φ = right holds: one coordinate is put as a function of the others. */
function maximiseUnder(expand: (point: readonly number[]) => Expansion, { row, right }: Condition, begin: readonly number[]): Maximum {
  // 1/s must stay above zero, so another coordinate is freed for it wherever the condition has one.
  const sizes = row.map((value, j) => (j === row.length - 1 ? 0 : Math.abs(value)));
  const largest = Math.max(...sizes);
  const pivot = largest > 0 ? sizes.indexOf(largest) : row.length - 1;
  const others = [...row.keys()].filter((j) => j !== pivot);
  const share = others.map((j) => -(row[j] ?? 0) / (row[pivot] ?? 1));
  const offset = right / (row[pivot] ?? 1);
  const full = (free: readonly number[]): readonly number[] => {
    const point = Array.from({ length: row.length }, () => 0);
    for (const [place, j] of others.entries()) point[j] = free[place] ?? 0;
    point[pivot] = offset + dot(share, free);
    return point;
  };
  const reduced = (free: readonly number[]): Expansion => {
    const { value, gradient, hessian } = expand(full(free));
    const entry = (i: number, j: number): number => hessian[i]?.[j] ?? 0;
    return {
      value,
      gradient: others.map((j, a) => (gradient[j] ?? 0) + (share[a] ?? 0) * (gradient[pivot] ?? 0)),
      hessian: others.map((i, a) => others.map((j, b) =>
        entry(i, j) + (share[a] ?? 0) * entry(pivot, j) + (share[b] ?? 0) * entry(i, pivot) + (share[a] ?? 0) * (share[b] ?? 0) * entry(pivot, pivot))),
    };
  };
  const top = maximise(reduced, others.map((j) => begin[j] ?? 0));
  return { ...top, point: full(top.point) };
}
