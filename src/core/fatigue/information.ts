import type { Expansion } from '../numeric/index.ts';
import { Derivatives } from './derivatives.ts';
import { logTerm } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

/** The location of one specimen, with its derivatives to the parameters of the line. */
export interface Location {
  readonly value: number;
  readonly slopes: readonly number[];
  /** Second derivatives that are not zero, each by i ≤ j. */
  readonly curvatures: readonly (readonly [i: number, j: number, value: number])[];
}

interface Lives {
  readonly life: LifeDistribution;
  readonly y: Float64Array;
  readonly censored: Uint8Array;
  /** As in `CensoredLives`. */
  readonly weights?: Float64Array;
  readonly within?: number;
}

/**
 * Log likelihood of log10 lives with its derivatives to (parameters of the line, ln s): the negative of its matrix is the
 * observed information.
 * @param locate undefined where the specimen can't break at these parameters
 */
export function expandLikelihood(
  { life, y, censored, weights, within = 0 }: Lives,
  locate: (specimen: number, parameters: readonly number[]) => Location | undefined,
  point: readonly number[],
): Expansion {
  const size = point.length;
  const last = size - 1;
  const sums = new Derivatives(size);
  const logScale = point[last] ?? 0;
  const s = Math.exp(logScale);
  const slopes = new Float64Array(size);
  const term = new Float64Array(3);
  const inner = within / (s * s);
  let value = -0.5 * inner;
  for (let row = 0; row < y.length; row++) {
    const broken = censored[row] === 0;
    const location = locate(row, point);
    if (location === undefined) {
      if (broken) return { value: -Infinity, gradient: sums.gradient(), hessian: sums.hessian() };
      continue;
    }
    const weight = weights?.[row] ?? 1;
    const z = ((y[row] ?? 0) - location.value) / s;
    logTerm(term, life, broken, z);
    const slope = weight * (term[1] as number);
    value += weight * ((term[0] as number) - (broken ? logScale : 0));
    for (let j = 0; j < last; j++) slopes[j] = -(location.slopes[j] ?? 0) / s;
    slopes[last] = -z;
    sums.add(slopes, slope, weight * (term[2] as number));
    // z is not linear in ln s, nor always in the parameters: its own second derivatives count too.
    for (let j = 0; j < last; j++) sums.addMixed(j, last, (slope * (location.slopes[j] ?? 0)) / s);
    sums.addFirst(last, broken ? -weight : 0);
    sums.addMixed(last, last, slope * z);
    for (const [i, j, curvature] of location.curvatures) if (i <= j) sums.addMixed(i, j, (-slope * curvature) / s);
  }
  sums.addFirst(last, inner);
  sums.addMixed(last, last, -2 * inner);
  return { value, gradient: sums.gradient(), hessian: sums.hessian() };
}
