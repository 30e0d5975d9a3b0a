import { fail, invisibleSign, ok, type Problem, type Result, type Span } from '../problem/index.ts';
import {
  inDimensionOf,
  numberText,
  intervalToSI,
  parseQuantity,
  placedIn,
  quantityText,
  readQuantity,
  sameDimension,
  textTooLong,
  DIMENSIONLESS,
  QUANTITY_TEXT_LIMIT,
  type Quantity,
  type TypedQuantity,
  type Unit,
} from '../units/index.ts';
import { LIMIT_WORDS, readLimitWords } from './limit-words.ts';
import * as problems from './measurement-problems.ts';
import { PLUS_MINUS, READINGS_TEXT_LIMIT, readReadings, trimmedSpan } from './readings-text.ts';
import type { Distribution } from './types.ts';

/** What was typed in the blank of a measured quantity. */
export interface Measurement {
  /** SI; one entry for a single value. */
  readonly readings: readonly number[];
  /** The unit it was measured in. */
  readonly unit: Unit;
  readonly stated?: StatedUncertainty;
  /** How it was read, where it could be misread; one sentence each. */
  readonly echoes: readonly string[];
}

interface StatedUncertainty {
  readonly kind: 'standard uncertainty' | 'limit';
  /** Standard uncertainty, or half-width between the limits; SI, >= 0, a temperature as an interval. */
  readonly value: number;
  /** `normal` for a standard uncertainty. */
  readonly distribution: Distribution;
}

