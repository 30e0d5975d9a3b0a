import { fail, nearNames, ok, type Problem, type Result } from '../problem/index.ts';
import {
  inDimensionOf, intervalToSI, ONE, parseQuantity, placedIn, QUANTITY_TEXT_LIMIT, readQuantity, sameDimension, textTooLong, type Unit,
} from '../units/index.ts';
import { DISTRIBUTIONS, type LimitKnowledge } from './distributions.ts';
import type { InstrumentClass } from './instrument.ts';
import { INSTRUMENT_CLASSES } from './instrument-classes.ts';
import * as problems from './instrument-problems.ts';

/** A piece of a text and where it stands. */
interface Piece {
  readonly text: string;
  readonly start: number;
}

/**
 * The class of instrument that a text names, with what the text says of this one: `steel rule, 0.5 mm` (resolution),
 * `load cell, 0.5 N, 1 %` (limit of error in % of the reading), `caliper, ±0.03 mm` (limit of error), `counter, ×10`.
 * Problems: `instrument-unknown`, `instrument-dimension`, `resolution-negative`, `limit-negative`, and those of
 * `parseQuantity`.
 * @param measured unit of the quantity: a bare number is read in it, and an instrument for another dimension is refused
 */
export function instrumentClass(text: string, measured?: Unit): Result<InstrumentClass> {
  if (text.length > QUANTITY_TEXT_LIMIT) return fail({ ...textTooLong(text.length, QUANTITY_TEXT_LIMIT), text });
  const name = /^[^,;\d.\u00b1\u00d7]*/u.exec(text)?.[0] ?? '';
  let instrument = classNamed(name);
  if (instrument === undefined) {
    const names = INSTRUMENT_CLASSES.map((known) => known.name);
    const near = nearNames(wordsOf(name), names);
    return fail({ ...problems.instrumentUnknown(name.trim(), near, names, { start: 0, end: name.length }), text });
  }
  for (const piece of piecesAfter(text, name.length)) {
    const read = withPiece(instrument, piece, measured);
    if (!read.ok) return fail(placedIn(read.problem, text, piece.start));
    instrument = read.value;
  }
  const { unit } = instrument;
  if (measured !== undefined && unit !== undefined && !sameDimension(unit.dimension, measured.dimension)) {
    return fail({ ...problems.instrumentOtherDimension(instrument.name, unit, measured), text });
  }
  return ok(Object.freeze(instrument));
}

/**
 * An instrument with resolution, limit of error or distribution replaced as typed; what is absent stays. A limit in % is a
 * share of the reading. Problems carry the key they belong to.
 * @param measured unit that bare numbers are read in
 */
export function overrideInstrument(
  instrument: InstrumentClass,
  typed: { readonly resolution?: string; readonly limit?: string; readonly distribution?: string },
  measured: Unit,
): Result<InstrumentClass> {
  let changed = instrument;
  for (const key of ['resolution', 'limit'] as const) {
    const text = typed[key];
    if (text === undefined || text.trim() === '') continue;
    const read = key === 'resolution' ? withResolution(changed, text, measured) : withLimit(changed, text, measured);
    if (!read.ok) return fail({ ...read.problem, text, key });
    changed = read.value;
  }
  if (typed.distribution !== undefined && typed.distribution.trim() !== '') {
    const distribution = DISTRIBUTIONS.find((known) => known === wordsOf(typed.distribution ?? ''));
    if (distribution === undefined) {
      return fail({ ...problems.distributionUnknown(typed.distribution, DISTRIBUTIONS), key: 'distribution' });
    }
    changed = { ...changed, distribution };
  }
  return ok(Object.freeze(changed));
}

/**
 * How well a limit is known, as typed; undefined where nothing is. Problems, each with its key: `limit-inexactness`, `limit-degrees`, those of `parseQuantity`.
 */
