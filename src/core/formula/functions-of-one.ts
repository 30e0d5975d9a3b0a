import { normalCumulative, normalDensity, normalQuantile } from '../numeric/index.ts';

/** A function of one number: its value and slope, and what it asks of its argument. */
interface FunctionOfOne {
  /** NaN or an infinity where there is no value. */
  readonly value: (x: number) => number;
  /** Derivative at x, where the value is y. */
  readonly slope: (x: number, y: number) => number;
  /** What the argument must be, for the sentence about a missing value. */
  readonly needs: string;
}

/** Numerical rules. At its kink abs(x) counts as max(x, -x) and macaulay(x) as max(x, 0), both with the first argument. */
const RULES: Readonly<Record<string, FunctionOfOne>> = {
  sqrt: { value: Math.sqrt, slope: (_x, y) => 0.5 / y, needs: 'zero or more' },
  cbrt: { value: Math.cbrt, slope: (_x, y) => 1 / (3 * y * y), needs: 'a smaller number' },
  abs: { value: Math.abs, slope: (x) => (x >= 0 ? 1 : -1), needs: 'a smaller number' },
  ln: { value: Math.log, slope: (x) => 1 / x, needs: 'a number above zero' },
  log10: { value: Math.log10, slope: (x) => 1 / (x * Math.LN10), needs: 'a number above zero' },
  exp: { value: Math.exp, slope: (_x, y) => y, needs: 'a number below 709' },
  normal: { value: normalCumulative, slope: (x) => normalDensity(x), needs: 'a number' },
  normal_quantile: { value: normalQuantile, slope: (_p, z) => 1 / normalDensity(z), needs: 'a share between 0 and 1' },
  sin: { value: Math.sin, slope: (x) => Math.cos(x), needs: 'an angle' },
  cos: { value: Math.cos, slope: (x) => -Math.sin(x), needs: 'an angle' },
  tan: { value: Math.tan, slope: (_x, y) => 1 + y * y, needs: 'an angle' },
  asin: { value: Math.asin, slope: (x) => 1 / Math.sqrt((1 - x) * (1 + x)), needs: 'a number between -1 and 1' },
  acos: { value: Math.acos, slope: (x) => -1 / Math.sqrt((1 - x) * (1 + x)), needs: 'a number between -1 and 1' },
  atan: { value: Math.atan, slope: (x) => 1 / (1 + x * x), needs: 'a smaller number' },
  macaulay: { value: (x) => Math.max(x, 0), slope: (x) => (x >= 0 ? 1 : 0), needs: 'a smaller number' },
};

const BY_NAME: ReadonlyMap<string, FunctionOfOne> = new Map(Object.entries(RULES));

export function functionOfOne(name: string): FunctionOfOne {
  const rule = BY_NAME.get(name);
  if (rule === undefined) throw new Error(`No function of one number is called ${name}.`);
  return rule;
}
