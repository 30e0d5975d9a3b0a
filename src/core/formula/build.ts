/** Expressions made by us, not read from a text: each constructor tidies what it is given, so that derivatives stay readable. */
import type { ComparisonOperator, Expression } from './types.ts';
import { isLiteralZero } from './expression.ts';

/** Made expressions stand in no text. */
const NOWHERE = { start: 0, end: 0 };
/** A folded constant keeps this many digits, so that 0.1 + 0.2 reads 0.3. */
const DIGITS = 15;

export function number(value: number): Expression {
  const tidy = Number(value.toPrecision(DIGITS));
  return tidy < 0 ? negative(number(-tidy)) : { kind: 'number', value: tidy, text: String(tidy), span: NOWHERE };
}

export function symbol(name: string): Expression {
  return { kind: 'symbol', name, span: NOWHERE };
}

export const ZERO = number(0);
export const ONE_NUMBER = number(1);

/** The value of a number as it is written, with its sign; pi stays pi. */
function literal(e: Expression): number | undefined {
  if (e.kind === 'number') return e.text === 'pi' ? undefined : e.value;
  return e.kind === 'negative' && e.operand.kind === 'number' && e.operand.text !== 'pi' ? -e.operand.value : undefined;
}

function folded(a: Expression, b: Expression, combine: (x: number, y: number) => number): Expression | undefined {
  const [x, y] = [literal(a), literal(b)];
  if (x === undefined || y === undefined) return undefined;
  const value = combine(x, y);
  return Number.isFinite(value) ? number(value) : undefined;
}

export function negative(e: Expression): Expression {
  if (isLiteralZero(e)) return e;
  return e.kind === 'negative' ? e.operand : { kind: 'negative', operand: e, span: NOWHERE };
}

function arithmetic(operator: '+' | '-' | '*' | '/' | '^', left: Expression, right: Expression): Expression {
  return { kind: 'arithmetic', operator, left, right, span: NOWHERE };
}

export function sum(a: Expression, b: Expression): Expression {
  if (isLiteralZero(a)) return b;
  if (isLiteralZero(b)) return a;
  if (b.kind === 'negative') return difference(a, b.operand);
  return folded(a, b, (x, y) => x + y) ?? arithmetic('+', a, b);
}

export function difference(a: Expression, b: Expression): Expression {
  if (isLiteralZero(b)) return a;
  if (isLiteralZero(a)) return negative(b);
  if (b.kind === 'negative') return sum(a, b.operand);
  return folded(a, b, (x, y) => x - y) ?? arithmetic('-', a, b);
}

/** A product that begins with a number, in its two parts. */
function factored(e: Expression): { factor: Expression; rest: Expression } | undefined {
  if (e.kind !== 'arithmetic' || e.operator !== '*' || literal(e.left) === undefined) return undefined;
  return { factor: e.left, rest: e.right };
}

/** Signs go outside, numbers to the front. */
export function product(a: Expression, b: Expression): Expression {
  if (isLiteralZero(a) || isLiteralZero(b)) return ZERO;
  if (literal(a) === 1) return b;
  if (literal(b) === 1) return a;
  if (a.kind === 'negative') return negative(product(a.operand, b));
  if (b.kind === 'negative') return negative(product(a, b.operand));
  const constant = folded(a, b, (x, y) => x * y);
  if (constant !== undefined) return constant;
  if (literal(b) !== undefined) return product(b, a);
  const inner = factored(b);
  if (inner !== undefined) {
    const factor = folded(a, inner.factor, (x, y) => x * y);
    return factor === undefined ? arithmetic('*', inner.factor, product(a, inner.rest)) : product(factor, inner.rest);
  }
  return arithmetic('*', a, b);
}

/** Numbers fold only where they divide evenly: 1/3 stays a fraction. */
export function quotient(a: Expression, b: Expression): Expression {
  if (isLiteralZero(a)) return ZERO;
  if (literal(b) === 1) return a;
  if (a.kind === 'negative') return negative(quotient(a.operand, b));
  if (b.kind === 'negative') return negative(quotient(a, b.operand));
  const even = evenQuotient(a, b);
  if (even !== undefined) return even;
  const inner = factored(a);
  if (inner !== undefined) {
    const [above, below] = [evenQuotient(inner.factor, b), evenQuotient(b, inner.factor)];
    if (above !== undefined) return product(above, inner.rest);
    if (below !== undefined) return quotient(inner.rest, below);
  }
  return arithmetic('/', a, b);
}

function evenQuotient(a: Expression, b: Expression): Expression | undefined {
  return folded(a, b, (x, y) => (Number.isInteger(x / y) ? x / y : NaN));
}

export function power(base: Expression, exponent: Expression): Expression {
  if (literal(exponent) === 0) return ONE_NUMBER;
  return literal(exponent) === 1 ? base : arithmetic('^', base, exponent);
}

/** The exponent less one; a fraction of two numbers stays a fraction. */
export function lessOne(exponent: Expression): Expression {
  if (exponent.kind === 'arithmetic' && exponent.operator === '/') {
    const [above, below] = [literal(exponent.left), literal(exponent.right)];
    if (above !== undefined && below !== undefined) return quotient(number(above - below), exponent.right);
  }
  if (exponent.kind === 'negative' && exponent.operand.kind === 'arithmetic' && exponent.operand.operator === '/') {
    const { left, right } = exponent.operand;
    const [above, below] = [literal(left), literal(right)];
    if (above !== undefined && below !== undefined) return negative(quotient(number(above + below), right));
  }
  return difference(exponent, ONE_NUMBER);
}

export function call(name: string, ...parts: readonly Expression[]): Expression {
  return { kind: 'call', name, arguments: parts, span: NOWHERE };
}

export function comparison(left: Expression, operator: ComparisonOperator, right: Expression): Expression {
  return { kind: 'comparison', operator, left, right, span: NOWHERE };
}
