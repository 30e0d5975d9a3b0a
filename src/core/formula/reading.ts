import { ok, type Result } from '../problem/index.ts';
import type { Expression } from './types.ts';
import { kindOf, operandsOf } from './expression.ts';
import { problemAt, quoted } from './parse-problems.ts';
import { printFormula } from './print.ts';
import type { Sign, Token } from './tokenise.ts';

/** Brackets within brackets, and the height of the tree: far above any derivation, far below what a call stack bears. */
const DEEPEST_NESTING = 100;
const DEEPEST_TREE = 200;

/** Where the reading of one formula stands. */
export interface Reading {
  readonly text: string;
  readonly tokens: readonly Token[];
  place: number;
  nesting: number;
  /** Height of each node made so far. */
  readonly heights: WeakMap<Expression, number>;
}

export function current(reading: Reading): Token {
  const token = reading.tokens[reading.place];
  if (token === undefined) throw new Error('Read past the end of a formula.');
  return token;
}

export function isSign(token: Token, sign: Sign): boolean {
  return token.kind === 'sign' && token.text === sign;
}

/** Brackets, signs and arguments all come through here: one more level of nesting. */
export function deeper(reading: Reading, read: () => Result<Expression>): Result<Expression> {
  if (reading.nesting >= DEEPEST_NESTING) {
    return problemAt(reading.text, current(reading).span, 'formula-deep', 'Too many brackets or signs stand inside one another here.',
      'Split the formula into several steps.');
  }
  reading.nesting += 1;
  const result = read();
  reading.nesting -= 1;
  return result;
}

export function made(reading: Reading, e: Expression): Result<Expression> {
  const height = 1 + Math.max(0, ...operandsOf(e).map((part) => reading.heights.get(part) ?? 0));
  if (height > DEEPEST_TREE) {
    return problemAt(reading.text, e.span, 'formula-chained', 'The formula strings too many operations together.', 'Split it into several steps.');
  }
  reading.heights.set(e, height);
  return ok(e);
}

/** A truth where a number belongs, or the other way round. */
export function firstMixed(
  reading: Reading,
  wanted: 'number' | 'truth',
  where: string,
  parts: readonly Expression[],
): ReturnType<typeof problemAt> | undefined {
  const wrong = parts.find((part) => kindOf(part) !== wanted);
  if (wrong === undefined) return undefined;
  const piece = quoted(reading.text.slice(wrong.span.start, wrong.span.end));
  return wanted === 'truth'
    ? problemAt(reading.text, wrong.span, 'truth-expected', `${piece} is a quantity, and ${where} needs a condition here.`,
        `Compare it with something, as in ${piece} > 0.`)
    : problemAt(reading.text, wrong.span, 'number-expected', `${piece} is a condition, and ${where} needs a quantity here.`,
        `Choose between two quantities by it: if(${quoted(printFormula(wrong))}, a, b).`);
}
