import type { Problem, Span } from '../problem/index.ts';
import { unitOfFactors } from './compound.ts';
import { unitFactors } from './counterpart.ts';
import { describeDimension, describeDimensionWithArticle, usualUnits } from './describe-dimension.ts';
import { ANGLE_DIMENSION, FREQUENCY_DIMENSION, divideDimensions, sameDimension } from './dimension.ts';
import type { Unit } from './types.ts';
import { alternatives } from './unit-problems.ts';
import { definitionOf } from './unit-words.ts';

/** Sentences about quantities in the wrong dimension, built last, from data; tests pin them. */

/** Each mass unit with the unit of force that is the standard weight of that mass. */
const WEIGHT_OF = new Map([
  ['kg', 'kgf'],
  ['g', 'gf'],
  ['lb', 'lbf'],
]);

export function uncertaintyNotHere(span: Span): Problem {
  return {
    code: 'quantity-uncertainty',
    what: 'An uncertainty can\u2019t stand here.',
    mend: 'Write one value with its unit.',
    span,
  };
}

export function quantityTwo(first: string, second: string, span: Span): Problem {
  return {
    code: 'quantity-two',
    what: `Two quantities stand here: ${first} and ${second}.`,
    mend: 'Write one number with one unit, such as 1.5 h or 6.35 mm.',
    span,
  };
}

/** @param before unit of the part before it, where it is too large for a part behind that */
export function durationPart(shown: string, before: string | undefined, span: Span): Problem {
  return {
    code: 'duration-part',
    what: before === undefined ? `“${shown}” is no whole number, and smaller units follow.` : `“${shown}” can’t stand behind ${before}: it is no part of one, or smaller units follow a fraction.`,
    mend: 'Write whole numbers, each below one of the unit before it: 2 h 13 min 5 s.',
    span,
  };
}

/** What to say of a quantity in `unit` where one of the dimension of `wanted` is taken. */
export function otherDimension(typedNumber: string, unit: Unit, wanted: Unit): Problem {
  return (
    massForForce(typedNumber, unit, wanted) ?? {
      code: 'unit-dimension',
      what:
        `${typedNumber} ${unit.name} is ${describeDimensionWithArticle(unit.dimension)}; ` +
        `this blank takes ${describeDimensionWithArticle(wanted.dimension)}.`,
      mend: howToMend(unit, wanted),
    }
  );
}

function howToMend(unit: Unit, wanted: Unit): string {
  const anglePerTime = sameDimension(divideDimensions(unit.dimension, ANGLE_DIMENSION), FREQUENCY_DIMENSION);
  if (anglePerTime && sameDimension(wanted.dimension, FREQUENCY_DIMENSION)) {
    return 'One revolution is 2\u03c0 rad: divide by 2\u03c0 and write rev/s, or write rev/min or Hz.';
  }
  if (wanted.name === '1') return 'Write the number without a unit.';
  const usual = usualUnits(wanted.dimension);
  return `Write a unit such as ${alternatives(usual.length > 0 ? usual : [wanted.name])}.`;
}

/** A mass unit typed where its weight is meant: kg for a force, kg/mm^2 for a stress, lb/in^2 for a pressure. */
function massForForce(typedNumber: string, unit: Unit, wanted: Unit): Problem | undefined {
  const factors = unitFactors(unit.name);
  const mass = factors.find((factor) => WEIGHT_OF.has(factor.definition.symbol))?.definition.symbol;
  const weight = WEIGHT_OF.get(mass ?? '');
  if (mass === undefined || weight === undefined) return undefined;
  const meant = unitOfFactors(
    factors.map((factor) =>
      factor.definition.symbol === mass ? { ...factor, definition: definitionOf(weight) } : factor,
    ),
  );
  if (!sameDimension(meant.dimension, wanted.dimension)) return undefined;
  const kind = describeDimensionWithArticle(wanted.dimension);
  const newtons = usualUnits(wanted.dimension)[0] ?? wanted.name;
  return {
    code: 'unit-mass-for-force',
    what: `${mass} is a mass, not a force; this blank takes ${kind}.`,
    mend:
      `Write ${typedNumber} ${meant.name} if that mass is the weight put on, ` +
      `or the ${describeDimension(wanted.dimension)} in ${newtons}.`,
  };
}
