import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { ONE } from './compound.ts';
import { toSI } from './convert.ts';
import { numberTooLarge, numberTooSmall, pointRaised } from './number-problems.ts';
import { numberText, restProblem, scanNumber, type CommaRule } from './number-text.ts';
import { readDuration } from './duration-text.ts';
import { QUANTITY_TEXT_LIMIT, readUnit, type UnitReading } from './parse-unit.ts';
import { otherDimension, quantityTwo, uncertaintyNotHere } from './quantity-problems.ts';
import { sameDimension } from './dimension.ts';
import type { TypedQuantity, Unit } from './types.ts';
import { placedIn } from './unit-problems.ts';

/** A quantity as read: in SI, and as typed. */
export interface Quantity {
  /** SI. */
  readonly value: number;
  /** In `unit`. */
  readonly number: number;
  readonly unit: Unit;
  /** How it was read, where it could be misread: `read as 6.35 mm`. */
  readonly echo?: string;
  /** Typed without a unit: `unit` is the blank's own. */
  readonly bare: boolean;
}

/**
 * The quantity that `text` writes in a blank whose own unit is `defaultUnit`: `6.35 mm`, `0.250in`, `1/4 in`; a bare
 * number is read in `defaultUnit`. Another dimension is refused in words.
 *
 * Problems: those of `parseNumber` and `parseUnit`, `unit-dimension`, `unit-mass-for-force`, `quantity-uncertainty`, `quantity-two`, `duration-part`.
 *
 * @example parseQuantity('0.250in', mm) // value 0.00635, number 0.25, unit in, bare false
 */
export function parseQuantity(text: string, defaultUnit: Unit): Result<Quantity> {
  const typed = readQuantity(text, 'ask');
  return typed.ok ? inDimensionOf(typed.value, defaultUnit) : typed;
}

/** Number and unit as typed, or a duration in several units; `comma` says what a single comma means. */
export function readQuantity(text: string, comma: CommaRule): Result<TypedQuantity> {
  const duration = text.length > QUANTITY_TEXT_LIMIT ? undefined : readDuration(text, comma);
  if (duration !== undefined) return duration;
  const scanned = scanNumber(text, comma);
  if (!scanned.ok) return scanned;
  const { value, end, typed, reinterpreted, lastPlace } = scanned.value;
  const rest = text.slice(end);
  const unitSpan = { start: end + (rest.length - rest.trimStart().length), end: end + rest.trimEnd().length };
  const quantity = { number: value, typedNumber: typed, lastPlace, text, unitSpan };
  if (rest.trim() === '') return ok({ ...quantity, unit: undefined, reinterpreted, unitSpan: { start: end, end } });
  const reading = readUnitAfterNumber(typed, rest, end);
  if (!reading.ok) return fail(placedIn(reading.problem, text, reading.problem.text === rest ? end : 0));
  return ok({ ...quantity, unit: reading.value.unit, reinterpreted: reinterpreted || reading.value.reinterpreted });
}

function readUnitAfterNumber(typed: string, rest: string, offset: number): Result<UnitReading> {
  const uncertainty = /(?:\u00b1|\+\s*\/?\s*-)/u.exec(rest);
  if (uncertainty !== null) {
    return fail(uncertaintyNotHere({ start: offset + uncertainty.index, end: offset + rest.length }));
  }
  const raised = /^\u00b7(\d+)/u.exec(rest)?.[1];
  if (raised !== undefined) return fail(pointRaised(typed.trim(), raised, { start: 0, end: offset + 1 + raised.length }));
  // `1500 1/min` is a unit after a number; any other digit is a second number.
  if (/^[\s,;]*[+\-\u2212]?[.,]?\d/u.test(rest) && !/^\s*1\s*\//u.test(rest)) return fail(restProblem(typed, rest, offset));
  const second = /^\s*(\p{L}+)\s+(\d[\d.,]*\s*\p{L}+)\s*$/u.exec(rest);
  if (second?.[1] !== undefined && second[2] !== undefined) {
    const start = offset + rest.lastIndexOf(second[2]);
    return fail(quantityTwo(`${typed} ${second[1]}`, second[2], { start, end: start + second[2].length }));
  }
  return readUnit(rest);
}

/** The typed quantity as one of the dimension of `defaultUnit`, in SI; refused in words where it has another. */
export function inDimensionOf(typed: TypedQuantity, defaultUnit: Unit): Result<Quantity> {
  const { number, reinterpreted, text, unitSpan } = typed;
  const unit = typed.unit ?? defaultUnit;
  if (!sameDimension(unit.dimension, defaultUnit.dimension)) {
    return fail({ ...otherDimension(typed.typedNumber, unit, defaultUnit), text, span: unitSpan });
  }
  const value = toSI(number, unit);
  const whole = { start: 0, end: text.length };
  if (!Number.isFinite(value)) return refused(numberTooLarge(text, whole), text);
  if (value === 0 && number !== 0 && unit.offset === 0) return refused(numberTooSmall(text, whole), text);
  const quantity = { value, number, unit, bare: typed.unit === undefined };
  return ok(reinterpreted ? { ...quantity, echo: `read as ${quantityText(number, unit)}` } : quantity);
}

function refused(problem: Problem, text: string): Result<never> {
  return fail({ ...problem, text });
}

/** Number and unit as echoes show them: `6.35 mm`, `0.9` for a plain number. */
export function quantityText(number: number, unit: Unit): string {
  return unit.name === ONE.name ? numberText(number) : `${numberText(number)} ${unit.name}`;
}
