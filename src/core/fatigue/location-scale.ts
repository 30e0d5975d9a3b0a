import { cholesky, dot, maximise, solveFactored, type Expansion, type Matrix, type Maximum } from '../numeric/index.ts';
import { expandConcave, type CensoredLives } from './censored-lives.ts';

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
 * @param enough see `maximise`
 * @source Burridge, J. R. Statist. Soc. B 43 (1981) 41 (concavity); Olsen, Econometrica 46 (1978) 1211; from memory.
 */
export function maximiseLocationScale(lives: CensoredLives, condition?: Condition, near?: readonly number[], enough = 0): LocationScale {
  const begin = near ?? topOfSome(lives) ?? startingPoint(lives);
  const expand = (point: readonly number[]): Expansion => expandConcave(lives, point);
  const top = maximiseUnder(expand, condition, begin, enough);
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

/** Lives from where on the top of some of them is looked for first, and how many these are: from there two or three steps lead to the top of all. */
const [MANY, SOME] = [10_000, 2_000];

/** The top of the likelihood of some of many lives, from all over the table; undefined where they have none. */
function topOfSome({ life, y, censored, columns, weights }: CensoredLives): readonly number[] | undefined {
  if (y.length < MANY || weights !== undefined) return undefined;
  const places = Float64Array.from({ length: SOME }, (_, i) => Math.floor((i * y.length) / SOME));
  const some = (column: Float64Array): Float64Array => places.map((place) => column[place] as number);
  const top = maximiseLocationScale({ life, y: some(y), censored: Uint8Array.from(places, (place) => censored[place] as number), columns: columns.map(some) });
  return top.converged && top.point.every(Number.isFinite) ? top.point : undefined;
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

/** The top, perhaps where row·φ = right holds: one coordinate is put as a function of the others. */
function maximiseUnder(expand: (point: readonly number[]) => Expansion, condition: Condition | undefined, begin: readonly number[], enough: number): Maximum {
  if (condition === undefined) return maximise(expand, begin, enough);
  const { row, right } = condition;
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
  const top = maximise(reduced, others.map((j) => begin[j] ?? 0), enough);
  return { ...top, point: full(top.point) };
}
