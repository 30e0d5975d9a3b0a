import { fail, invisibleSign, ok, type Problem, type Result, type Span } from '../problem/index.ts';
import {
  inDimensionOf,
  numberText,
  parseUnit,
  placedIn,
  quantityText,
  readQuantity,
  textTooLong,
  type CommaRule,
  type Quantity,
  type TypedQuantity,
  type Unit,
} from '../units/index.ts';
import * as problems from './measurement-problems.ts';

/** Longest list of readings that is looked at, in characters. */
export const READINGS_TEXT_LIMIT = 2000;

export const PLUS_MINUS = /\u00b1|\+\s*\/\s*[-\u2212]|\+\s?[-\u2212]/u;

/** Repeated readings of one quantity as typed. */
interface Readings {
  /** SI, in the order typed, at least one. */
  readonly values: readonly number[];
  /** Unit of the first reading. */
  readonly unit: Unit;
  /** How the list was read: `read as 2 readings: 6.35, 6.36 mm`. */
  readonly echo: string;
  /** Whether the list could be misread, so that the echo should be shown. */
  readonly reinterpreted: boolean;
}

/** One reading's text and where it begins in the whole. */
interface Piece {
  readonly text: string;
  readonly start: number;
}

/**
 * Readings as typed, with or without square brackets: `101.2, 101.4 mm`, `[6.31, 6.33] mm`, `6,35; 6,36 mm`.
 * With `;` present every comma is a decimal mark; without, a comma separates where a blank follows it or where the
 * numbers have points; a list that could be read in two ways is asked about.
 *
 * Problems: those of `parseQuantity`, `readings-empty`, `readings-gap`, `readings-comma`, `readings-separator`,
 * `readings-bracket`, `readings-unit-missing`, `readings-unit-twice`, `readings-uncertainty`.
 */
export function readReadings(text: string, defaultUnit: Unit): Result<Readings> {
  const stop = (problem: Problem): Result<never> => fail({ ...problem, text });
  const whole: Span = { start: 0, end: text.length };
  if (text.length > READINGS_TEXT_LIMIT) return stop(textTooLong(text.length, READINGS_TEXT_LIMIT));
  const unseen = invisibleSign(text);
  if (unseen !== undefined) return fail(unseen);
  const plusMinus = PLUS_MINUS.exec(text);
  if (plusMinus !== null) return stop(problems.readingsUncertainty(trimmedSpan(text, plusMinus.index, text.length)));
  if (!/[[\]]/u.test(text)) return readList(text, { text, start: 0 }, undefined, defaultUnit);
  const brackets = /^(\s*\[)([^[\]]*)\]([^[\]]*)$/u.exec(text);
  if (brackets === null) return stop(problems.readingsBracket(whole));
  const [, open = '', inner = '', unitText = ''] = brackets;
  const unitStart = open.length + inner.length + 1;
  const unit = unitText.trim() === '' ? undefined : parseUnit(unitText);
  if (unit !== undefined && !unit.ok) return fail(placedIn(unit.problem, text, unitStart));
  const after =
    unit === undefined
      ? undefined
      : { unit: unit.value, span: trimmedSpan(text, unitStart, text.length) };
  return readList(text, { text: inner, start: open.length }, { after }, defaultUnit);
}

interface Brackets {
  /** Unit after the closing bracket. */
  readonly after: { readonly unit: Unit; readonly span: Span } | undefined;
}

function readList(text: string, list: Piece, brackets: Brackets | undefined, defaultUnit: Unit): Result<Readings> {
  const whole: Span = { start: 0, end: text.length };
  if (list.text.trim() === '') return fail({ ...problems.readingsEmpty(whole), text });
  const semicolons = list.text.includes(';');
  const pieces = semicolons ? split(list, /;/gu) : splitAtCommas(list, brackets !== undefined);
  if (pieces === undefined) {
    const span = trimmedSpan(text, list.start, list.start + list.text.length);
    return fail({ ...problems.readingsComma(list.text, span), text });
  }
  const typed: TypedQuantity[] = [];
  for (const [place, piece] of pieces.entries()) {
    const reading = readPiece(piece, place, text, semicolons ? 'decimal' : 'ask');
    if (!reading.ok) return reading;
    typed.push(reading.value);
  }
  return withUnits(typed, pieces, text, brackets?.after, defaultUnit);
}

/** The list cut at its commas, or undefined where that can be done in two ways. */
function splitAtCommas(list: Piece, bracketed: boolean): readonly Piece[] | undefined {
  const { text } = list;
  if (!text.includes(',')) return [list];
  if (/,(?:\s|$)/u.test(text)) return split(list, /,(?=\s|$)/gu).flatMap(splitTight);
  if (/\d\.|\.\d/u.test(text)) return splitTight(list);
  const commas = text.split(',').length - 1;
  return bracketed || commas > 1 ? undefined : [list];
}