/** A coverage factor beside an expanded uncertainty: `k = 2`. */
const COVERAGE = /[\s,(]+k\s*=\s*(\d+(?:\.\d+)?)/u;
/** As some write it in tables: `7.52 [mm]`. */
const UNIT_IN_BRACKETS = /^([^[\];]*\d\s*)\[([^[\];\d,]+)\]\s*$/u;
/** Number, digits in brackets, the rest: 6.31(2) mm. */
const CONCISE = /^(\s*[+\-\u2212]?[\d.,\u0020\u00a0\u2007\u2009\u202f]*[\d.])(\s*\(\s*)([\d.,]+)(\s*\))(.*)$/su;

/**
 * What a reader typed for a measured quantity: one value, one value with its uncertainty, or readings in square
 * brackets. `x ± u` states the standard uncertainty; with the word `limit`, the half-width between limits,
 * rectangular unless a distribution is named. `±` may be `+-` or `+/-`; the uncertainty may be in another unit of the
 * same dimension or in % of the value. Digits in brackets count in the last places of the value.
 *
 * Problems: those of `parseQuantity` and `parseReadings`, and `uncertainty-negative`, `uncertainty-twice`,
 * `uncertainty-percent-unclear`, `-percent-of-zero`, `-percent-of-temperature`, `limit-without-value`,
 * `limit-word-missing`, `limit-distribution-unknown`.
 *
 * @source JCGM 100:2008, 7.2.2 (forms of stating a standard uncertainty; from memory).
 * @example parseMeasurement('6.31 ± 0.02 mm', mm) // readings [0.00631], stated standard uncertainty 2e-5
 */
export function parseMeasurement(text: string, defaultUnit: Unit): Result<Measurement> {
  // Before anything is looked for: a sign among the words of a limit would hide them.
  const unseen = invisibleSign(text);
  if (unseen !== undefined) return fail(unseen);
  const unitInBrackets = UNIT_IN_BRACKETS.exec(text);
  if (unitInBrackets !== null) return parseMeasurement(`${unitInBrackets[1] ?? ''} ${unitInBrackets[2] ?? ''} `, defaultUnit);
  if (/[[\];]/u.test(text)) return parseReadings(text, defaultUnit);
  const limitOfText = text.includes(',') ? READINGS_TEXT_LIMIT : QUANTITY_TEXT_LIMIT;
  if (text.length > limitOfText) return fail({ ...textTooLong(text.length, limitOfText), text });
  if (PLUS_MINUS.test(text)) return parseStated(text, defaultUnit);
  const concise = CONCISE.exec(text);
  if (concise !== null) return parseConcise(concise, text, defaultUnit);
  const limit = LIMIT_WORDS.exec(text);
  if (limit !== null) return fail({ ...problems.limitWithoutValue(trimmedSpan(text, limit.index, text.length)), text });
  if (/,\s/u.test(text)) return unbracketedList(text, defaultUnit);
  const quantity = parseQuantity(text, defaultUnit);
  if (quantity.ok) {
    const { value, unit, echo } = quantity.value;
    return ok({ readings: [value], unit, echoes: echo === undefined ? [] : [echo] });
  }
  return quantity.problem.code === 'number-separators' ? unbracketedList(text, defaultUnit) : quantity;
}

/**
 * Repeated readings, with or without square brackets: `101.2, 101.4 mm`, `6,35; 6,36 mm`. See `readReadings` for the
 * rules and the problems.
 */
export function parseReadings(text: string, defaultUnit: Unit): Result<Measurement> {
  const readings = readReadings(text, defaultUnit);
  if (!readings.ok) return readings;
  const { values, unit, echo, reinterpreted } = readings.value;
  return ok({ readings: values, unit, echoes: reinterpreted ? [echo] : [] });
}

/** A list where a single value was possible too: how it was read is always shown. */
function unbracketedList(text: string, defaultUnit: Unit): Result<Measurement> {
  const readings = readReadings(text, defaultUnit);
  if (!readings.ok) return readings;
  return ok({ readings: readings.value.values, unit: readings.value.unit, echoes: [readings.value.echo] });
}

/** `value ± uncertainty [limit [distribution]]`. */
function parseStated(text: string, defaultUnit: Unit): Result<Measurement> {
  const stop = (problem: Problem): Result<never> => fail({ ...problem, text });
  const sign = PLUS_MINUS.exec(text);
  const signStart = sign?.index ?? 0;
  const rightStart = signStart + (sign?.[0].length ?? 0);
  const right = text.slice(rightStart);
  const again = PLUS_MINUS.exec(right);
  if (again !== null) return stop(problems.uncertaintyTwice({ start: rightStart + again.index, end: text.length }));

  if (text.slice(0, signStart).trim() === '') return stop(problems.valueMissing({ start: signStart, end: rightStart }));
  const coverage = COVERAGE.exec(right);
  if (coverage?.[1] !== undefined) {
    return stop(problems.uncertaintyExpanded(coverage[1], trimmedSpan(text, rightStart + coverage.index, text.length)));
  }
  const words = readLimitWords(right, rightStart);
  if ('code' in words) return stop(words);
  if (!/^\s*[+\-\u2212]?\s*[.,]?[\p{N}]/u.test(words.figure)) {
    return stop(problems.uncertaintyMissing(trimmedSpan(text, signStart, text.length)));
  }
  const value = readQuantity(text.slice(0, signStart), 'ask');
  if (!value.ok) return fail(placedIn(value.problem, text, 0));
  const uncertainty = readQuantity(words.figure, 'ask');
  if (!uncertainty.ok) return fail(placedIn(uncertainty.problem, text, rightStart));
  const span = trimmedSpan(text, rightStart, rightStart + words.figure.length);
  if (uncertainty.value.number < 0) return stop(problems.uncertaintyNegative(uncertainty.value.typedNumber, span));

  const pair = isShare(uncertainty.value.unit)
    ? relativePair(value.value, uncertainty.value, defaultUnit, span)
    : absolutePair(value.value, uncertainty.value, defaultUnit, rightStart);
  if (!pair.ok) return stop(pair.problem);
  return ok(stated(pair.value, words.distribution));
}

/** The value, and the uncertainty as an interval in `unit`. */
interface Pair {
  readonly quantity: Quantity;
  readonly uncertainty: number;
  readonly unit: Unit;
}

/** Units that can mean a share of the value. */
function isShare(unit: Unit | undefined): unit is Unit {
  return unit?.name === '%' || unit?.name === 'ppm';
}

/** An uncertainty with a unit of the value's dimension, or none: then the value's unit holds for both. */
function absolutePair(
  value: TypedQuantity,
  uncertainty: TypedQuantity,
  defaultUnit: Unit,
  rightStart: number,
): Result<Pair> {
  const figure = inDimensionOf({ ...uncertainty, unit: uncertainty.unit ?? value.unit }, defaultUnit);
  // A value without a unit takes the one written once, after the uncertainty.
  const quantity = inDimensionOf({ ...value, unit: value.unit ?? uncertainty.unit }, defaultUnit);
  if (!quantity.ok && value.unit !== undefined) return quantity;
  if (!figure.ok) return fail(placedIn(figure.problem, '', rightStart));
  if (!quantity.ok) return quantity;
  if (value.unit === undefined && unitUnclear(quantity.value, figure.value, defaultUnit)) {
    const span = trimmedSpan(value.text, 0, value.text.length);
    const { number, unit } = quantity.value;
    return fail(problems.uncertaintyUnitUnclear(quantityText(number, unit), quantityText(number, defaultUnit), span));
  }
  return ok({ quantity: quantity.value, uncertainty: figure.value.number, unit: figure.value.unit });
}

/**
 * Whether a unit written once, after the uncertainty, may belong to the uncertainty alone: `6.31 ± 20 µm` in a
 * blank that takes mm. So where it is a decimal part of the blank's unit, or the uncertainty would exceed the value.
 */
function unitUnclear(quantity: Quantity, figure: Quantity, defaultUnit: Unit): boolean {
  if (figure.unit.name === defaultUnit.name) return false;
  const decades = Math.log10(defaultUnit.factor / figure.unit.factor);
  const decimalPart = decades > 0.5 && Math.abs(decades - Math.round(decades)) < 1e-9;
  return decimalPart || Math.abs(figure.number) > Math.abs(quantity.number);
}

/** An uncertainty in % or ppm: a share of the value, unless the value itself is in that unit. */
function relativePair(value: TypedQuantity, share: TypedQuantity, defaultUnit: Unit, span: Span): Result<Pair> {
  const quantity = inDimensionOf(value, defaultUnit);
  if (!quantity.ok) return quantity;
  const { number, unit } = quantity.value;
  const shareUnit = share.unit ?? defaultUnit;
  if (unit.name === shareUnit.name) return ok({ quantity: quantity.value, uncertainty: share.number, unit });
  const percent = quantityText(share.number, shareUnit);
  const unclear = sameDimension(unit.dimension, DIMENSIONLESS) && (value.unit === undefined || isShare(unit));
  if (unclear) {
    const size = share.number * shareUnit.factor;
    const readings = { ofValue: rounded(size * Math.abs(number)), itself: rounded(size / unit.factor) };
    return fail(problems.uncertaintyPercentUnclear(percent, quantityText(number, unit), readings, span));
  }
  if (unit.offset !== 0) return fail(problems.uncertaintyPercentOfTemperature(percent, unit.name, span));
  if (number === 0) return fail(problems.uncertaintyPercentOfZero(percent, unit.name, span));
  return ok({ quantity: quantity.value, uncertainty: share.number * shareUnit.factor * Math.abs(number), unit });
}

/** Digits in brackets: in the last places of the value, or with a point of their own. */
function parseConcise(match: RegExpExecArray, text: string, defaultUnit: Unit): Result<Measurement> {
  const [, number = '', open = '', digits = '', close = '', rest = ''] = match;
  const typed = readQuantity(number + rest, 'ask');
  // The value was read without its bracket: a span behind the bracket moves back to where it stands in the text.
  const moved = (problem: Problem): Result<never> => {
    const shift = open.length + digits.length + close.length;
    const behind = (place: number): number => (place > number.length ? place + shift : place);
    const { start = 0, end = text.length } = problem.span ?? {};
    return fail({ ...problem, text, span: { start: behind(start), end: behind(end) } });
  };
  if (!typed.ok) return moved(typed.problem);
  const quantity = inDimensionOf(typed.value, defaultUnit);
  if (!quantity.ok) return moved(quantity.problem);
  if (/[.,]/u.test(digits)) {
    const uncertainty = readQuantity(digits + rest, 'ask');
    if (!uncertainty.ok) return fail(placedIn(uncertainty.problem, text, number.length + open.length));
    return ok(stated({ quantity: quantity.value, uncertainty: uncertainty.value.number, unit: quantity.value.unit }));
  }
  // Written with the power of ten, so that 2 in the second place is 0.02 and not a rounded product.
  const uncertainty = Number(`${digits}e${Math.round(Math.log10(typed.value.lastPlace))}`);
  return ok(stated({ quantity: quantity.value, uncertainty, unit: quantity.value.unit }));
}

/** The measurement with its stated uncertainty; what was understood by ± is always shown. */
function stated(pair: Pair, limitDistribution?: Distribution): Measurement {
  const { quantity, unit } = pair;
  const figure = quantityText(Number(pair.uncertainty.toPrecision(12)), unit);
  const value = intervalToSI(pair.uncertainty, unit);
  const read = `read as ${quantityText(quantity.number, quantity.unit)}`;
  return {
    readings: [quantity.value],
    unit: quantity.unit,
    stated:
      limitDistribution === undefined
        ? { kind: 'standard uncertainty', value, distribution: 'normal' }
        : { kind: 'limit', value, distribution: limitDistribution },
    echoes: [
      limitDistribution === undefined
        ? `${read} with standard uncertainty ${figure}`
        : `${read} with limits \u00b1${figure}, ${limitDistribution}`,
    ],
  };
}

/** Twelve digits: what a product leaves behind is not shown. */
function rounded(value: number): string {
  return numberText(Number(value.toPrecision(12)));
}
