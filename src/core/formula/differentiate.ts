import type { Expression } from './types.ts';
import { ONE_NUMBER, ZERO, call, comparison, difference, lessOne, negative, number, power, product, quotient, sum } from './build.ts';
import { distributionSlope } from './distribution-slopes.ts';
import { dependsOn, isLiteralZero } from './expression.ts';

/**
 * The derivative of the formula with respect to one symbol, lightly simplified, to be shown: evaluation uses
 * `evaluateWithPartials`. Spans are empty. Functions with a kink come out as `if`, with the same side at the kink as there;
 * `u(x)` is a constant.
 */
export function differentiate(e: Expression, name: string): Expression {
  if (!dependsOn(e, name)) return ZERO;
  switch (e.kind) {
    case 'symbol':
      return ONE_NUMBER;
    case 'negative':
      return negative(differentiate(e.operand, name));
    case 'arithmetic':
      return arithmeticDerivative(e, name);
    case 'call':
      return callDerivative(e.name, e.arguments, name);
    default:
      // A condition changes in jumps only.
      return ZERO;
  }
}

function arithmeticDerivative({ operator, left: a, right: b }: Extract<Expression, { kind: 'arithmetic' }>, name: string): Expression {
  const [da, db] = [differentiate(a, name), differentiate(b, name)];
  switch (operator) {
    case '+':
      return sum(da, db);
    case '-':
      return difference(da, db);
    case '*':
      return sum(product(da, b), product(a, db));
    case '/':
      if (isLiteralZero(db)) return quotient(da, b);
      return quotient(difference(product(da, b), product(a, db)), power(b, number(2)));
    case '^':
      return powerDerivative(a, b, da, db);
  }
}

function powerDerivative(a: Expression, b: Expression, da: Expression, db: Expression): Expression {
  if (isLiteralZero(db)) return product(product(b, power(a, lessOne(b))), da);
  const slope = sum(product(db, call('ln', a)), quotient(product(b, da), a));
  return product(power(a, b), slope);
}

function callDerivative(called: string, parts: readonly Expression[], name: string): Expression {
  const [a, ...others] = parts;
  if (a === undefined) return ZERO;
  const da = differentiate(a, name);
  switch (called) {
    case 'if':
      return call('if', a, ...others.map((branch) => differentiate(branch, name)));
    case 'min':
    case 'max':
      return extremeDerivative(called, a, others, name);
    case 'mean':
      return quotient(parts.map((part) => differentiate(part, name)).reduce(sum), number(parts.length));
    case 'reversals':
      return reversalsDerivative(parts, name);
    case 'abs':
      return call('if', comparison(a, '>=', ZERO), da, negative(da));
    case 'macaulay':
      return call('if', comparison(a, '>=', ZERO), da, ZERO);
    default:
      return distributionDerivative(called, parts, name) ?? smoothDerivative(called, a, da);
  }
}

function distributionDerivative(called: string, parts: readonly Expression[], name: string): Expression | undefined {
  return parts.reduce<Expression | undefined>((found, part, place) => {
    if (!dependsOn(part, name)) return found;
    const slope = distributionSlope(called, parts, place);
    return slope === undefined ? undefined : sum(found ?? ZERO, product(differentiate(part, name), slope));
  }, undefined);
}

function extremeDerivative(called: 'min' | 'max', a: Expression, others: readonly Expression[], name: string): Expression {
  const [b] = others;
  if (b === undefined) return differentiate(a, name);
  const rest = others.length === 1 ? b : call(called, ...others);
  return call('if', comparison(a, called === 'min' ? '<=' : '>=', rest), differentiate(a, name), differentiate(rest, name));
}

/** With F = elastic·x^b + plastic·x^c − strain = 0 and x the reversals, dx = −(what F changes by at fixed x)/(dF/dx). */
function reversalsDerivative(parts: readonly Expression[], name: string): Expression {
  const [strain = ZERO, elastic = ZERO, b = ZERO, plastic = ZERO, c = ZERO] = parts;
  const x = call('reversals', ...parts);
  const term = (start: Expression, exponent: Expression): Expression => {
    const slope = sum(differentiate(start, name), product(product(start, differentiate(exponent, name)), call('ln', x)));
    return product(slope, power(x, exponent));
  };
  const falling = (start: Expression, exponent: Expression): Expression => product(product(exponent, start), power(x, lessOne(exponent)));
  const moved = difference(differentiate(strain, name), sum(term(elastic, b), term(plastic, c)));
  return quotient(moved, sum(falling(elastic, b), falling(plastic, c)));
}

function smoothDerivative(called: string, a: Expression, da: Expression): Expression {
  const squared = power(a, number(2));
  switch (called) {
    case 'sqrt':
      return quotient(da, product(number(2), call('sqrt', a)));
    case 'cbrt':
      return quotient(da, product(number(3), power(call('cbrt', a), number(2))));
    case 'ln':
      return quotient(da, a);
    case 'log10':
      return quotient(da, product(a, call('ln', number(10))));
    case 'exp':
      return product(da, call('exp', a));
    case 'normal':
      return product(da, quotient(call('exp', negative(quotient(squared, number(2)))), number(Math.sqrt(2 * Math.PI))));
    case 'normal_quantile':
      return product(da, product(number(Math.sqrt(2 * Math.PI)), call('exp', quotient(power(call('normal_quantile', a), number(2)), number(2)))));
    case 'sin':
      return product(da, call('cos', a));
    case 'cos':
      return negative(product(da, call('sin', a)));
    case 'tan':
      return product(da, sum(ONE_NUMBER, power(call('tan', a), number(2))));
    case 'asin':
      return quotient(da, call('sqrt', difference(ONE_NUMBER, squared)));
    case 'acos':
      return negative(quotient(da, call('sqrt', difference(ONE_NUMBER, squared))));
    case 'atan':
      return quotient(da, sum(ONE_NUMBER, squared));
    default:
      throw new Error(`No derivative of ${called}.`);
  }
}
