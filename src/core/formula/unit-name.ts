import { DIMENSIONLESS, parseUnit, sameDimension, usualUnits } from '../units/index.ts';

/** A unit as it stands in running text: letters with a power. A word that goes on with a digit or _ is a symbol. */
const FACTOR = /(?:[°\p{L}]*\p{L}|°|%)(?![\p{L}\d_])(?:\s*\^\s*(?:[-\u2212]?\d+(?![\d.])|\([-\u2212]?\d+\))|[\u207b\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+)?/uy;
const JOIN = /\s*[*·⋅/]\s*/uy;

/**
 * The unit's name that begins here, for advice on where it belongs: `m/s^2` of `m/s^2 + a`. Only as much of it as makes a usual
 * unit, since `N*d` is more likely a force times a symbol. Undefined where none begins here.
 */
export function unitNameAt(text: string, start: number): string | undefined {
  let longest: string | undefined;
  let place = start;
  for (let first = true; ; first = false) {
    if (!first) {
      const join = matchAt(JOIN, text, place);
      if (join === undefined) return longest;
      place += join.length;
    }
    const factor = matchAt(FACTOR, text, place);
    if (factor === undefined) return longest;
    place += factor.length;
    const name = text.slice(start, place);
    const unit = parseUnit(name);
    if (unit.ok && (sameDimension(unit.value.dimension, DIMENSIONLESS) ? first : usualUnits(unit.value.dimension).length > 0)) longest = name;
  }
}

function matchAt(pattern: RegExp, text: string, start: number): string | undefined {
  pattern.lastIndex = start;
  return pattern.exec(text)?.[0];
}
