import { fail, invisibleSign, ok, type Result, type Span } from '../problem/index.ts';
import { parseUnit } from '../units/index.ts';
import type { Unit } from '../units/types.ts';
import type { ArithmeticOperator, ComparisonOperator } from './types.ts';
import { functionNamed, type FunctionDescription } from './functions.ts';
import { bareUnit, decimalComma, problemAt, quoted, strayCharacter } from './parse-problems.ts';
import { isSymbolName } from './symbol-name.ts';
import { unitNameAt } from './unit-name.ts';

export type Sign = ArithmeticOperator | ComparisonOperator | 'and' | 'or' | 'not' | '(' | ')' | ',';

export type Token =
  | { readonly kind: 'number'; readonly value: number; readonly text: string; readonly span: Span }
  | { readonly kind: 'word'; readonly text: string; readonly span: Span }
  | { readonly kind: 'unit'; readonly unit: Unit; readonly span: Span }
  | { readonly kind: 'sign'; readonly text: Sign; readonly span: Span }
  | { readonly kind: 'end'; readonly span: Span };

const SPACE = /\s+/y;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const DIGITS = /^\d+$/;
/** What follows an integer where a comma may stand for the decimal point; `4,5.1` and `4,x` are lists. */
const COMMA_AND_DIGITS = /,\d+(?:[eE][+-]?\d+)?(?![\d.])/y;
const WORD = /[A-Za-z][A-Za-z0-9_]*/y;
const SIGN = /<=|>=|[-+*/^(),<>≤≥×·⋅−÷]/y;

/** Signs with another shape but the same meaning. */
const SAME_SIGN: Readonly<Record<string, Sign>> = { '≤': '<=', '≥': '>=', '×': '*', '·': '*', '⋅': '*', '−': '-', '÷': '/' };

function matchAt(pattern: RegExp, text: string, start: number): string | undefined {
  pattern.lastIndex = start;
  return pattern.exec(text)?.[0];
}

/**
 * The words of a formula with their places, ending in an `end` token. `unit(...)` is one token, since the text in its
 * brackets has a grammar of its own.
 */
export function tokenise(text: string): Result<readonly Token[]> {
  const unseen = invisibleSign(text);
  if (unseen !== undefined) return fail(unseen);
  const tokens: Token[] = [];
  /** For each open bracket: the function whose arguments it holds. */
  const brackets: (FunctionDescription | undefined)[] = [];
  let place = 0;
  while (true) {
    place += matchAt(SPACE, text, place)?.length ?? 0;
    if (place >= text.length) break;
    const before = tokens.at(-1);
    const token = nextToken(text, place, brackets.at(-1));
    const bare = before?.kind === 'number' && before.text !== 'pi' ? unitNameAt(text, place) : undefined;
    if (bare !== undefined && before !== undefined && (!token.ok || token.value.kind === 'word')) {
      const divided = tokens.at(-2);
      const isDivisor = divided?.kind === 'sign' && '/^'.includes(divided.text);
      // A fraction on paper, a quarter of an inch: nothing but a number stands before its line.
      const isFraction = divided?.kind === 'sign' && divided.text === '/' && tokens.at(-3)?.kind === 'number' && beginsTerm(tokens.at(-4));
      return bareUnit(text, { start: before.span.start, end: place + bare.length }, before.span, isDivisor && !isFraction);
    }
    if (!token.ok) return token;
    if (token.value.kind === 'sign' && token.value.text === '(') {
      brackets.push(before?.kind === 'word' ? functionNamed(before.text) : undefined);
    } else if (token.value.kind === 'sign' && token.value.text === ')') {
      brackets.pop();
    }
    tokens.push(token.value);
    place = token.value.span.end;
  }
  tokens.push({ kind: 'end', span: { start: text.length, end: text.length } });
  return ok(tokens);
}

/** Whether a term begins behind this token: nothing, a bracket, a comma, a comparison, plus or minus. */
function beginsTerm(before: Token | undefined): boolean {
  return before === undefined || (before.kind === 'sign' && !['*', '/', '^', ')'].includes(before.text));
}

