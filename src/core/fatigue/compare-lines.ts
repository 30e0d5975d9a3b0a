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

/** Strengths of two lines at a life: their ratio, both of them, and their difference, MPa. */
export interface ComparedStrengths extends RatioOfLines {
  readonly strengthsMpa: readonly [first: number, second: number];
  /** First less second, with limits by the delta method on the stresses themselves. */
  readonly difference: { readonly value: number; readonly lower: number; readonly upper: number };
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
export function compareStrengths(first: FittedLine, second: FittedLine, cycles: number, confidence = 0.95): Result<ComparedStrengths> {
  const strengths: number[] = [];
  const variances: number[] = [];
  for (const line of [first, second]) {
    const strength = strengthLimits(line, cycles, { kind: 'two s' });
    if (!strength.ok) return strength;
    const { estimate } = strength.value;
    strengths.push(estimate);
    variances.push(medianVariance(line, estimate) / slopeOverLog10(line, estimate) ** 2);
  }
  const [one = 0, other = 0] = strengths;
  const [own = 0, others = 0] = variances;
  const ratio = ratioOf(Math.log10(one) - Math.log10(other), own, others, [first, second], confidence);
  const inMpa = widthOf((one * Math.LN10) ** 2 * own, (other * Math.LN10) ** 2 * others, [first, second], confidence);
  return ok(Object.freeze({
    ...ratio,
    strengthsMpa: Object.freeze([one, other] as const),
    difference: Object.freeze({ value: one - other, lower: one - other - inMpa.half, upper: one - other + inMpa.half }),
  }));
}

function medianVariance(line: FittedLine, stressMpa: number): number {
  const gradient = [...locationGradient(line, stressMpa), standardQuantile(line.life, 0.5) * line.s];
  return bilinear(gradient, line.covariance, gradient);
}

function ratioOf(log10: number, own: number, other: number, lines: readonly [FittedLine, FittedLine], confidence: number): RatioOfLines {
  const { se: seLog10, half, degreesOfFreedom } = widthOf(own, other, lines, confidence);
  return Object.freeze({
    ratio: 10 ** log10,
    lower: 10 ** (log10 - half),
    upper: 10 ** (log10 + half),
    log10,
    seLog10,
    degreesOfFreedom,
  });
}

/** Standard error and half width of the difference of two independent estimates. */
function widthOf(
  own: number,
  other: number,
  lines: readonly [FittedLine, FittedLine],
  confidence: number,
): { readonly se: number; readonly half: number; readonly degreesOfFreedom: number | null } {
  const se = Math.sqrt(own + other);
  const share = (variance: number, line: FittedLine): number => (line.degreesOfFreedom === null ? 0 : variance ** 2 / line.degreesOfFreedom);
  const sum = share(own, lines[0]) + share(other, lines[1]);
  const degreesOfFreedom = sum > 0 ? (own + other) ** 2 / sum : null;
  const p = (1 + confidence) / 2;
  return { se, half: se * (degreesOfFreedom === null ? normalQuantile(p) : studentQuantile(p, degreesOfFreedom)), degreesOfFreedom };
}
