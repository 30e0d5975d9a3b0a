import { bilinear, noncentralStudentCumulative, noncentralStudentQuantile } from '../numeric/index.ts';
import { locationAt, locationGradient, type FittedLine } from './line.ts';

/** Variances smaller than this share of s² are rounding. */
const LEAST = 1e-12;

/**
 * The quantile location + z₀·s at a stress whose estimate the likelihood does not tie to that of s, z₀ =
 * −cov(location, ln s)/(s·var(ln s)), and the root of its variance over s². Least squares and complete lognormal samples have
 * z₀ = 0, the location itself, and the root of the leverage.
 */
export function untiedQuantile(line: FittedLine, stressMpa: number): { readonly z: number; readonly root: number } {
  const gradient = [...locationGradient(line, stressMpa), 0];
  const logScale = [...line.parameters.map(() => 0), 1];
  const varLogScale = bilinear(logScale, line.covariance, logScale);
  const tie = bilinear(gradient, line.covariance, logScale) / line.s;
  const variance = bilinear(gradient, line.covariance, gradient) / line.s ** 2 - (tie * tie) / varLogScale;
  return { z: -tie / varLogScale, root: Math.sqrt(Math.max(variance, LEAST)) };
}

/** A quantile location + z·s and what is known of s. */
interface QuantileAsked {
  readonly z: number;
  /** Degrees of freedom. */
  readonly dof: number;
  /** Factor on s, √(f/(f − p)) after maximum likelihood, else 1. */
  readonly enlargement: number;
}

/**
 * The log life that the quantile location + z·s exceeds with confidence p, for both distributions, with or without runouts:
 * about the untied quantile, taken as normal and independent of s, every other follows noncentral t with noncentrality
 * (z₀ − z)/root. Exact where z₀ = 0. After maximum likelihood, s is enlarged; then the limit is as lopsided as s, and holds
 * its confidence far better than quantile − t·se.
 * @source Owen, SCR-607 (1963), for z₀ = 0 (from memory); the shift to z₀ is our own, held against simulation in
 * tests/bench/coverage.bench.ts, no published source.
 */
export function quantileLimit(line: FittedLine, stressMpa: number, p: number, { z, dof, enlargement }: QuantileAsked): number {
  const untied = untiedQuantile(line, stressMpa);
  const factor = untied.z - untied.root * noncentralStudentQuantile(p, dof, (untied.z - z) / untied.root);
  return locationAt(line, stressMpa) + line.s * enlargement * factor;
}

/**
 * The confidence with which the quantile exceeds a log life, less p: of the sign of `quantileLimit` less that life, and zero where they are the
 * same, for one integral in place of the search of a limit.
 */
export function confidenceBeyond(line: FittedLine, stressMpa: number, logLife: number, p: number, { z, dof, enlargement }: QuantileAsked): number {
  const untied = untiedQuantile(line, stressMpa);
  const factor = (logLife - locationAt(line, stressMpa)) / (line.s * enlargement);
  return noncentralStudentCumulative((untied.z - factor) / untied.root, dof, (untied.z - z) / untied.root) - p;
}
