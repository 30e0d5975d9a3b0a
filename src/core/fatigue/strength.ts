import { bilinear, findRoot, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { limitBeyond, type LimitApproach, type LimitKind } from './life-limits.ts';
import { standardQuantile } from './life-distribution.ts';
import { locationGradient, offScale, onScale, type FittedLine } from './line.ts';
import * as problems from './problems.ts';

/** Stresses in MPa; null for a side without a bound: the limits of life never cross the life asked for. */
export interface StrengthLimits {
  readonly estimate: number;
  readonly lower: number | null;
  readonly upper: number | null;
}

/** Steps outwards before a side counts as open, each longer than the last: together a factor of some hundred in stress. */
const STEPS = 22;
const GROWTH = 1.25;

/**
 * Strength at a life: the stress whose median life (or life that a share exceeds) is the one asked for, with the stresses
 * at which the limits of life of the same kind reach it. For a straight line by least squares and `median` this is
 * Fieller's exact interval; the tolerance limit is the stress at which at least the share survive that life.
 * Life stays the dependent variable: the line is read backwards, not fitted again.
 * Problem: `life-not-reached`.
 * @source Fieller, J. R. Statist. Soc. B 16 (1954) 175; inversion of limits: Draper and Smith, Applied Regression Analysis,
 * 3.2; from memory.
 */
export function strengthLimits(line: FittedLine, cycles: number, asked: LimitKind, approach: LimitApproach = 'adjusted'): Result<StrengthLimits> {
  const wanted = Math.log10(cycles);
  const share = asked.kind === 'tolerance' || asked.kind === 'share' ? asked.share : 0.5;
  const estimate = stressOf(line, wanted - standardQuantile(line.life, 1 - share) * line.s);
  if (estimate === undefined) return fail(problems.lifeNotReached(cycles));
  const reach = (side: 'lower' | 'upper'): number | null =>
    crossing(line, estimate, side, (stressMpa) => limitBeyond(line, stressMpa, wanted, { asked, side, approach }));
  return ok(Object.freeze({
    estimate,
    lower: reach('lower'),
    upper: asked.kind === 'median' || asked.kind === 'band' || asked.kind === 'next' || asked.kind === 'share' ? reach('upper') : null,
  }));
}

/**
 * Strength at a median life with its standard error by the delta method, on log10 S: for comparison, and where the doubts
 * are small. Limits by Student's t for least squares, normal for maximum likelihood.
 */
export function strengthByDelta(line: FittedLine, cycles: number, confidence = 0.95): Result<StrengthLimits & { readonly seLog10: number }> {
  const z = standardQuantile(line.life, 0.5);
  const estimate = stressOf(line, Math.log10(cycles) - z * line.s);
  if (estimate === undefined) return fail(problems.lifeNotReached(cycles));
  const gradient = [...locationGradient(line, estimate), z * line.s];
  const seLife = Math.sqrt(Math.max(0, bilinear(gradient, line.covariance, gradient)));
  const seLog10 = seLife / Math.abs(slopeOverLog10(line, estimate));
  const half = (1 + confidence) / 2;
  const factor = line.degreesOfFreedom === null ? normalQuantile(half) : studentQuantile(half, line.degreesOfFreedom);
  return ok(Object.freeze({
    estimate,
    lower: estimate * 10 ** (-factor * seLog10),
    upper: estimate * 10 ** (factor * seLog10),
    seLog10,
  }));
}

/** Slope of log10 location over log10 S at a stress. */
export function slopeOverLog10(line: FittedLine, stressMpa: number): number {
  const [, b = 0, c = 0] = line.parameters.map(({ value }) => value);
  if (line.model === 'limit') return (b * stressMpa) / (stressMpa - c);
  const slope = line.model === 'quadratic' ? b + 2 * c * onScale(stressMpa, line.stress) : b;
  return line.stress === 'log' ? slope : slope * stressMpa * Math.LN10;
}

/** The stress at which the location of log10 life is as wanted, on a falling part of the line; undefined where there is none. */
function stressOf(line: FittedLine, wanted: number): number | undefined {
  const [a = 0, b = 0, c = 0] = line.parameters.map(({ value }) => value);
  if (line.model === 'limit') return b < 0 ? c + 10 ** ((wanted - a) / b) : undefined;
  let x: number;
  if (line.model === 'quadratic' && c !== 0) {
    const root = Math.sqrt(b * b - 4 * c * (a - wanted));
    // The root on the falling part, where b + 2·c·x = −root, written without cancellation.
    x = b > 0 ? -(b + root) / (2 * c) : (2 * (a - wanted)) / (root - b);
  } else if (b < 0) x = (wanted - a) / b;
  else return undefined;
  const stressMpa = offScale(x, line.stress);
  return stressMpa > 0 && stressMpa < Infinity ? stressMpa : undefined;
}

/** The first stress below (for the lower limit) or above the estimate at which the gap changes sign. */
function crossing(line: FittedLine, estimate: number, side: 'lower' | 'upper', gapAt: (stressMpa: number) => number): number | null {
  const [low, high] = line.tested.stressMpa;
  let step = Math.max(Math.min(Math.log(high / low), 0.2) / 10, 0.005) * (side === 'lower' ? -1 : 1);
  const gap = (logStress: number): number => gapAt(Math.exp(logStress));
  let from = Math.log(estimate);
  const sign = Math.sign(gap(from));
  if (sign === 0) return estimate;
  for (let count = 0; count < STEPS; count++) {
    const to = from + step;
    const there = gap(to);
    step *= GROWTH;
    if (Number.isNaN(there)) return null;
    if (Math.sign(there) !== sign) {
      const found = findRoot(gap, from, to, 1e-13);
      return found === undefined ? null : Math.exp(found);
    }
    from = to;
  }
  return null;
}
