import type { Expansion } from '../numeric/index.ts';
import { addTerm } from './location-scale.ts';
import { logDensity, logSurvival } from './life-distribution.ts';
import type { LifeDistribution } from './types.ts';

/** The location of one specimen, with its derivatives to the parameters of the line. */
export interface Location {
  readonly value: number;
  readonly slopes: readonly number[];
  /** Second derivatives that are not zero. */
  readonly curvatures: readonly (readonly [i: number, j: number, value: number])[];
}

export interface Lives {
  readonly life: LifeDistribution;
  readonly y: Float64Array;
  readonly censored: Uint8Array;
}

/**
 * Log likelihood of log10 lives with its derivatives to (parameters of the line, ln s): the negative of its matrix is the
 * observed information.
 * @param locate undefined where the specimen can't break at these parameters
 */
export function expandLikelihood(
  { life, y, censored }: Lives,
  locate: (specimen: number, parameters: readonly number[]) => Location | undefined,
  point: readonly number[],
): Expansion {
  const size = point.length;
  const last = size - 1;
  const gradient = Array.from({ length: size }, () => 0);
  const hessian = Array.from({ length: size }, () => Array.from({ length: size }, () => 0));
  const add = (i: number, j: number, value: number): void => {
    const row = hessian[i];
    if (row !== undefined) row[j] = (row[j] ?? 0) + value;
  };
  const logScale = point[last] ?? 0;
  const s = Math.exp(logScale);
  const slopes = new Float64Array(size);
  let value = 0;
  for (let row = 0; row < y.length; row++) {
    const broken = censored[row] === 0;
    const location = locate(row, point);
    if (location === undefined) {
      if (broken) return { value: -Infinity, gradient, hessian };
      continue;
    }
    const z = ((y[row] ?? 0) - location.value) / s;
    const term = broken ? logDensity(life, z) : logSurvival(life, z);
    value += term[0] - (broken ? logScale : 0);
    for (let j = 0; j < last; j++) slopes[j] = -(location.slopes[j] ?? 0) / s;
    slopes[last] = -z;
    addTerm(gradient, hessian, slopes, term);
    if (broken) gradient[last] = (gradient[last] ?? 0) - 1;
    // z is not linear in ln s, nor always in the parameters: its own second derivatives count too.
    for (let j = 0; j < last; j++) {
      const mixed = (term[1] * (location.slopes[j] ?? 0)) / s;
      add(j, last, mixed);
      add(last, j, mixed);
    }
    add(last, last, term[1] * z);
    for (const [i, j, curvature] of location.curvatures) add(i, j, (-term[1] * curvature) / s);
  }
  return { value, gradient, hessian };
}