export function limitKnowledge(typed: { readonly inexactness?: string; readonly degreesOfFreedom?: string }): Result<LimitKnowledge | undefined> {
  const inexactness = plainNumber(typed.inexactness, 'inexactness', (value) => value > 0 && value < 1, problems.limitInexactness);
  if (!inexactness.ok) return inexactness;
  const degreesOfFreedom = plainNumber(typed.degreesOfFreedom, 'degrees_of_freedom', (value) => value >= 1, problems.limitDegrees);
  if (!degreesOfFreedom.ok) return degreesOfFreedom;
  if (inexactness.value === undefined && degreesOfFreedom.value === undefined) return ok(undefined);
  return ok(Object.freeze({
    ...(inexactness.value === undefined ? {} : { inexactness: inexactness.value }),
    ...(degreesOfFreedom.value === undefined ? {} : { degreesOfFreedom: degreesOfFreedom.value }),
  }));
}

function plainNumber(text: string | undefined, key: string, fits: (value: number) => boolean, wrong: (typed: string) => Problem): Result<number | undefined> {
  if (text === undefined || text.trim() === '') return ok(undefined);
  const read = parseQuantity(text, ONE);
  if (!read.ok) return fail({ ...read.problem, key });
  return fits(read.value.value) ? ok(read.value.value) : fail({ ...wrong(text), key });
}

function classNamed(name: string): InstrumentClass | undefined {
  const words = wordsOf(name);
  const singular = words.replace(/s$/u, '');
  return INSTRUMENT_CLASSES.find(({ name: known, otherNames }) =>
    [known, ...otherNames].some((candidate) => [words, singular].includes(candidate.toLowerCase())));
}

function wordsOf(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/gu, ' ');
}

/** What stands after the name: separated by `;`, or by a comma that is no decimal mark. */
function piecesAfter(text: string, from: number): readonly Piece[] {
  const pieces: Piece[] = [];
  for (const match of text.slice(from).matchAll(/(?:[^,;]|,(?=\d)(?<=\d,))+/gu)) {
    if (match[0].trim() !== '') pieces.push({ text: match[0], start: from + match.index });
  }
  return pieces;
}

/** A limit says so by ±, % or the word; anything else is the resolution. */
function withPiece(instrument: InstrumentClass, { text }: Piece, measured: Unit | undefined): Result<InstrumentClass> {
  const unit = measured ?? instrument.unit;
  return /[\u00b1%]|\blimit\b/u.test(text) ? withLimit(instrument, text, unit) : withResolution(instrument, text, unit);
}

function withResolution(instrument: InstrumentClass, text: string, expected: Unit | undefined): Result<InstrumentClass> {
  const interval = readInterval(text.replace(/^(\s*)[\u00d7xX](?=\s*\d)/u, '$1 '), expected, problems.resolutionNegative);
  return interval.ok ? ok({ ...instrument, resolution: interval.value.value, unit: interval.value.unit }) : interval;
}

/** Words round the figure of a limit: `limit of error`, `±`, `of the reading`. */
const LIMIT_WORDING = /\u00b1|\blimit\b(?:\s+of\s+error\b)?|\bof\s+(?:the\s+)?reading\b/gu;

function withLimit(instrument: InstrumentClass, text: string, expected: Unit | undefined): Result<InstrumentClass> {
  const figure = text.replace(LIMIT_WORDING, (words) => ' '.repeat(words.length));
  const interval = readInterval(figure, /%/u.test(figure) ? undefined : expected, problems.limitNegative);
  if (!interval.ok) return interval;
  const { value, unit } = interval.value;
  return unit.name === '%'
    ? ok({ ...instrument, limit: { absolute: 0, steps: 0, share: value } })
    : ok({ ...instrument, unit, limit: { absolute: value, steps: 0, share: 0 } });
}

/** A length of scale: a temperature without its zero. */
function readInterval(
  text: string,
  expected: Unit | undefined,
  negative: (typed: string, span: { start: number; end: number }) => Problem,
): Result<{ readonly value: number; readonly unit: Unit }> {
  const typed = readQuantity(text, 'ask');
  if (!typed.ok) return typed;
  if (typed.value.number < 0) return fail({ ...negative(text, { start: 0, end: text.length }), text });
  const quantity = inDimensionOf(typed.value, expected ?? typed.value.unit ?? ONE);
  if (!quantity.ok) return quantity;
  const { number, unit } = quantity.value;
  return ok({ value: intervalToSI(number, unit), unit });
}
