import {
  congruent,
  invertSymmetric,
  maximise,
  normalCumulative,
  normalDensity,
  type Expansion,
  type Matrix,
} from '../numeric/index.ts';
import { logSurvival } from './life-distribution.ts';
import type { StaircaseRun } from './staircase-run.ts';

/** Normal distribution of strength from broken-or-not at levels; in the unit of the levels. */
export interface ProbitFit {
  /** Median strength. */
  readonly mu: number;
  readonly sigma: number;
  readonly seMu: number;
  readonly seSigma: number;
  /** Of (mu, sigma). */
  readonly covariance: Matrix;
  readonly logLikelihood: number;
}

/**
 * Maximum likelihood of P(fracture at S) = Φ((S − mu)/sigma); standard errors from the expected information and the delta
 * method. Null where there is no greatest likelihood (no fracture below a runout) or more break at low levels than at high.
 * @source McCullagh and Nelder, Generalized Linear Models (1989), 4.3 and 2.5 (from memory).
 */
export function fitProbit({ levels, broken, step }: StaircaseRun): ProbitFit | null {
  const lowestFracture = Math.min(...levels.filter((_, i) => broken[i] === true));
  const highestRunout = Math.max(...levels.filter((_, i) => broken[i] === false));
  if (!(lowestFracture < highestRunout)) return null;
  const centre = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const x = levels.map((level) => (level - centre) / step);
  const top = maximise((point) => expandProbit(x, broken, point), [0, 0.5]);
  const [a = 0, b = 0] = top.point;
  if (!top.converged || !(b > 1e-9)) return null;
  const inverse = invertSymmetric(expectedInformation(x, a, b));
  if (inverse === undefined) return null;
  // mu = −a/b and sigma = 1/b, in steps from the centre.
  const covariance = congruent([[-step / b, (step * a) / (b * b)], [0, -step / (b * b)]], inverse);
  const [mu, sigma] = [centre - (step * a) / b, step / b];
  return Object.freeze({
    mu,
    sigma,
    seMu: Math.sqrt(covariance[0]?.[0] ?? 0),
    seSigma: Math.sqrt(covariance[1]?.[1] ?? 0),
    covariance: Object.freeze(covariance.map((row) => Object.freeze([...row]))),
    logLikelihood: top.value,
  });
}

/** Σ ln Φ(±(a + b·x)): concave in (a, b). */
function expandProbit(x: readonly number[], broken: readonly boolean[], [a = 0, b = 0]: readonly number[]): Expansion {
  let value = 0;
  const gradient = [0, 0];
  const hessian = [[0, 0], [0, 0]];
  for (const [i, level] of x.entries()) {
    const sign = broken[i] === true ? -1 : 1;
    const term = logSurvival(sign * (a + b * level));
    value += term[0];
    for (const [j, own] of [1, level].entries()) {
      gradient[j] = (gradient[j] ?? 0) + sign * term[1] * own;
      const row = hessian[j] ?? [];
      for (const [k, other] of [1, level].entries()) row[k] = (row[k] ?? 0) + term[2] * own * other;
    }
  }
  return { value, gradient, hessian };
}

function expectedInformation(x: readonly number[], a: number, b: number): Matrix {
  const sums = [0, 0, 0];
  for (const level of x) {
    const eta = a + b * level;
    const weight = normalDensity(eta) ** 2 / (normalCumulative(eta) * normalCumulative(-eta));
    for (let power = 0; power < 3; power++) sums[power] = (sums[power] ?? 0) + weight * level ** power;
  }
  const [s0 = 0, s1 = 0, s2 = 0] = sums;
  return [[s0, s1], [s1, s2]];
}
