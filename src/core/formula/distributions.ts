import {
  chiSquareCumulative, chiSquareDensity, chiSquareQuantile, fisherCumulative, fisherDensity, fisherQuantile, studentCumulative, studentDensity, studentQuantile,
} from '../numeric/index.ts';
import type { FunctionOfSeveral } from './types.ts';

/**
 * Student's t, chi-square and Fisher's F as functions of formulas: the share below x, the density at x and the x below which a
 * share lies, each with degrees of freedom behind it.
 */

/** Degrees of freedom that formulas take: below, quantiles leave the range of doubles; above, a sum of sums is no longer summed in no time. */
const FEWEST = 0.1;
const MOST = 1e9;
/**
 * Step of the differences by which the slope along degrees of freedom is found, as a share of them. It has no closed form; with two steps and the
 * error of the square taken out, about ten digits are right.
 */
const STEP = 1e-3;

type Family = readonly [
  name: string,
  cumulative: (x: number, ...degreesOfFreedom: number[]) => number,
  density: (x: number, ...degreesOfFreedom: number[]) => number,
  quantile: (p: number, ...degreesOfFreedom: number[]) => number,
  /** d ln density / dx. */
  bend: (x: number, n: number, m: number) => number,
  says: string,
];

const FAMILIES: readonly Family[] = [
  ['student', two(studentCumulative), two(studentDensity), two(studentQuantile), (x, n) => (-(n + 1) * x) / (n + x * x), 'degrees of freedom'],
  ['chi_square', two(chiSquareCumulative), two(chiSquareDensity), two(chiSquareQuantile), (x, n) => (n / 2 - 1) / x - 0.5, 'degrees of freedom'],
  ['fisher', three(fisherCumulative), three(fisherDensity), three(fisherQuantile),
    (x, n, m) => (n / 2 - 1) / x - ((n + m) * n) / (2 * (m + n * x)), 'two degrees of freedom'],
];

function two(f: (x: number, n: number) => number): (x: number, ...others: number[]) => number {
  return (x, n = Number.NaN) => f(x, n);
}

function three(f: (x: number, n: number, m: number) => number): (x: number, ...others: number[]) => number {
  return (x, n = Number.NaN, m = Number.NaN) => f(x, n, m);
}

const isDegrees = (n: number): boolean => n >= FEWEST && n <= MOST;
const isShare = (p: number): boolean => p > 0 && p < 1;

/** The slopes along the degrees of freedom, behind the first slope. */
function slopes(first: number, f: (x: number, ...n: number[]) => number, [x = Number.NaN, ...degrees]: readonly number[]): readonly number[] {
  const along = degrees.map((n, i) => {
    const difference = (step: number): number =>
      (f(x, ...degrees.with(i, n * (1 + step))) - f(x, ...degrees.with(i, n * (1 - step)))) / (2 * step * n);
    return (4 * difference(STEP / 2) - difference(STEP)) / 3;
  });
  return [first, ...along];
}

function functionsOf([name, cumulative, density, quantile, bend, says]: Family): readonly (readonly [string, FunctionOfSeveral])[] {
  const degreesAt = (x: readonly number[]): number => Math.max(0, x.findIndex((n, i) => i > 0 && !isDegrees(n)));
  const within = (f: typeof cumulative) => (x: readonly number[]): number => (x.slice(1).every(isDegrees) ? f(x[0] ?? Number.NaN, ...x.slice(1)) : Number.NaN);
  const needsDegrees = `${says} between ${FEWEST} and 10^9`;
  return [
    [name, {
      value: within(cumulative), slopes: (x) => slopes(within(density)(x), cumulative, x), needs: needsDegrees, fault: degreesAt,
    }],
    [`${name}_density`, {
      value: within(density), slopes: (x, y) => slopes(y * bend(...triple(x)), density, x),
      needs: name === 'student' ? needsDegrees : `a number above zero, and ${needsDegrees}`, fault: degreesAt,
    }],
    [`${name}_quantile`, {
      value: (x) => (isShare(x[0] ?? Number.NaN) ? within(quantile)(x) : Number.NaN),
      slopes: (x, y) => slopes(1 / density(y, ...x.slice(1)), quantile, x),
      needs: `a share between 0 and 1, and ${needsDegrees}`,
      fault: (x) => (isShare(x[0] ?? Number.NaN) ? degreesAt(x) : 0),
    }],
  ];
}

function triple([x = Number.NaN, n = Number.NaN, m = Number.NaN]: readonly number[]): [number, number, number] {
  return [x, n, m];
}

export const DISTRIBUTIONS: readonly (readonly [string, FunctionOfSeveral])[] = FAMILIES.flatMap(functionsOf);
