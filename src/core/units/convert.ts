import type { Unit } from './types.ts';

/** The value in SI of `value` in `unit`, temperature scales with their zero. */
export function toSI(value: number, unit: Unit): number {
  return intervalToSI(value, unit) + unit.offset;
}

/** The number of `unit` in the SI value, temperature scales with their zero. */
export function fromSI(value: number, unit: Unit): number {
  return intervalFromSI(value - unit.offset, unit);
}

/**
 * A difference or an uncertainty of `value` in `unit`, in SI: temperature scales without their zero. 6.33 mm is
 * 6.33/1000 m, not 6.33 times the nearest double to 0.001: where the reciprocal is whole, one rounding is enough.
 */
export function intervalToSI(value: number, unit: Unit): number {
  const perUnit = 1 / unit.factor;
  return Number.isInteger(perUnit) ? value / perUnit : value * unit.factor;
}

/** A difference or an uncertainty in SI as a number of `unit`: temperature scales without their zero. */
export function intervalFromSI(value: number, unit: Unit): number {
  const perUnit = 1 / unit.factor;
  return Number.isInteger(perUnit) ? value * perUnit : value / unit.factor;
}
