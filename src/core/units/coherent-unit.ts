import { ONE, unitOfFactors, type UnitFactor } from './compound.ts';
import { FORCE_DIMENSION, divideDimensions, raiseDimension, sameDimension } from './dimension.ts';
import type { Dimension, Unit } from './types.ts';
import { definitionOf } from './unit-words.ts';

/** SI units with a name that are preferred to their make-up, by symbol. A frequency stays 1/s: it may be a rotation. */
const NAMED = ['N', 'Pa', 'V', '\u03a9', 'W'];
/** Base units in the order in which they are customarily written. */
const BASE = [
  { symbol: 'kg', place: 1 },
  { symbol: 'm', place: 0 },
  { symbol: 's', place: 2 },
  { symbol: 'A', place: 3 },
  { symbol: 'K', place: 4 },
  { symbol: 'rad', place: 5 },
] as const;


/**
 * The coherent SI unit (factor 1) of a dimension, for a quantity with no unit stated: `N`, `Pa`, `N·m`, `m^4`, `1/s`.
 * What contains a force is written with the newton (`N/m`, not `kg/s^2`) where that leaves no time over.
 */
export function coherentUnit(dimension: Dimension): Unit {
  const named = NAMED.map(definitionOf).find((definition) => sameDimension(definition.dimension, dimension));
  if (named !== undefined) return unitOfFactors([{ definition: named, exponent: 1, below: false }]);
  const force = dimension[1];
  const withoutForce = divideDimensions(dimension, raiseDimension(FORCE_DIMENSION, force));
  const byForce = force !== 0 && Math.abs(withoutForce[2]) < 1e-9;
  const factors: UnitFactor[] = byForce ? [factorOf('N', force)] : [];
  const left = byForce ? withoutForce : dimension;
  for (const { symbol, place } of BASE) {
    const exponent = left[place];
    if (Math.abs(exponent) > 1e-9) factors.push(factorOf(symbol, exponent));
  }
  return factors.length === 0 ? ONE : unitOfFactors(factors);
}

function factorOf(symbol: string, exponent: number): UnitFactor {
  return { definition: definitionOf(symbol), exponent: Math.abs(exponent), below: exponent < 0 };
}
