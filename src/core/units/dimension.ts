import type { Dimension } from './types.ts';

/** Exponents that differ by less than this are the same: chains of roots and powers leave rounding behind. */
const EXPONENT_TOLERANCE = 1e-9;

export const DIMENSIONLESS: Dimension = [0, 0, 0, 0, 0, 0];
export const LENGTH_DIMENSION: Dimension = [1, 0, 0, 0, 0, 0];
export const MASS_DIMENSION: Dimension = [0, 1, 0, 0, 0, 0];
export const TIME_DIMENSION: Dimension = [0, 0, 1, 0, 0, 0];
export const CURRENT_DIMENSION: Dimension = [0, 0, 0, 1, 0, 0];
export const TEMPERATURE_DIMENSION: Dimension = [0, 0, 0, 0, 1, 0];
export const ANGLE_DIMENSION: Dimension = [0, 0, 0, 0, 0, 1];
export const FORCE_DIMENSION: Dimension = [1, 1, -2, 0, 0, 0];
export const STRESS_DIMENSION: Dimension = [-1, 1, -2, 0, 0, 0];
/** Force times length: a bending moment, and energy. */
export const MOMENT_DIMENSION: Dimension = [2, 1, -2, 0, 0, 0];
/** 1/time: a frequency, and a speed of rotation, since a revolution is the number 1. */
export const FREQUENCY_DIMENSION: Dimension = [0, 0, -1, 0, 0, 0];

/** Whether two quantities can be added, compared and shown in each other's units. */
export function sameDimension(a: Dimension, b: Dimension): boolean {
  return a.every((exponent, place) => Math.abs(exponent - (b[place] ?? NaN)) < EXPONENT_TOLERANCE);
}

/** Dimension of a product. */
export function multiplyDimensions(a: Dimension, b: Dimension): Dimension {
  return byPlace(a, b, (x, y) => x + y);
}

/** Dimension of the quotient a/b. */
export function divideDimensions(a: Dimension, b: Dimension): Dimension {
  return byPlace(a, b, (x, y) => x - y);
}

/** Dimension of a power; `exponent` may be a fraction (a root). */
export function raiseDimension(a: Dimension, exponent: number): Dimension {
  return byPlace(a, a, (x) => x * exponent);
}

function byPlace(a: Dimension, b: Dimension, combine: (x: number, y: number) => number): Dimension {
  // + 0 turns a negative zero into zero, so that equal dimensions are equal in every sense.
  return [
    combine(a[0], b[0]) + 0,
    combine(a[1], b[1]) + 0,
    combine(a[2], b[2]) + 0,
    combine(a[3], b[3]) + 0,
    combine(a[4], b[4]) + 0,
    combine(a[5], b[5]) + 0,
  ];
}
