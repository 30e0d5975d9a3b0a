import { dot, leastSquares, maximise, type Expansion, type Maximum } from '../numeric/index.ts';
import { logDensity, logSurvival, type LogTerm } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

/** Log lives, some only exceeded, on a linear predictor: y = design·β + s·ε. */
export interface CensoredLives {
  readonly life: LifeDistribution;
  /** log10 of the lives, from any zero. */
  readonly y: Float64Array;
  readonly censored: Uint8Array;
  /** Columns of the design; a censored specimen whose entries are not finite can't break and adds nothing. */
  readonly columns: readonly Float64Array[];
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
    converged: top.converged,
  };
}

/** Least squares with the runouts taken as broken, as a start only. */
function startingPoint({ y, columns }: CensoredLives): readonly number[] {
  const finite = [...y.keys()].filter((i) => columns.every((column) => Number.isFinite(column[i])));
  const pick = (column: Float64Array): Float64Array => Float64Array.from(finite, (i) => column[i] ?? 0);
  const fit = leastSquares(columns.map(pick), pick(y));
  const spread = fit === undefined ? 1 : Math.sqrt(fit.residualSumOfSquares / Math.max(1, finite.length));
  const precision = 1 / Math.max(spread, 1e-3);
  return [...columns.map((_, j) => (fit?.coefficients[j] ?? 0) * precision), precision];
}

function expandConcave({ life, y, censored, columns }: CensoredLives, point: readonly number[]): Expansion {
  const size = point.length;
  const precision = point[size - 1] ?? Number.NaN;
  const gradient = Array.from({ length: size }, () => 0);
  const hessian = Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
  if (!(precision > 0)) return { value: -Infinity, gradient, hessian };
  let value = 0;
  let failures = 0;
  const slopes = new Float64Array(size);
  for (let i = 0; i < y.length; i++) {
    let z = precision * (y[i] ?? 0);
    for (let j = 0; j < size - 1; j++) z -= (columns[j]?.[i] ?? 0) * (point[j] ?? 0);
    const broken = censored[i] === 0;
    if (!broken && !Number.isFinite(z)) continue;
    const term = broken ? logDensity(life, z) : logSurvival(life, z);
    if (broken) failures++;
    value += term[0];
    for (let j = 0; j < size - 1; j++) slopes[j] = -(columns[j]?.[i] ?? 0);
    slopes[size - 1] = y[i] ?? 0;
    addTerm(gradient, hessian, slopes, term);
  }
  value += failures * Math.log(precision);
  gradient[size - 1] = (gradient[size - 1] ?? 0) + failures / precision;
  const last = hessian[size - 1];
  if (last !== undefined) last[size - 1] = (last[size - 1] ?? 0) - failures / precision ** 2;
  return { value, gradient, hessian };
}

/** Adds what one term of z does to the derivatives, where z is linear with the given slopes. */
export function addTerm(gradient: number[], hessian: number[][], slopes: Float64Array, term: LogTerm): void {
  for (let j = 0; j < slopes.length; j++) {
    const slope = slopes[j] ?? 0;
    gradient[j] = (gradient[j] ?? 0) + term[1] * slope;
    const row = hessian[j];
    if (row === undefined) continue;
    for (let k = 0; k < slopes.length; k++) row[k] = (row[k] ?? 0) + term[2] * slope * (slopes[k] ?? 0);
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
