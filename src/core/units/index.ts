/**
 * Units: dimensions, the unit table, reading and converting units and quantities, the two unit systems.
 *
 * Nouns: a *dimension* is a vector of exponents of the base quantities (plane angle among them); a *unit* has a
 * name the sheet can read, a dimension, a factor to SI and, for °C and °F standing alone, a zero; a *quantity* is a
 * number with its unit, and its value in SI.
 * Invariants: factors come from exact definitions and are rounded once; `parseUnit(unit.name)` gives the unit again;
 * a cycle and a revolution are the number 1, rad/s is never a frequency; what a reader types wrongly is a `Problem`,
 * and what could be misread is echoed.
 */
export type { Dimension, TypedQuantity, Unit, UnitSystem } from './types.ts';
export {
  ANGLE_DIMENSION,
  CURRENT_DIMENSION,
  DIMENSIONLESS,
  FORCE_DIMENSION,
  FREQUENCY_DIMENSION,
  LENGTH_DIMENSION,
  MASS_DIMENSION,
  MOMENT_DIMENSION,
  STRESS_DIMENSION,
  TEMPERATURE_DIMENSION,
  TIME_DIMENSION,
  divideDimensions,
  multiplyDimensions,
  raiseDimension,
  sameDimension,
} from './dimension.ts';
export { ONE } from './compound.ts';
export { UNIT_NAMES } from './unit-table.ts';
export { QUANTITY_TEXT_LIMIT, parseUnit } from './parse-unit.ts';
export { coherentUnit } from './coherent-unit.ts';
export { counterpart } from './counterpart.ts';
export { fromSI, intervalFromSI, intervalToSI, toSI } from './convert.ts';
export { describeDimension, describeDimensionWithArticle, usualUnits } from './describe-dimension.ts';
export { unitTex } from './unit-tex.ts';
export { numberText, parseNumber, type CommaRule } from './number-text.ts';
export {
  inDimensionOf,
  parseQuantity,
  quantityText,
  readQuantity,
  type Quantity,
} from './quantity-text.ts';
export { alternatives, placedIn, quoted, textTooLong } from './unit-problems.ts';
