import { DIMENSIONLESS, multiplyDimensions, raiseDimension } from './dimension.ts';
import type { Unit } from './types.ts';
import type { UnitDefinition } from './unit-table.ts';

/** One factor of a compound unit, as it is written: `mm^2` below the line is `{ mm, 2, below }`. */
export interface UnitFactor {
  readonly definition: UnitDefinition;
  /** As written, before `below` is taken into account. */
  readonly exponent: number;
  readonly below: boolean;
}

/** The plain number. */
export const ONE: Unit = Object.freeze({ name: '1', dimension: DIMENSIONLESS, factor: 1, offset: 0 });

/**
 * The unit made of these factors. A temperature scale keeps its zero only where it stands alone; in a compound it
 * counts intervals.
 */
export function unitOfFactors(factors: readonly UnitFactor[]): Unit {
  const [only] = factors;
  if (only === undefined) return ONE;
  let dimension = DIMENSIONLESS;
  let above = 1;
  let below = 1;
  for (const factor of factors) {
    let exponent = factor.below ? -factor.exponent : factor.exponent;
    dimension = multiplyDimensions(dimension, raiseDimension(factor.definition.dimension, exponent));
    // Powers of whole numbers are exact: collected above and below the line, 1/1000 as 1000 on the other side, they
    // leave one rounding, that of the division.
    let size = factor.definition.factor;
    if (size < 1 && Number.isInteger(1 / size)) [size, exponent] = [1 / size, -exponent];
    if (exponent > 0) above *= size ** exponent;
    else below *= size ** -exponent;
  }
  const alone = factors.length === 1 && only.exponent === 1 && !only.below;
  return Object.freeze({
    name: nameOfFactors(factors),
    dimension,
    factor: above / below,
    offset: alone ? (only.definition.offset ?? 0) : 0,
  });
}

function nameOfFactors(factors: readonly UnitFactor[]): string {
  const written = (below: boolean): string[] =>
    factors
      .filter((factor) => factor.below === below)
      .map(({ definition, exponent }) => definition.symbol + (exponent === 1 ? '' : `^${exponent}`));
  const above = written(false);
  const below = written(true);
  const top = above.length === 0 ? '1' : above.join('\u00b7');
  if (below.length === 0) return top;
  return `${top}/${below.length === 1 ? below.join('') : `(${below.join('\u00b7')})`}`;
}
