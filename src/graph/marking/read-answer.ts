import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { DIMENSIONLESS, inDimensionOf, intervalToSI, parseUnit, readQuantity, sameDimension, type Quantity } from '../../core/units/index.ts';
import type { Unit } from '../../core/units/types.ts';
import type { StepCell } from '../../sheet/types.ts';
import type { AskedStates } from '../types.ts';

/** Unit a step's own result is read in when none is typed: its state's, else the one it states. */
export function unitOfStep(step: StepCell, states: AskedStates): Unit | undefined {
  const known = states.symbol(step.symbol)?.unit;
  if (known !== undefined) return known;
  const parsed = step.unit === undefined ? undefined : parseUnit(step.unit);
  return parsed?.ok === true ? parsed.value : undefined;
}

/** What somebody typed as their own result. */
export interface ReadAnswer {
  readonly quantity: Quantity;
  /** Half a unit of the last place shown, SI: 0.05 N for `31.2 N`, 500 N for `31.2e4 N`; 0 for a fraction. */
  readonly halfLastPlace: number;
  /** The same where zeros at the end of a whole number, as of `3180`, may stand for digits that were rounded. */
  readonly halfLastDigit: number;
}

/** @param isUnitRequired whether a bare number is refused */
export function readAnswer(typed: string, unit: Unit, isUnitRequired: boolean): Result<ReadAnswer> {
  const read = readQuantity(typed, 'ask');
  if (!read.ok) return read;
  if (isUnitRequired && read.value.unit === undefined && !sameDimension(unit.dimension, DIMENSIONLESS)) return fail(unitMissing(typed));
  const quantity = inDimensionOf(read.value, unit);
  if (!quantity.ok) return quantity;
  const halfLastPlace = intervalToSI(read.value.lastPlace / 2, quantity.value.unit);
  const zeros = /^[^.,eE]*?[1-9](0+)$/.exec(read.value.typedNumber)?.[1]?.length ?? 0;
  return ok({ quantity: quantity.value, halfLastPlace, halfLastDigit: halfLastPlace * 10 ** zeros });
}

function unitMissing(typed: string): Problem {
  return { code: 'answer-without-unit', what: `“${typed}” has no unit, and this sheet asks for one.`, mend: 'Write the unit behind the number. It counts as no try.' };
}
