import type { Unit } from './types.ts';

/** The value in SI of `value` in `unit`, temperature scales with their zero. */
export function toSI(value: number, unit: Unit): number {
  return value * unit.factor + unit.offset;
}

/** The number of `unit` in the SI value, temperature scales with their zero. */
export function fromSI(value: number, unit: Unit): number {
  return (value - unit.offset) / unit.factor;
}

/** A difference or an uncertainty of `value` in `unit`, in SI: temperature scales without their zero. */
export function intervalToSI(value: number, unit: Unit): number {
  return value * unit.factor;
}

/** A difference or an uncertainty in SI as a number of `unit`: temperature scales without their zero. */
export function intervalFromSI(value: number, unit: Unit): number {
  return value / unit.factor;
}
