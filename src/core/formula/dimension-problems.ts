/** The sentences for formulas whose kinds of quantity don't fit together, built from the parts and their dimensions. */
import { fail, nearNames } from '../problem/index.ts';
import {
  ANGLE_DIMENSION, DIMENSIONLESS, FREQUENCY_DIMENSION, coherentUnit, parseUnit, describeDimension, describeDimensionWithArticle,
  sameDimension, usualUnits, type Dimension,
} from '../units/index.ts';
import type { Expression } from './types.ts';
import { power, quotient } from './build.ts';
import { printFormula } from './print.ts';

/** A part of a formula and what kind of quantity it is. */
export interface Part {
  readonly expression: Expression;
  readonly dimension: Dimension;
}

function shown(e: Expression): string {
  const text = printFormula(e);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** The part with its kind of quantity in brackets, and no brackets inside those. */
function withKind({ expression, dimension }: Part): string {
  return `${shown(expression)} (${describeDimension(dimension).replace(' (', ', ').replace(')', '')})`;
}

/** The name of a unit that a reader would write for the dimension; an angle's number is its radians. */
function unitName(dimension: Dimension): string {
  if (sameDimension(dimension, ANGLE_DIMENSION)) return 'rad';
  return usualUnits(dimension)[0] ?? coherentUnit(dimension).name;
}

/** The part divided by a unit of its kind, as the reader would write it. */
function overUnit({ expression, dimension }: Part): Expression {
  const unit = { ...coherentUnit(dimension), name: unitName(dimension) };
  return quotient(expression, { kind: 'unit', unit, span: expression.span });
}

export function unknownName(e: Expression, name: string, known: readonly string[]) {
  return fail({
    code: 'unknown-name',
    what: `Nothing in the sheet is called ${name}.`,
    mend: unknownNameMend(name, known),
    span: e.span,
  });
}

/** What to do about a name that nobody defines: a unit is written in unit( ). */
export function unknownNameMend(name: string, known: readonly string[]): string {
  const near = nearNames(name, known);
  const unit = parseUnit(name).ok ? `For the unit write unit(${name}). ` : '';
  const meant = near.length > 0 ? `Did you mean ${near.join(' or ')}? ` : '';
  return `${unit}${meant}${unit + meant === '' ? 'Add' : 'Else add'} a given or a step for ${name}, or look at the spelling.`;
}

/** Where two parts meet that must be of one kind. */
export type Meeting = '+' | '-' | 'comparison' | 'min' | 'max' | 'mean' | 'if';

function clashSentence(meeting: Meeting, first: Part, second: Part): string {
  switch (meeting) {
    case '+':
      return `Can't add ${withKind(second)} to ${withKind(first)}.`;
    case '-':
      return `Can't subtract ${withKind(second)} from ${withKind(first)}.`;
    case 'comparison':
      return `Can't compare ${withKind(first)} with ${withKind(second)}.`;
    case 'mean':
      return `Can't take the mean of ${withKind(first)} and ${withKind(second)}.`;
    case 'if':
      return `The two branches of if( ) are of different kinds: ${withKind(first)} and ${withKind(second)}.`;
    default:
      return `Can't compare ${withKind(first)} with ${withKind(second)} in ${meeting}( ).`;
  }
}

/** Two parts that must be of one kind and are not. */
export function clash(where: Expression, meeting: Meeting, first: Part, second: Part) {
  return fail({ code: 'dimension-clash', what: clashSentence(meeting, first, second), mend: clashMend(first, second), span: where.span });
}

function clashMend(first: Part, second: Part): string {
  const angular = angleMend(first, second);
  if (angular !== undefined) return angular;
  const [bare, other] = sameDimension(first.dimension, DIMENSIONLESS) ? [first, second] : [second, first];
  if (!sameDimension(bare.dimension, DIMENSIONLESS)) {
    return `Check the formula, or the unit of ${shown(second.expression)}.`;
  }
  return bare.expression.kind === 'number'
    ? `Give ${shown(bare.expression)} a unit, for example ${shown(bare.expression)}*unit(${unitName(other.dimension)}).`
    : `Divide by a unit where its number is meant: ${shown(overUnit(other))}.`;
}

/** A turn is the number 1 and 2 pi radians at once, so that an angle is never silently a number. */
function angleMend(first: Part, second: Part): string | undefined {
  const withoutAngle = ([a, b, c, d, e]: Dimension): Dimension => [a, b, c, d, e, 0];
  if (!sameDimension(withoutAngle(first.dimension), withoutAngle(second.dimension))) return undefined;
  const angular = Math.abs(first.dimension[5]) > Math.abs(second.dimension[5]) ? first : second;
  const name = shown(angular.expression);
  return sameDimension(withoutAngle(angular.dimension), FREQUENCY_DIMENSION)
    ? `An angular velocity (rad/s) is not a frequency (1/s): divide ${name} by 2*pi*unit(rad) to get revolutions per time.`
    : `Where the number of radians is meant, divide by it: ${shown(overUnit({ ...angular, dimension: ANGLE_DIMENSION }))}.`;
}

/** A function of a plain number got a quantity with a unit. */
export function plainNumberNeeded(call: Expression, name: string, argument: Part, alsoAngle: boolean) {
  const wanted = alsoAngle ? 'an angle or a number without unit' : 'a number without unit';
  return fail({
    code: 'dimension-argument',
    what: `${name} needs ${wanted}, and ${shown(argument.expression)} is ${describeDimensionWithArticle(argument.dimension)}.`,
    mend: `Divide by unit(${unitName(argument.dimension)}) first: ${name}(${shown(overUnit(argument))}).`,
    span: call.span,
  });
}

export function exponentWithUnit(exponent: Part) {
  return fail({
    code: 'dimension-exponent',
    what: `An exponent is a number without unit, and ${withKind(exponent)} stands in its place.`,
    mend: `Divide it by a unit first: (${shown(overUnit(exponent))}).`,
    span: exponent.expression.span,
  });
}

/** What kind of quantity `S^b` is depends on the value of b; it must be known when the formula is read. */
export function exponentNotConstant(base: Part, exponent: Expression) {
  return fail({
    code: 'exponent-not-constant',
    what: `${withKind(base)} has a unit, so its exponent must be a number such as 4 or 1/2, and ${shown(exponent)} is none.`,
    mend: `Divide the base by a unit first: ${shown(power(overUnit(base), exponent))}.`,
    span: exponent.span,
  });
}
