import type { Expression } from './types.ts';
import { call, difference, lessOne, negative, number, ONE_NUMBER, power, product, quotient, sum } from './build.ts';

/** Share by which degrees of freedom are moved up and down for the difference that stands for their slope, which has no closed form. */
const STEP = 1e-4;

/**
 * The derivative by one argument of a function of a distribution (`student`, `chi_square_quantile`, …), to be shown; undefined for any other function.
 * Along x it is the density, along a share one over it; along degrees of freedom a quotient of differences.
 */
export function distributionSlope(name: string, parts: readonly Expression[], place: number): Expression | undefined {
  const family = /^(student|chi_square|fisher)(_density|_quantile)?$/.exec(name);
  const moved = parts[place];
  if (family === null || moved === undefined) return undefined;
  const [, distribution = '', what] = family;
  if (place > 0) {
    const at = (factor: number): Expression => call(name, ...parts.with(place, product(number(factor), moved)));
    return quotient(difference(at(1 + STEP), at(1 - STEP)), product(number(2 * STEP), moved));
  }
  if (what === undefined) return call(`${distribution}_density`, ...parts);
  if (what === '_quantile') return quotient(ONE_NUMBER, call(`${distribution}_density`, ...parts.with(0, call(name, ...parts))));
  return product(call(name, ...parts), bend(distribution, parts));
}

/** d ln density / dx. */
function bend(distribution: string, parts: readonly Expression[]): Expression {
  const [x = ONE_NUMBER, n = ONE_NUMBER, m = ONE_NUMBER] = parts;
  const half = lessOne(quotient(n, number(2)));
  switch (distribution) {
    case 'student':
      return negative(quotient(product(sum(n, ONE_NUMBER), x), sum(n, power(x, number(2)))));
    case 'chi_square':
      return difference(quotient(half, x), quotient(ONE_NUMBER, number(2)));
    default:
      return difference(quotient(half, x), quotient(product(sum(n, m), n), product(number(2), sum(m, product(n, x)))));
  }
}
