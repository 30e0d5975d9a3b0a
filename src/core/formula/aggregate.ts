import { call, quotient } from './build.ts';
import { literalNumber } from './substitute.ts';
import type { Expression } from './types.ts';

export type Aggregate = 'sum' | 'mean' | 'min' | 'max';

/** One value from many parts. @param parts at least one, but for a sum, which is then 0 */
export function aggregateOf(aggregate: Aggregate, parts: readonly Expression[]): Expression {
  switch (aggregate) {
    case 'sum':
      return sumOf(parts);
    case 'mean':
      return quotient(sumOf(parts), literalNumber(parts.length));
    default:
      return call(aggregate, ...parts);
  }
}

/** Of values with exactly known factors. */
export function weightedSum(weights: ArrayLike<number>, parts: readonly Expression[]): Expression {
  const span = { start: 0, end: 0 };
  return sumOf(parts.map((part, i) => ({ kind: 'arithmetic', operator: '*', left: literalNumber(weights[i] ?? Number.NaN), right: part, span })));
}

/** As a tree whose height grows with the logarithm of the number of parts. */
function sumOf(parts: readonly Expression[]): Expression {
  const [only] = parts;
  if (only === undefined) return literalNumber(0);
  if (parts.length === 1) return only;
  const middle = parts.length >> 1;
  return {
    kind: 'arithmetic', operator: '+', left: sumOf(parts.slice(0, middle)), right: sumOf(parts.slice(middle)), span: { start: 0, end: 0 },
  };
}
