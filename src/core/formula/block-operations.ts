/**
 * Arithmetic over a block of draws. Each loop is written out, since a function called for every element costs more than
 * most operations. A draw without value is NaN and stays NaN; an infinity becomes NaN on the spot, so that a later 1/x
 * can't turn it into an innocent zero: `x + 0 * x` is x where x is finite, else NaN, and costs no branch.
 */
import type { Scratch } from './block-scratch.ts';
import { functionOfOne } from './functions-of-one.ts';

/** One value for each draw, or a single element that stands for all of them. */
export type Draws = Float64Array;

/** Whole exponents up to this size are multiplied out; others go by exponential and logarithm. */
const LARGEST_MULTIPLIED = 16;

/** Index mask: every element, or always the first. */
function mask(draws: Draws): number {
  return draws.length === 1 ? 0 : -1;
}

/** Where the result goes, and how many elements it has. */
interface Target {
  readonly out: Draws;
  readonly count: number;
}

function targetFor(scratch: Scratch, length: number, ...operands: readonly Draws[]): Target {
  if (operands.every((operand) => operand.length === 1)) return { out: new Float64Array(1), count: 1 };
  return { out: scratch.target(operands), count: length };
}

export function arithmeticDraws(scratch: Scratch, operator: '+' | '-' | '*' | '/' | '^', a: Draws, b: Draws, length: number): Draws {
  if (operator === '^') return powerDraws(scratch, a, b, length);
  const { out, count } = targetFor(scratch, length, a, b);
  const [maskA, maskB] = [mask(a), mask(b)];
  switch (operator) {
    case '+':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) + (b[i & maskB] as number);
        out[i] = value + 0 * value;
      }
      return out;
    case '-':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) - (b[i & maskB] as number);
        out[i] = value + 0 * value;
      }
      return out;
    case '*':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) * (b[i & maskB] as number);
        out[i] = value + 0 * value;
      }
      return out;
    case '/':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) / (b[i & maskB] as number);
        out[i] = value + 0 * value;
      }
      return out;
  }
}

/** x^p: multiplied out for small whole p, else exp(p ln x) where one side is the same for all draws. */
function powerDraws(scratch: Scratch, a: Draws, b: Draws, length: number): Draws {
  const exponent = b.length === 1 ? (b[0] as number) : NaN;
  if (Number.isInteger(exponent) && Math.abs(exponent) <= LARGEST_MULTIPLIED) return wholePower(scratch, a, exponent, length);
  if (exponent === 0.5) return rootDraws(scratch, a, length);
  const { out, count } = targetFor(scratch, length, a, b);
  const [maskA, maskB] = [mask(a), mask(b)];
  if (b.length === 1 && !Number.isInteger(exponent)) {
    for (let i = 0; i < count; i += 1) {
      const value = Math.exp(exponent * Math.log(a[i & maskA] as number));
      out[i] = value + 0 * value;
    }
    return out;
  }
  if (a.length === 1 && (a[0] as number) > 0) {
    const logarithm = Math.log(a[0] as number);
    for (let i = 0; i < count; i += 1) {
      const value = Math.exp(logarithm * (b[i & maskB] as number));
      out[i] = value + 0 * value;
    }
    return out;
  }
  for (let i = 0; i < count; i += 1) {
    const base = a[i & maskA] as number;
    const value = base ** (b[i & maskB] as number);
    // NaN to the power 0 would be 1.
    out[i] = value + 0 * (value + base);
  }
  return out;
}

function wholePower(scratch: Scratch, a: Draws, exponent: number, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
  const times = Math.abs(exponent);
  for (let i = 0; i < count; i += 1) {
    const base = a[i] as number;
    let square = base;
    let value = 1 + 0 * base;
    for (let left = times; left > 0; left >>= 1) {
      if ((left & 1) === 1) value *= square;
      square *= square;
    }
    if (exponent < 0) value = 1 / value;
    out[i] = value + 0 * value;
  }
  return out;
}

export function rootDraws(scratch: Scratch, a: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
  for (let i = 0; i < count; i += 1) {
    const value = Math.sqrt(a[i] as number);
    out[i] = value + 0 * value;
  }
  return out;
}

export function negativeDraws(scratch: Scratch, a: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
  for (let i = 0; i < count; i += 1) out[i] = -(a[i] as number);
  return out;
}

export function functionDraws(scratch: Scratch, name: string, a: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
  const { value: of } = functionOfOne(name);
  for (let i = 0; i < count; i += 1) {
    const value = of(a[i] as number);
    out[i] = value + 0 * value;
  }
  return out;
}

export function extremeDraws(scratch: Scratch, name: 'min' | 'max', a: Draws, b: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a, b);
  const [maskA, maskB] = [mask(a), mask(b)];
  if (name === 'min') for (let i = 0; i < count; i += 1) out[i] = Math.min(a[i & maskA] as number, b[i & maskB] as number);
  else for (let i = 0; i < count; i += 1) out[i] = Math.max(a[i & maskA] as number, b[i & maskB] as number);
  return out;
}

/** Truths are 1 and 0, and NaN where a side has no value: such a draw belongs to neither branch. */
export function comparisonDraws(scratch: Scratch, operator: '<' | '<=' | '>' | '>=', a: Draws, b: Draws, length: number): Draws {
  if (operator === '>' || operator === '>=') return comparisonDraws(scratch, operator === '>' ? '<' : '<=', b, a, length);
  const { out, count } = targetFor(scratch, length, a, b);
  const [maskA, maskB] = [mask(a), mask(b)];
  const whereEqual = operator === '<' ? 0 : 1;
  for (let i = 0; i < count; i += 1) {
    const difference = (a[i & maskA] as number) - (b[i & maskB] as number);
    out[i] = difference < 0 ? 1 : difference > 0 ? 0 : whereEqual + difference;
  }
  return out;
}

/** `and` of truths is `if a then b else 0`, `or` is `if a then 1 else b`: both stop where the answer is known, as in scalars. */
export function chosenDraws(scratch: Scratch, condition: Draws, a: Draws, b: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, condition, a, b);
  const [maskC, maskA, maskB] = [mask(condition), mask(a), mask(b)];
  for (let i = 0; i < count; i += 1) {
    const holds = condition[i & maskC] as number;
    // 0 * holds hands on the NaN of a condition that has no answer.
    out[i] = (holds === 1 ? (a[i & maskA] as number) : (b[i & maskB] as number)) + 0 * holds;
  }
  return out;
}
