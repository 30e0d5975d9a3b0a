/**
 * Arithmetic over a block of values, written out loop by loop, since a function called for every element costs more than most
 * operations. A place without value is NaN and stays NaN; an infinity becomes NaN on the spot, so that a later 1/x can't turn
 * it into an innocent zero: `x + (x - x)` is x where x is finite, else NaN, and costs no branch. `out` may be an operand.
 */
import { functionOfOne } from './functions-of-one.ts';
import { functionOfSeveral } from './functions-of-several.ts';
import type { ArithmeticOperator, ComparisonOperator } from './types.ts';

/** One value a place; at least as long as the count that a loop is given. */
export type Block = Float64Array;
export type Unary = (out: Block, a: Block, count: number) => void;
export type Binary = (out: Block, a: Block, b: Block, count: number) => void;

function add(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) + (b[i] as number);
    out[i] = value + (value - value);
  }
}

function subtract(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) - (b[i] as number);
    out[i] = value + (value - value);
  }
}

function multiply(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) * (b[i] as number);
    out[i] = value + (value - value);
  }
}

/** By a factor that all places share. */
export function multiplyBy(factor: number): Unary {
  return (out, a, count) => {
    for (let i = 0; i < count; i += 1) {
      const value = (a[i] as number) * factor;
      out[i] = value + (value - value);
    }
  };
}

function divide(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) / (b[i] as number);
    out[i] = value + (value - value);
  }
}

export const ARITHMETIC: Readonly<Record<Exclude<ArithmeticOperator, '^'>, Binary>> = { '+': add, '-': subtract, '*': multiply, '/': divide };

/** Whole exponents up to this size are multiplied out; others go by exponential and logarithm. */
const LARGEST_MULTIPLIED = 16;

/** x^p for an exponent that all places share: multiplied out for small whole p, else exp(p ln x). */
export function powerOf(exponent: number): Unary {
  if (Number.isInteger(exponent)) {
    if (exponent === 2) return square;
    if (exponent === 4) return fourthPower;
    return Math.abs(exponent) <= LARGEST_MULTIPLIED
      ? (out, a, count) => wholePowers(out, a, exponent, count)
      : (out, a, count) => largePowers(out, a, exponent, count);
  }
  if (exponent === 0.5) return root;
  return (out, a, count) => {
    for (let i = 0; i < count; i += 1) {
      const value = Math.exp(exponent * Math.log(a[i] as number));
      out[i] = value + (value - value);
    }
  };
}

/** p^x for a base above zero that all places share. */
export function powersFrom(base: number): Unary {
  const logarithm = Math.log(base);
  return (out, a, count) => {
    for (let i = 0; i < count; i += 1) {
      const exponent = a[i] as number;
      // 10^3 is 1000, not a rounding step beside it.
      const value = exponent === Math.floor(exponent) ? base ** exponent : Math.exp(logarithm * exponent);
      out[i] = value + (value - value);
    }
  };
}

export function power(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const base = a[i] as number;
    const value = base ** (b[i] as number);
    // NaN to the power 0 would be 1.
    out[i] = value + (value - value) + (base - base);
  }
}

function largePowers(out: Block, a: Block, exponent: number, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) ** exponent;
    out[i] = value + (value - value);
  }
}

function wholePowers(out: Block, a: Block, exponent: number, count: number): void {
  const times = Math.abs(exponent);
  for (let i = 0; i < count; i += 1) {
    const base = a[i] as number;
    let square = base;
    let value = 1 + (base - base);
    for (let left = times; left > 0; left >>= 1) {
      if ((left & 1) === 1) value *= square;
      square *= square;
    }
    if (exponent < 0) value = 1 / value;
    out[i] = value + (value - value);
  }
}

function square(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = (a[i] as number) * (a[i] as number);
    out[i] = value + (value - value);
  }
}

/** The one of I = πd⁴/64, which every sheet works out for every sample. */
function fourthPower(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const square = (a[i] as number) * (a[i] as number);
    const value = square * square;
    out[i] = value + (value - value);
  }
}

function root(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = Math.sqrt(a[i] as number);
    out[i] = value + (value - value);
  }
}

function logarithm(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = Math.log(a[i] as number);
    out[i] = value + (value - value);
  }
}

function decimalLogarithm(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = Math.log10(a[i] as number);
    out[i] = value + (value - value);
  }
}

function exponential(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = Math.exp(a[i] as number);
    out[i] = value + (value - value);
  }
}

export function negative(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) out[i] = -(a[i] as number);
}

function aboveZero(out: Block, a: Block, count: number): void {
  for (let i = 0; i < count; i += 1) out[i] = Math.max(a[i] as number, 0);
}

const FREQUENT: Readonly<Record<string, Unary>> = {
  sqrt: root, ln: logarithm, log10: decimalLogarithm, exp: exponential, macaulay: aboveZero,
};

/** A function of one number. */
export function functionLoop(name: string): Unary {
  const frequent = FREQUENT[name];
  if (frequent !== undefined) return frequent;
  const { value: of } = functionOfOne(name);
  return (out, a, count) => {
    for (let i = 0; i < count; i += 1) {
      const value = of(a[i] as number);
      out[i] = value + (value - value);
    }
  };
}

export function smaller(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) out[i] = Math.min(a[i] as number, b[i] as number);
}

export function larger(out: Block, a: Block, b: Block, count: number): void {
  for (let i = 0; i < count; i += 1) out[i] = Math.max(a[i] as number, b[i] as number);
}

export type Several = (out: Block, operands: readonly Block[], count: number) => void;

/** A function of several numbers; undefined for any other function. */
export function severalLoop(name: string): Several | undefined {
  const rule = functionOfSeveral(name);
  if (rule === undefined) return undefined;
  return (out, operands, count) => {
    const x = operands.map(() => 0);
    for (let i = 0; i < count; i += 1) {
      for (let place = 0; place < x.length; place += 1) x[place] = operands[place]?.[i] as number;
      const value = rule.value(x);
      out[i] = value + (value - value);
    }
  };
}

/** 1 where the comparison holds, 0 where it does not, NaN where a side has no value: the difference of both says all three. */
export function comparison(operator: ComparisonOperator): Binary {
  const whereEqual = operator === '<=' || operator === '>=' ? 1 : 0;
  const less = operator === '<' || operator === '<=';
  return (out, a, b, count) => {
    for (let i = 0; i < count; i += 1) {
      const difference = less ? (a[i] as number) - (b[i] as number) : (b[i] as number) - (a[i] as number);
      out[i] = difference < 0 ? 1 : difference > 0 ? 0 : whereEqual + difference;
    }
  };
}

/** `and` of truths is `if a then b else 0`, `or` is `if a then 1 else b`: both stop where the answer is known, as in scalars. */
export function chosen(out: Block, [condition, a, b]: readonly [Block, Block, Block], count: number): void {
  for (let i = 0; i < count; i += 1) {
    const holds = condition[i] as number;
    // The difference hands on the NaN of a condition that has no answer.
    out[i] = (holds === 1 ? (a[i] as number) : (b[i] as number)) + (holds - holds);
  }
}

/** Whether a condition holds at all places (1), at none (0), or has different answers or none. */
export function sharedAnswer(condition: Block, count: number): 0 | 1 | undefined {
  const [first] = condition;
  if (first !== 0 && first !== 1) return undefined;
  for (let i = 1; i < count; i += 1) if (condition[i] !== first) return undefined;
  return first;
}
