import { bilinear, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { lifeLimits } from './life-limits.ts';
import { standardQuantile } from './life-distribution.ts';
import { locationGradient, type FittedLine } from './line.ts';
import * as problems from './problems.ts';
import { slopeOverLog10, strengthLimits } from './strength.ts';

/** How many times the second line's value is the first's: estimate with limits; log10 with its standard error. */
export interface RatioOfLines {
  readonly ratio: number;
  readonly lower: number;
  readonly upper: number;
  readonly log10: number;
  readonly seLog10: number;
  /** Of Student's t, after Welch; null where the normal distribution is used. */
  readonly degreesOfFreedom: number | null;
}

/**
 * Ratio of median lives of two independently fitted lines at a stress, first over second, with limits.
 * Problem: `life-not-reached` where one of them has a fatigue limit above that stress.
 * @source difference of independent estimates, degrees of freedom after Welch and Satterthwaite (Biometrika 34 (1947) 28),
 * from memory.
 */
export function compareLives(first: FittedLine, second: FittedLine, stressMpa: number, confidence = 0.95): Result<RatioOfLines> {
  const medians = [first, second].map((line) => lifeLimits(line, stressMpa, { kind: 'two s' }).estimate);
  if (!medians.every((value) => Number.isFinite(value))) return fail(problems.lifeNotReached(Infinity));
  const difference = (medians[0] ?? 0) - (medians[1] ?? 0);
  return ok(ratioOf(difference, medianVariance(first, stressMpa), medianVariance(second, stressMpa), [first, second], confidence));
}

/** The same for the strengths at a median life; variances by the delta method on log10 S. */
export function compareStrengths(first: FittedLine, second: FittedLine, cycles: number, confidence = 0.95): Result<RatioOfLines> {
  const logs: number[] = [];
  const variances: number[] = [];
  for (const line of [first, second]) {
    const strength = strengthLimits(line, cycles, { kind: 'two s' });
    if (!strength.ok) return strength;
    const { estimate } = strength.value;
    logs.push(Math.log10(estimate));
    variances.push(medianVariance(line, estimate) / slopeOverLog10(line, estimate) ** 2);
  }
  return ok(ratioOf((logs[0] ?? 0) - (logs[1] ?? 0), variances[0] ?? 0, variances[1] ?? 0, [first, second], confidence));
}

function medianVariance(line: FittedLine, stressMpa: number): number {
  const gradient = [...locationGradient(line, stressMpa), standardQuantile(line.life, 0.5) * line.s];
  return bilinear(gradient, line.covariance, gradient);
}

function ratioOf(log10: number, own: number, other: number, lines: readonly [FittedLine, FittedLine], confidence: number): RatioOfLines {
  const seLog10 = Math.sqrt(own + other);
  const share = (variance: number, line: FittedLine): number => (line.degreesOfFreedom === null ? 0 : variance ** 2 / line.degreesOfFreedom);
  const sum = share(own, lines[0]) + share(other, lines[1]);
  const degreesOfFreedom = sum > 0 ? (own + other) ** 2 / sum : null;
  const p = (1 + confidence) / 2;
  const half = seLog10 * (degreesOfFreedom === null ? normalQuantile(p) : studentQuantile(p, degreesOfFreedom));
  return Object.freeze({
    ratio: 10 ** log10,
    lower: 10 ** (log10 - half),
    upper: 10 ** (log10 + half),
    log10,
    seLog10,
    degreesOfFreedom,
  });
}
