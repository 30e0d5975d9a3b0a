import { fail, invisibleSign, ok, type Problem, type Result, type Span } from '../problem/index.ts';
import { rememberedTexts } from '../remembered/index.ts';
import { ONE, unitOfFactors, type UnitFactor } from './compound.ts';
import type { Unit } from './types.ts';
import * as problems from './unit-problems.ts';
import { SHOP_MOMENTS } from './unit-table.ts';
import { definitionOf, readUnitWord } from './unit-words.ts';

/** Longest text that is looked at as one quantity or unit. */
export const QUANTITY_TEXT_LIMIT = 200;

const GREATEST_EXPONENT = 12;
const BLANK = /\s*/uy;
const WORD = /(?:[\u00b0\u00ba]|deg)\s?[CF](?!\p{L})|\u2103|\u2109|''|["\u2033\u201d'\u2032%\u00b0\u00ba]|[\p{L}\u00b5]+/uy;
const SUPERSCRIPT = /[\u207a\u207b]?[\u2070\u00b9\u00b2\u00b3\u2074-\u2079]+/uy;
const EXPONENT = /\^\s*(?:([+\-\u2212]?(?:\d+\.?\d*|\.\d+))|\(\s*([+\-\u2212]?(?:\d+\.?\d*|\.\d+))\s*(?:\/\s*(\d+)\s*)?\))/uy;
const DIGITS = /\d+(?:\.\d+)?/uy;
const PRODUCT = /\s*([*\u00b7\u22c5\u00d7\u2022\u2219.\-\u2010\u2011])\s*/uy;
const SUPERSCRIPT_DIGITS = '\u2070\u00b9\u00b2\u00b3\u2074\u2075\u2076\u2077\u2078\u2079';

export interface UnitReading {
  readonly unit: Unit;
  readonly factors: readonly UnitFactor[];
  /** Whether the reader should be shown how it was read: an alias, another case, a hyphen taken for a product. */
  readonly reinterpreted: boolean;
}

/**
 * The unit that `text` writes: symbols of the table joined by `·`, `*`, `-`, a point or a blank (product) and `/`,
 * with powers `^2`, `²`, `^-1`, `^0.5`, `^(1/2)`, roots `√m`, and brackets. `N/mm/s` is read from left to right. Empty text and
 * `1` are the plain number.
 *
 * Problems: `unit-unknown`, `unit-ambiguous`, `unit-exponent`, `unit-exponent-unmarked`, `unit-missing`, `unit-bracket-open`, `unit-number`, `unit-brackets`, `unit-syntax`,
 * `unit-too-large`, `text-too-long`, `invisible-sign`; spans point into `text`.
 *
 * @example parseUnit('kN*m') // { ok: true, value: { name: 'kN·m', factor: 1000, ... } }
 * @source Writing of compound units: ISO 80000-1:2009, 7.2 (general rules; from memory).
 */
export function parseUnit(text: string): Result<Unit> {
  const reading = readUnit(text);
  return reading.ok ? ok(reading.value.unit) : reading;
}

/** A sheet names few units, and every edit of it asks for all of them again. */
const readRemembered = rememberedTexts(500, readAnew);

/** As `parseUnit`, with the factors one by one and whether the reading should be shown. */
export function readUnit(text: string): Result<UnitReading> {
  if (text.length > QUANTITY_TEXT_LIMIT) return fail({ ...problems.textTooLong(text.length, QUANTITY_TEXT_LIMIT), text });
  return readRemembered(text);
}

function readAnew(text: string): Result<UnitReading> {
  const unseen = invisibleSign(text);
  if (unseen !== undefined) return fail(unseen);
  const trimmed = text.trim();
  if (trimmed === '' || trimmed === '1') return ok({ unit: ONE, factors: [], reinterpreted: false });
  const shop = SHOP_MOMENTS.get(trimmed.toLowerCase().replace(/[\s.*\u00b7\u22c5\u2010\u2011-]+/gu, '-').replace(/-$/u, ''));
  if (shop !== undefined) {
    const factors = shop.map((symbol) => ({ definition: definitionOf(symbol), exponent: 1, below: false }));
    return ok({ unit: unitOfFactors(factors), factors, reinterpreted: true });
  }
  try {
    return finish(new UnitReader(text).readAll(), text);
  } catch (stop) {
    if (stop instanceof Stop) return fail({ ...stop.problem, text });
    throw stop;
  }
}

function finish(read: { factors: readonly UnitFactor[]; reinterpreted: boolean }, text: string): Result<UnitReading> {
  const unit = unitOfFactors(read.factors);
  const outOfRange = read.factors.some((factor) => Math.abs(factor.exponent) > GREATEST_EXPONENT);
  if (outOfRange || !Number.isFinite(unit.factor) || unit.factor < Number.MIN_VALUE) {
    return fail({ ...problems.unitOutOfRange({ start: 0, end: text.length }), text });
  }
  return ok({ unit, ...read });
}

/** Carries a reader's mistake out of the recursive descent; never leaves this file. */
class Stop {
  readonly problem: Problem;
  constructor(problem: Problem) {
    this.problem = problem;
  }
}

/** Recursive descent over one text; all its state is its own. */
class UnitReader {
  readonly #text: string;
  #at = 0;
  #reinterpreted = false;

  constructor(text: string) {
    this.#text = text;
  }

  readAll(): { factors: readonly UnitFactor[]; reinterpreted: boolean } {
    const factors = this.#product(true);
    this.#take(BLANK);
    const rest = this.#text.slice(this.#at);
    if (rest !== '') throw new Stop(problems.unitTextLeft(rest, this.#spanFrom(this.#at, this.#text.length)));
    return { factors, reinterpreted: this.#reinterpreted };
  }

  /** Factors joined by products and divisions, up to the end or a closing bracket. */
  #product(outermost: boolean): UnitFactor[] {
    this.#take(BLANK);
    const factors = this.#oneOverSomething() ? [] : this.#term();
    let divided = false;
    for (;;) {
      const joint = this.#joint();
      if (joint === 'end') return factors;
      if (joint === 'close') {
        if (outermost) throw new Stop(problems.unitTextLeft(')', this.#spanFrom(this.#at, this.#at + 1)));
        return factors;
      }
      if (joint === 'beside' && divided) throw new Stop(problems.productAfterDivision(this.#spanFrom(0, this.#text.length)));
      const term = this.#term();
      // A product after a division is read from left to right, but the reader is shown how.
      if (joint === 'times' && divided) this.#reinterpreted = true;
      if (joint === 'over') divided = true;
      factors.push(...(joint === 'over' ? term.map((factor) => ({ ...factor, below: !factor.below })) : term));
    }
  }

  /** The 1 of `1/min`; the division is left to be read. A unit that starts with `/` is taken the same way. */
  #oneOverSomething(): boolean {
    return this.#take(/1?(?=\s*\/)/uy) !== undefined;
  }

  #joint(): 'end' | 'close' | 'times' | 'over' | 'beside' {
    const start = this.#at;
    const product = this.#take(PRODUCT)?.[1];
    if (product === '.' && !/[\p{L}\u00b5]/u.test(this.#text[this.#at] ?? '')) {
      // The point of an abbreviation (`in.`), not of a product.
      this.#reinterpreted = true;
      return this.#joint();
    }
    if (product !== undefined) {
      if ('.-\u2010\u2011'.includes(product)) this.#reinterpreted = true;
      return 'times';
    }
    if (this.#take(/\s*[/\u2215\u2044]\s*/uy) !== undefined) return 'over';
    this.#take(BLANK);
    const next = this.#text[this.#at];
    if (next === undefined) return 'end';
    if (next === ')') return 'close';
    if (this.#at === start && next !== '(' && next !== '\u221a') throw new Stop(this.#unexpected());
    return 'beside';
  }

  #term(): UnitFactor[] {
    const start = this.#at;
    if (this.#take(/\(/uy) !== undefined) {
      const inner = this.#product(false);
      if (this.#take(/\s*\)/uy) === undefined) throw new Stop(problems.unitBracketOpen(this.#spanFrom(start, start + 1)));
      const power = this.#power();
      return inner.map((factor) => ({ ...factor, exponent: factor.exponent * power }));
    }
    if (this.#take(/\u221a\s*(?!\u221a)/uy) !== undefined) return this.#term().map((factor) => ({ ...factor, exponent: factor.exponent / 2 }));
    const word = this.#take(WORD)?.[0];
    if (word === undefined) throw new Stop(this.#unexpected());
    const reading = readUnitWord(word.replace(/\s/gu, ''), this.#spanFrom(start, this.#at));
    if (reading.kind === 'problem') throw new Stop(reading.problem);
    if (reading.reinterpreted) this.#reinterpreted = true;
    const digits = this.#take(DIGITS)?.[0];
    if (digits !== undefined) throw new Stop(problems.exponentUnmarked(word, digits, this.#spanFrom(start, this.#at)));
    const power = this.#power();
    return reading.definitions.map((definition, place) => ({
      definition,
      // In `Nm^2` the power belongs to the last unit, as it would in N·m^2.
      exponent: place === reading.definitions.length - 1 ? power : 1,
      below: false,
    }));
  }

  /** The exponent that follows, 1 where none does. */
  #power(): number {
    const start = this.#at;
    const superscript = this.#take(SUPERSCRIPT)?.[0];
    if (superscript !== undefined) {
      const digits = [...superscript].map((sign) => (sign === '\u207b' ? '-' : digitOf(sign))).join('');
      return this.#checkedPower(Number(digits), start);
    }
    const written = this.#take(EXPONENT);
    if (written !== undefined) {
      const top = Number((written[1] ?? written[2] ?? '').replace('\u2212', '-'));
      return this.#checkedPower(written[3] === undefined ? top : top / Number(written[3]), start);
    }
    if (this.#text[this.#at] === '^') throw new Stop(problems.exponentUnreadable(this.#spanFrom(start, start + 1)));
    return 1;
  }

  #checkedPower(power: number, start: number): number {
    if (power !== 0 && Math.abs(power) <= GREATEST_EXPONENT) return power;
    throw new Stop(problems.exponentUnreadable(this.#spanFrom(start, this.#at)));
  }

  #unexpected(): Problem {
    const start = this.#at;
    const digits = this.#take(DIGITS)?.[0];
    if (digits !== undefined) return problems.numberInUnit(digits, this.#spanFrom(start, this.#at));
    const rest = this.#text.slice(start).trimEnd();
    if (rest === '' || /^[*/\u00b7)^.-]/u.test(rest)) return problems.unitMissing(this.#spanFrom(start, start + 1));
    return problems.unitUnknown(rest, [], this.#spanFrom(start, start + rest.length));
  }

  #take(pattern: RegExp): RegExpExecArray | undefined {
    pattern.lastIndex = this.#at;
    const match = pattern.exec(this.#text);
    if (match === null) return undefined;
    this.#at += match[0].length;
    return match;
  }

  #spanFrom(start: number, end: number): Span {
    return { start, end: Math.min(Math.max(end, start), this.#text.length) };
  }
}

function digitOf(superscript: string): string {
  const digit = SUPERSCRIPT_DIGITS.indexOf(superscript);
  return digit < 0 ? '' : String(digit);
}
