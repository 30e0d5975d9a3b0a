import type { Matrix } from '../numeric/index.ts';
import { countingCovariance } from './counting-errors.ts';
import type { StaircaseRun } from './staircase-run.ts';

/** Estimates from counting one event per level; mean and sd in the unit of the levels. */
export interface CountedLevels {
  readonly event: 'fracture' | 'runout';
  /** Lowest level at which the event occurred: index 0. */
  readonly lowest: number;
  /** Number of the event. */
  readonly n: number;
  /** Σ i over the events, i the index of the level. */
  readonly A: number;
  /** Σ i² over the events. */
  readonly B: number;
  /** (n·B − A²)/n². */
  readonly spread: number;
  readonly mean: number;
  readonly sd: number;
  /** Whether spread ≥ 0.3, for which the formula of sd was made; below, sd is 0.53 of the step. */
  readonly formulaHolds: boolean;
  /** Standard errors for many tests; null below two events. Rough where the formula of sd doesn't hold, and for few tests. */
  readonly errors: { readonly seMean: number; readonly seSd: number; readonly covariance: Matrix } | null;
}

/** Below this spread the formula of the standard deviation doesn't hold; Dixon and Mood (1948), ISO 12107 (from memory). */
const LEAST_SPREAD = 0.3;

/**
 * Mean S₀ + d·(A/n ∓ ½), minus for fractures, and standard deviation 1.62·d·((nB − A²)/n² + 0.029), of a strength that is
 * normally distributed over the levels.
 * @source Dixon and Mood, JASA 43 (1948) 109; ISO 12107 with C = n, D = spread; formulas from memory.
 */
export function countLevels({ levels, broken, step }: StaircaseRun, countFractures: boolean): CountedLevels {
  const counted = levels.filter((_, i) => broken[i] === countFractures);
  const lowest = Math.min(...counted);
  const indices = counted.map((level) => Math.round((level - lowest) / step));
  const n = counted.length;
  const A = indices.reduce((sum, i) => sum + i, 0);
  const B = indices.reduce((sum, i) => sum + i * i, 0);
  const spread = (n * B - A * A) / (n * n);
  const formulaHolds = spread >= LEAST_SPREAD;
  const mean = lowest + step * (A / n + (countFractures ? -0.5 : 0.5));
  const sd = formulaHolds ? 1.62 * step * (spread + 0.029) : 0.53 * step;
  return Object.freeze({
    event: countFractures ? 'fracture' : 'runout',
    lowest,
    n,
    A,
    B,
    spread,
    mean,
    sd,
    formulaHolds,
    errors: errorsOf(n, sd, step / sd, (lowest - mean) / sd),
  });
}

function errorsOf(n: number, sd: number, step: number, offset: number): CountedLevels['errors'] {
  const unit = n < 2 ? undefined : countingCovariance(step, offset);
  if (unit === undefined) return null;
  const covariance = Object.freeze(unit.map((row) => Object.freeze(row.map((value) => (value * sd * sd) / n))));
  return Object.freeze({ seMean: Math.sqrt(covariance[0]?.[0] ?? 0), seSd: Math.sqrt(covariance[1]?.[1] ?? 0), covariance });
}