function nextToken(text: string, start: number, inside: FunctionDescription | undefined): Result<Token> {
  const digits = matchAt(NUMBER, text, start);
  if (digits !== undefined) return numberToken(text, start, digits, inside);
  const word = matchAt(WORD, text, start);
  if (word !== undefined) return wordToken(text, start, word);
  const sign = matchAt(SIGN, text, start);
  if (sign !== undefined && !text.startsWith('**', start)) {
    return ok({ kind: 'sign', text: SAME_SIGN[sign] ?? (sign as Sign), span: { start, end: start + sign.length } });
  }
  return strayCharacter(text, start);
}

function numberToken(text: string, start: number, digits: string, inside: FunctionDescription | undefined): Result<Token> {
  const span = { start, end: start + digits.length };
  const fraction = DIGITS.test(digits) ? matchAt(COMMA_AND_DIGITS, text, span.end) : undefined;
  // Where the number of arguments is fixed, counting them tells which comma was meant.
  const countable = inside !== undefined && inside.fewest === inside.most;
  if (fraction !== undefined && !countable) {
    return decimalComma(text, { start, end: span.end + fraction.length }, inside !== undefined);
  }
  if (text[span.end] === '.') {
    const end = span.end + (matchAt(/[\d.]+/y, text, span.end)?.length ?? 1);
    return problemAt(text, { start, end }, 'number', `${quoted(text.slice(start, end))} has more than one decimal point.`,
      'Keep one decimal point.');
  }
  const value = Number(digits);
  const lost = value === 0 && /[1-9]/.test(digits.replace(/[eE].*/, ''));
  if (!Number.isFinite(value) || lost) {
    return problemAt(text, span, 'number', `${quoted(digits)} is too ${lost ? 'small' : 'large'} to calculate with.`,
      'Check the exponent.');
  }
  return ok({ kind: 'number', value, text: digits, span });
}

function wordToken(text: string, start: number, word: string): Result<Token> {
  const span = { start, end: start + word.length };
  if (word === 'and' || word === 'or' || word === 'not') return ok({ kind: 'sign', text: word, span });
  if (word === 'pi') return ok({ kind: 'number', value: Math.PI, text: 'pi', span });
  if (word === 'unit') return unitToken(text, span);
  if (!isSymbolName(word)) {
    return problemAt(text, span, 'name-malformed', `${quoted(word)} can't be a symbol.`,
      'Use letters and digits, and subscripts behind single underscores, as in R_A or sigma_a.');
  }
  return ok({ kind: 'word', text: word, span });
}

/** `unit(N/(m*s))`: the brackets inside belong to the unit. */
function unitToken(text: string, word: Span): Result<Token> {
  const open = word.end + (matchAt(SPACE, text, word.end)?.length ?? 0);
  if (text[open] !== '(') {
    return problemAt(text, word, 'unit-without-brackets', 'unit needs the name of a unit in brackets.', 'Write, for example, unit(MPa).');
  }
  let depth = 0;
  let close = open;
  for (; close < text.length; close += 1) {
    if (text[close] === '(') depth += 1;
    if (text[close] === ')') depth -= 1;
    if (depth === 0) break;
  }
  if (close >= text.length) {
    return problemAt(text, { start: open, end: open + 1 }, 'unit-unclosed', 'This bracket is not closed.', 'Add ) after the unit.');
  }
  const span = { start: word.start, end: close + 1 };
  const name = text.slice(open + 1, close);
  if (name.trim() === '') {
    return problemAt(text, span, 'unit-empty', 'No unit stands in unit( ).', 'Write, for example, unit(MPa).');
  }
  const unit = parseUnit(name);
  if (!unit.ok) {
    const inner = unit.problem.span ?? { start: 0, end: name.length };
    return fail({ ...unit.problem, text, span: { start: open + 1 + inner.start, end: open + 1 + inner.end } });
  }
  if (unit.value.offset !== 0) {
    return problemAt(text, span, 'unit-offset', `${unit.value.name} counts from a zero of its own, so a formula can't divide by it.`,
      'Work in kelvin: (T - 273.15*unit(K))/unit(K) is the number of degrees Celsius.');
  }
  return ok({ kind: 'unit', unit: unit.value, span });
}