/** A piece whose commas have no blank after them: one number if it can be one, else cut where there are points. */
function splitTight(piece: Piece): readonly Piece[] {
  const gap = /^\s*,|,\s*$/u.test(piece.text);
  const several = /,/u.test(piece.text) && /\d\.|\.\d/u.test(piece.text) && !readQuantity(piece.text, 'ask').ok;
  return gap || several ? split(piece, /,/gu) : [piece];
}

function split(list: Piece, separator: RegExp): Piece[] {
  const pieces: Piece[] = [];
  let start = 0;
  for (const match of list.text.matchAll(separator)) {
    pieces.push({ text: list.text.slice(start, match.index), start: list.start + start });
    start = match.index + match[0].length;
  }
  return [...pieces, { text: list.text.slice(start), start: list.start + start }];
}

function readPiece(piece: Piece, place: number, text: string, comma: CommaRule): Result<TypedQuantity> {
  const end = piece.start + piece.text.length;
  if (piece.text.trim() === '') return fail({ ...problems.readingsGap(place + 1, { start: piece.start, end }), text });
  const typed = readQuantity(piece.text, comma);
  if (typed.ok) return typed;
  const problem = placedIn(typed.problem, text, piece.start);
  if (problem.code !== 'number-two') return fail(problem);
  const first = piece.text.trim().split(/\s/u)[0] ?? '';
  return fail({ ...problems.readingsSeparator(first, problem.span ?? { start: piece.start, end }), text });
}

/** Gives each reading its unit: its own, or the one written once at the end. */
function withUnits(
  typed: readonly TypedQuantity[],
  pieces: readonly Piece[],
  text: string,
  after: Brackets['after'],
  defaultUnit: Unit,
): Result<Readings> {
  const last = typed[typed.length - 1];
  const own = typed.filter((reading) => reading.unit !== undefined);
  const [firstOwn] = own;
  if (after !== undefined && firstOwn !== undefined) return fail({ ...problems.readingsUnitTwice(after.span), text });
  const onlyAtEnd = own.length === 1 && firstOwn === last;
  const bare = typed.findIndex((reading) => reading.unit === undefined);
  if (firstOwn?.unit !== undefined && bare >= 0 && !onlyAtEnd) {
    const start = pieces[bare]?.start ?? 0;
    const span = trimmedSpan(text, start, start + (pieces[bare]?.text.length ?? 0));
    const bareNumber = typed[bare]?.typedNumber.trim() ?? '';
    const problem = problems.readingsUnitMissing(bareNumber, `${firstOwn.typedNumber} ${firstOwn.unit.name}`, span);
    return fail({ ...problem, text });
  }
  const shared = after?.unit ?? (onlyAtEnd ? last?.unit : undefined);
  const sharedSpan = after?.span ?? placedSpan(last?.unitSpan, pieces[pieces.length - 1]?.start);
  const readings: Quantity[] = [];
  for (const [place, reading] of typed.entries()) {
    const quantity = inDimensionOf(shared === undefined ? reading : { ...reading, unit: shared }, defaultUnit);
    if (!quantity.ok) {
      const problem = placedIn(quantity.problem, text, pieces[place]?.start ?? 0);
      return fail(shared === undefined ? problem : { ...problem, span: sharedSpan });
    }
    readings.push(quantity.value);
  }
  return ok(asReadings(readings, typed, defaultUnit));
}

/** The part of `text` from `start` to `end` without the blanks at its ends. */
export function trimmedSpan(text: string, start: number, end: number): Span {
  const part = text.slice(start, end);
  const first = part.search(/\S/u);
  return first < 0 ? { start, end } : { start: start + first, end: start + part.trimEnd().length };
}

function placedSpan(span: Span = { start: 0, end: 0 }, offset = 0): Span {
  return { start: span.start + offset, end: span.end + offset };
}

function asReadings(readings: readonly Quantity[], typed: readonly TypedQuantity[], defaultUnit: Unit): Readings {
  const unit = readings[0]?.unit ?? defaultUnit;
  const values = readings.map((reading) => reading.value);
  const together = readings.every((reading) => reading.unit.name === unit.name);
  const listed = together
    ? `${readings.map((reading) => numberText(reading.number)).join('; ')}${unit.name === '1' ? '' : ` ${unit.name}`}`
    : readings.map((reading) => quantityText(reading.number, reading.unit)).join('; ');
  const echo = readings.length === 1 ? `read as ${listed}` : `read as ${readings.length} readings: ${listed}`;
  return { values, unit, echo, reinterpreted: typed.some((reading) => reading.reinterpreted) };
}
