/**
 * Arithmetic over a block of draws. Each loop is written out, since a function called for every element costs more than
 * most operations. A draw without value is NaN and stays NaN; an infinity becomes NaN on the spot, so that a later 1/x
 * can't turn it into an innocent zero: `x + (x - x)` is x where x is finite, else NaN, and costs no branch.
 */
import type { Scratch } from './block-scratch.ts';
import { functionOfOne } from './functions-of-one.ts';
import { reversals } from './reversals.ts';

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
        out[i] = value + (value - value);
      }
      return out;
    case '-':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) - (b[i & maskB] as number);
        out[i] = value + (value - value);
      }
      return out;
    case '*':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) * (b[i & maskB] as number);
        out[i] = value + (value - value);
      }
      return out;
    case '/':
      for (let i = 0; i < count; i += 1) {
        const value = (a[i & maskA] as number) / (b[i & maskB] as number);
        out[i] = value + (value - value);
      }
      return out;
  }
}

/** x^p: multiplied out for small whole p, else exp(p ln x) where one side is the same for all draws. */
function powerDraws(scratch: Scratch, a: Draws, b: Draws, length: number): Draws {
  const [base, exponent] = [a[0] as number, b[0] as number];
  if (b.length === 1 && Number.isInteger(exponent) && Math.abs(exponent) <= LARGEST_MULTIPLIED) return wholePower(scratch, a, exponent, length);
  if (b.length === 1 && exponent === 0.5) return rootDraws(scratch, a, length);
  const { out, count } = targetFor(scratch, length, a, b);
  if (count > 1 && b.length === 1 && !Number.isInteger(exponent)) powersOfDraws(out, a, exponent, count);
  else if (count > 1 && a.length === 1 && base > 0) powersOfBase(out, base, b, count);
  else generalPowers(out, a, b, count);
  return out;
}

function powersOfDraws(out: Draws, a: Draws, exponent: number, count: number): void {
  for (let i = 0; i < count; i += 1) {
    const value = Math.exp(exponent * Math.log(a[i] as number));
    out[i] = value + (value - value);
  }
}

function powersOfBase(out: Draws, base: number, b: Draws, count: number): void {
  const logarithm = Math.log(base);
  for (let i = 0; i < count; i += 1) {
    const exponent = b[i] as number;
    // 10^3 is 1000, not a rounding step beside it.
    const value = exponent === Math.floor(exponent) ? base ** exponent : Math.exp(logarithm * exponent);
    out[i] = value + (value - value);
  }
}

function generalPowers(out: Draws, a: Draws, b: Draws, count: number): void {
  const [maskA, maskB] = [mask(a), mask(b)];
  for (let i = 0; i < count; i += 1) {
    const base = a[i & maskA] as number;
    const value = base ** (b[i & maskB] as number);
    // NaN to the power 0 would be 1.
    out[i] = value + (value - value) + (base - base);
  }
}

function wholePower(scratch: Scratch, a: Draws, exponent: number, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
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
  return out;
}

export function rootDraws(scratch: Scratch, a: Draws, length: number): Draws {
  const { out, count } = targetFor(scratch, length, a);
  for (let i = 0; i < count; i += 1) {
    const value = Math.sqrt(a[i] as number);
    out[i] = value + (value - value);
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
    out[i] = value + (value - value);
  }
  return out;
}

export function reversalsDraws(scratch: Scratch, parts: readonly Draws[], length: number): Draws {
  const { out, count } = targetFor(scratch, length, ...parts);
  const [strain, elastic, b, plastic, c] = parts.map((draws) => (i: number) => draws[i & mask(draws)] as number);
  if (!strain || !elastic || !b || !plastic || !c) throw new Error('reversals lacks an argument.');
  for (let i = 0; i < count; i += 1) {
    const value = reversals([strain(i), elastic(i), b(i), plastic(i), c(i)]);
    out[i] = value + (value - value);
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
    // The difference hands on the NaN of a condition that has no answer.
    out[i] = (holds === 1 ? (a[i & maskA] as number) : (b[i & maskB] as number)) + (holds - holds);
  }
  return out;
}
