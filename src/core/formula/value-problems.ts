/** The sentences for formulas that have no value with the numbers at hand. */
import type { Problem } from '../problem/index.ts';
import type { Expression } from './types.ts';
import { referencedSymbols } from './expression.ts';
import { printFormula } from './print.ts';

function shown(e: Expression): string {
  const text = printFormula(e);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

/** Six digits tell a reader enough; the value is SI, since a formula inside knows no display unit. */
function number(value: number): string {
  return String(Number(value.toPrecision(6)));
}

function noValue(e: Expression, what: string, mend: string): Problem {
  return { code: 'no-value', what, mend, span: e.span };
}

/** "check a and b", or the formula itself where it reads no symbol. */
function check(e: Expression): string {
  const names = referencedSymbols(e);
  if (names.length === 0) return 'the number in the formula';
  return names.length === 1 ? `${names[0]}` : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

/** What a part is, in words: `a - b is -0.5`. A bare number is what it is. */
function stated(e: Expression, value: number): string {
  const si = referencedSymbols(e).length > 0 && Math.abs(value) !== 0 ? ' in SI units' : '';
  return e.kind === 'number' ? `the number is ${number(value)}` : `${shown(e)} is ${number(value)}${si}`;
}

export function symbolWithoutValue(e: Expression, name: string): Problem {
  return noValue(e, `${name} has no value.`, `Mend ${name} first.`);
}

export function divisionByZero(e: Expression, divisor: Expression): Problem {
  return noValue(e, `${shown(e)} has no value: ${stated(divisor, 0)}.`,
    `The divisor must not be zero: check ${check(divisor)}.`);
}

export function zeroToNegativePower(e: Expression, base: Expression): Problem {
  return noValue(e, `${shown(e)} has no value: ${stated(base, 0)}, and the exponent is negative.`,
    `Zero has no negative power: check ${check(base)}.`);
}

export function negativeBase(e: Expression, base: Expression, value: number): Problem {
  return noValue(e, `${shown(e)} has no value: ${stated(base, value)}, and the exponent is no whole number.`,
    `Such a power needs a base of zero or more: check ${check(base)}.`);
}

/** The argument is outside of what the function takes. */
export function outsideDomain(e: Expression, name: string, argument: Expression, value: number, needs: string): Problem {
  return noValue(e, `${shown(e)} has no value: ${stated(argument, value)}.`, `${name} needs ${needs}: check ${check(argument)}.`);
}

export function tooLarge(e: Expression): Problem {
  return noValue(e, `${shown(e)} is too large to calculate with.`, `Check ${check(e)}.`);
}

export function noRateOfChange(e: Expression): Problem {
  return noValue(e, `${shown(e)} has a value, but its rate of change has none, so no uncertainty can be found.`,
    `Check ${check(e)}: it lies exactly at the edge of what the formula takes.`);
}
