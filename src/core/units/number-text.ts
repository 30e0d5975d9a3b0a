import { fail, invisibleSign, ok, type Problem, type Result, type Span } from '../problem/index.ts';
import * as problems from './number-problems.ts';
import { QUANTITY_TEXT_LIMIT } from './parse-unit.ts';
import { textTooLong } from './unit-problems.ts';

/**
 * What a single comma with no point means: `ask` takes it for a decimal mark except before exactly three digits,
 * where it asks; `decimal` always takes it for a decimal mark (lists separated by `;`).
 */
export type CommaRule = 'ask' | 'decimal';

/** A number found at the beginning of a text. */
interface ScannedNumber {
  readonly value: number;
  /** Characters of the text that belong to it, blanks before it included. */
  readonly end: number;
  /** Whether the reader should be shown how it was read: decimal comma, grouping, fraction. */
  readonly reinterpreted: boolean;
  /** The number as typed. */
  readonly typed: string;
  /** Value of one unit in the last written place, for the concise form 6.31(2). */
  readonly lastPlace: number;
}

const SIGN = /[+\-\u2212\u2013]/u;
const VULGAR = new Map<string, readonly [number, number]>([
  ['\u00bd', [1, 2]],
  ['\u00bc', [1, 4]],
  ['\u00be', [3, 4]],
  ['\u215b', [1, 8]],
  ['\u215c', [3, 8]],
  ['\u215d', [5, 8]],
  ['\u215e', [7, 8]],
]);
const HEXADECIMAL = /^0[xX][0-9a-fA-F]+/u;
const CLOCK = /^(\d+):(\d{1,2})(?::(\d{1,2}))?(?![\d:])/u;
const MIXED = /^(\d+)\s*[\s-]\s*(\d+)\s*[/\u2044]\s*(\d+)/u;
const FRACTION = /^(\d+)\s*[/\u2044]\s*(\d+)/u;
const VULGAR_NUMBER = /^(\d*)\s*([\u00bc-\u00be\u215b-\u215e])/u;
// The apostrophe groups digits in Switzerland.
const GROUPED = /^\d{1,3}(?:[ \u00a0\u2007\u2009\u202f'\u2019]\d{3})+(?!\d)(?:[.,]\d*)?/u;
// Groups behind the decimal mark only with the thin spaces of print: a plain blank may separate two numbers.
const FINELY_GROUPED = /^\d+[.,](?:\d{3}[\u00a0\u2007\u2009\u202f])+\d{1,3}(?!\d)/u;
const BODY = /^(?:\d|[.,]\d)[\d.,]*/u;
const EXPONENT = /^[eE]([+\-\u2212]?\d+)/u;
const TIMES_TEN =
  /^(?:\s*[\u00b7*x\u00d7\u22c5]\s*10)(?:\s*\^\s*\(?([+\-\u2212]?\d+)\)?|([\u207a\u207b]?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+))/u;
const POWER_OF_TEN = /^10(?:\s*\^\s*\(?([+\-\u2212]?\d+)\)?|([\u207a\u207b]?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+))/u;
const SUPERSCRIPTS = '\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079';

/**
 * The number that `text` writes: `6.35`, `.5`, `1e3`, `1.2·10^5`, `1/4`, `1 1/4`, `12 345`, and with an echo `6,35`,
 * `1,234.5`, `1.234,5`. `1,234` is asked about, and `400,401,400`, which may be readings.
 *
 * Problems: `number-empty`, `number-missing`, `number-comma`, `number-or-readings`, `number-separators`, `number-two`, `number-extra`,
 * `number-fraction`, `number-division-by-zero`, `number-clock`, `number-clock-two-ways`, `number-hexadecimal`, `number-not-finite`,
 * `number-too-large`, `number-too-small`, `text-too-long`, `invisible-sign`.
 *
 * @example parseNumber('6,35') // { ok: true, value: { value: 6.35, echo: 'read as 6.35' } }
 */
export function parseNumber(text: string): Result<{ readonly value: number; readonly echo?: string }> {
  const scanned = scanNumber(text, 'ask');
  if (!scanned.ok) return scanned;
  const { value, end, reinterpreted, typed } = scanned.value;
  const rest = text.slice(end);
  if (rest.trim() !== '') return fail({ ...restProblem(typed, rest, end), text });
  return ok(reinterpreted ? { value, echo: `read as ${numberText(value)}` } : { value });
}

/** A number as echoes show it: the shortest digits that mean it, `1e+21` as `1e21`. */
export function numberText(value: number): string {
  return String(value).replace('e+', 'e');
}

/** What is wrong with a text that goes on after its number. */
export function restProblem(typed: string, rest: string, offset: number): Problem {
  const span = spanOf(rest, offset);
  const second = /^[\s,;]*([+\-\u2212]?[\d.,]*\d)/u.exec(rest)?.[1];
  return second === undefined ? problems.numberExtra(rest, span) : problems.numberTwo(typed, second, span);
}

function spanOf(text: string, offset: number): Span {
  const start = offset + (text.length - text.trimStart().length);
  return { start, end: offset + text.trimEnd().length };
}

/** The number at the beginning of `text`; what follows it is left to the caller. */
export function scanNumber(text: string, comma: CommaRule): Result<ScannedNumber> {
  const stop = (problem: Problem): Result<never> => fail({ ...problem, text });
  if (text.length > QUANTITY_TEXT_LIMIT) return stop(textTooLong(text.length, QUANTITY_TEXT_LIMIT));
  const unseen = invisibleSign(text);
  if (unseen !== undefined) return fail(unseen);
  if (text.trim() === '') return stop(problems.numberEmpty());
  const start = text.length - text.trimStart().length;
  const signed = SIGN.test(text[start] ?? '');
  const afterSign = signed ? text.slice(start + 1) : text.slice(start);
  const digitsStart = start + (signed ? 1 : 0) + (afterSign.length - afterSign.trimStart().length);
  const negative = signed && text[start] !== '+';
  const read = readMagnitude(text.slice(digitsStart), comma);
  if (read === undefined) return stop(problems.numberMissing(text, { start, end: text.trimEnd().length }));
  if ('problem' in read) {
    return stop(read.problem((length) => ({ start, end: digitsStart + length })));
  }
  const end = digitsStart + read.length;
  const typed = text.slice(start, end);
  if (!Number.isFinite(read.value)) return stop(problems.numberTooLarge(typed, { start, end }));
  if (read.value === 0 && read.zeroTyped === false) return stop(problems.numberTooSmall(typed, { start, end }));
  return ok({
    // 0 - 0 is 0: a zero has no sign on the page.
    value: negative ? 0 - read.value : read.value,
    end,
    reinterpreted: read.reinterpreted,
    typed,
    lastPlace: read.lastPlace,
  });
}

type Magnitude =
  | {
      readonly value: number;
      readonly length: number;
      readonly reinterpreted: boolean;
      readonly lastPlace: number;
      /** false where digits other than 0 were typed, so that a value of 0 means it was too small. */
      readonly zeroTyped: boolean;
    }
  | { readonly problem: (span: (length: number) => Span) => Problem };

function readMagnitude(text: string, comma: CommaRule): Magnitude | undefined {
  return readSpecial(text) ?? readFraction(text) ?? readPowerOfTen(text) ?? readDecimal(text, comma);
}

/** Texts that look like numbers and are none. */
function readSpecial(text: string): Magnitude | undefined {
  const hexadecimal = HEXADECIMAL.exec(text)?.[0];
  if (hexadecimal !== undefined) {
    return { problem: (span) => problems.numberHexadecimal(hexadecimal, span(hexadecimal.length)) };
  }
  const clock = CLOCK.exec(text);
  if (clock !== null) {
    const parts = clock.slice(1).filter((part) => part !== undefined).map(Number);
    return { problem: (span) => problems.numberClock(parts, clock[0], span(clock[0].length)) };
  }
  const word = /^(?:nan|infinity|inf|\u221e)(?![\p{L}])/iu.exec(text)?.[0];
  if (word !== undefined) return { problem: (span) => problems.numberNotFinite(word, span(word.length)) };
  return undefined;
}

function readFraction(text: string): Magnitude | undefined {
  const vulgar = VULGAR_NUMBER.exec(text);
  const parts = VULGAR.get(vulgar?.[2] ?? '');
  if (vulgar !== null && parts !== undefined) {
    return fractionOf(Number(vulgar[1] ?? 0), parts[0], parts[1], vulgar[0].length);
  }
  const mixed = MIXED.exec(text);
  const match = mixed ?? FRACTION.exec(text);
  if (match === null) return undefined;
  const typed = match[0];
  const numbers = match.slice(1).map(Number);
  const [whole = 0, above = 0, below = 0] = mixed === null ? [0, ...numbers] : numbers;
  if (below === 0) return { problem: (span) => problems.numberDivisionByZero(typed, span(typed.length)) };
  const improper = mixed !== null && above >= below;
  if (improper || /^[.,\d^/]/u.test(text.slice(typed.length))) {
    const whole = /^[\d\s.,^/\u2044-]*/u.exec(text)?.[0].trimEnd() ?? typed;
    return { problem: (span) => problems.numberFraction(whole, span(whole.length)) };
  }
  return fractionOf(whole, above, below, typed.length);
}

function fractionOf(whole: number, above: number, below: number, length: number): Magnitude {
  // One division, so that 1 1/4 is rounded once.
  const value = (whole * below + above) / below;
  return { value, length, reinterpreted: true, lastPlace: 1 / below, zeroTyped: whole === 0 && above === 0 };
}

function readPowerOfTen(text: string): Magnitude | undefined {
  const match = POWER_OF_TEN.exec(text);
  if (match === null) return undefined;
  const value = Number(`1e${exponentDigits(match[1], match[2])}`);
  return { value, length: match[0].length, reinterpreted: false, lastPlace: value, zeroTyped: false };
}

function readDecimal(text: string, comma: CommaRule): Magnitude | undefined {
  const grouped = GROUPED.exec(text)?.[0] ?? FINELY_GROUPED.exec(text)?.[0];
  const typed = (grouped ?? BODY.exec(text)?.[0] ?? '').replace(/,+$/u, '');
  if (typed === '') return undefined;
  // Where blanks group the digits, a comma can only be the decimal mark.
  const digits = plainDigits(typed.replace(/[^\d.,]/gu, ''), grouped === undefined ? comma : 'decimal');
  if (typeof digits === 'function') return { problem: (span) => digits(typed, span(typed.length)) };
  const rest = text.slice(typed.length);
  const power = EXPONENT.exec(rest) ?? TIMES_TEN.exec(rest);
  const exponent = power === null ? '0' : exponentDigits(power[1], power[2]);
  const places = digits.plain.split('.')[1]?.length ?? 0;
  return {
    value: Number(`${digits.plain}e${exponent}`),
    length: typed.length + (power?.[0].length ?? 0),
    reinterpreted: digits.reinterpreted || grouped !== undefined,
    lastPlace: Number(`1e${Number(exponent) - places}`),
    zeroTyped: !/[1-9]/u.test(digits.plain),
  };
}

function exponentDigits(plain: string | undefined, superscript: string | undefined): string {
  if (plain !== undefined) return plain.replace('\u2212', '-');
  const sign = superscript?.startsWith('\u207b') === true ? '-' : '';
  const digits = [...(superscript ?? '')].map((digit) => SUPERSCRIPTS.indexOf(digit)).filter((digit) => digit >= 0);
  return sign + digits.join('');
}

type PlainDigits =
  | { readonly plain: string; readonly reinterpreted: boolean }
  | ((typed: string, span: Span) => Problem);

/** Digits with one decimal point out of digits with points and commas, or what can't be decided about them. */
function plainDigits(typed: string, comma: CommaRule): PlainDigits {
  const points = typed.split('.').length - 1;
  const commas = typed.split(',').length - 1;
  if (commas === 0 && points <= 1) return { plain: typed, reinterpreted: false };
  if (points > 0 && commas > 0) return withBoth(typed, comma);
  const mark = commas > 0 ? ',' : '.';
  const parts = typed.split(mark);
  if (commas === 1) {
    const [before = '', after = ''] = parts;
    const plain = `${before}.${after}`;
    // No group of thousands begins with a zero.
    if (comma === 'decimal' || after.length !== 3 || before === '' || before.startsWith('0')) return { plain, reinterpreted: true };
    return (text, span) => problems.numberComma(text, before + after, plain, span);
  }
  if (!isGrouped(parts)) return problems.numberSeparators;
  if (commas > 0 && comma === 'ask' && couldBeReadings(parts)) return listOrNumber(parts, parts.join(''));
  return { plain: parts.join(''), reinterpreted: true };
}

/** Groups that are numbers of three digits each, as readings of one quantity may be: `400,401,400` and not `1,234,567`. */
function couldBeReadings(groups: readonly string[]): boolean {
  return groups.every((group) => /^[1-9]\d{2}/.test(group));
}

function listOrNumber(readings: readonly string[], whole: string): PlainDigits {
  return (typed, span) => problems.numberOrReadings(typed, whole, readings, span);
}

/** Points and commas: the one that stands last is the decimal mark, the other one groups. */
function withBoth(typed: string, comma: CommaRule): PlainDigits {
  const decimal = typed.lastIndexOf(',') > typed.lastIndexOf('.') ? ',' : '.';
  const [whole = '', fraction = '', ...more] = typed.split(decimal);
  const groups = whole.split(decimal === ',' ? '.' : ',');
  if (more.length > 0 || groups.length < 2 || !isGrouped(groups)) return problems.numberSeparators;
  const plain = `${groups.join('')}.${fraction}`;
  if (decimal === '.' && comma === 'ask' && couldBeReadings(groups)) return listOrNumber(typed.split(','), plain);
  return { plain, reinterpreted: true };
}

function isGrouped(groups: readonly string[]): boolean {
  const [first = '', ...others] = groups;
  return first.length >= 1 && first.length <= 3 && others.every((group) => group.length === 3);
}
