import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { differentiate, evaluate, evaluateWithPartials, parseFormula, printFormula, type Expression } from '../../../src/core/formula/index.ts';
import { GENTLE_TREE, environment, numberTree, read, shape } from './expressions.ts';
import { cases } from '../../sizes.ts';

describe('differentiate', () => {
  // Rules of differentiation: any calculus table; each row worked by hand.
  it.each([
    ['x', 'x', '1'],
    ['y', 'x', '0'],
    ['u(x)', 'x', '0'],
    ['best(x)*y', 'x', '0'],
    ['3*x + 2', 'x', '3'],
    ['-x', 'x', '-1'],
    ['x*y', 'x', 'y'],
    ['M*c/I', 'M', 'c/I'],
    ['M*c/I', 'I', '-(M*c/I^2)'],
    ['pi*d^4/64', 'd', 'pi*d^3/16'],
    ['x^2', 'x', '2*x'],
    ['x^(1/2)', 'x', '1/2*x^(-(1/2))'],
    ['x^(-1/3)', 'x', '-1/3*x^(-(4/3))'],
    ['4.51*x^(-0.265)', 'x', '-(1.19515*x^(-1.265))'],
    ['2^x', 'x', '2^x*ln(2)'],
    ['x^x', 'x', 'x^x*(ln(x) + x/x)'],
    ['sqrt(x)', 'x', '1/(2*sqrt(x))'],
    ['cbrt(x)', 'x', '1/(3*cbrt(x)^2)'],
    ['ln(2*x)', 'x', '2/(2*x)'],
    ['log10(x)', 'x', '1/(x*ln(10))'],
    ['exp(-x)', 'x', '-exp(-x)'],
    ['sin(2*x)', 'x', '2*cos(2*x)'],
    ['cos(x)', 'x', '-sin(x)'],
    ['tan(x)', 'x', '1 + tan(x)^2'],
    ['asin(x)', 'x', '1/sqrt(1 - x^2)'],
    ['acos(x)', 'x', '-(1/sqrt(1 - x^2))'],
    ['atan(x)', 'x', '1/(1 + x^2)'],
    ['mean(x, y, x, z)', 'x', '2/4'],
    ['abs(x - y)', 'y', 'if(x - y >= 0, -1, 1)'],
    ['R_A*x_s - F_1*macaulay(x_s - l_1)', 'x_s', 'R_A - F_1*if(x_s - l_1 >= 0, 1, 0)'],
    ['max(x, y, 3)', 'y', 'if(x >= max(y, 3), 0, if(y >= 3, 1, 0))'],
    ['min(x, 2*x)', 'x', 'if(x <= 2*x, 1, 2)'],
    ['if(x < 1, x^3, 5)', 'x', 'if(x < 1, 3*x^2, 0)'],
    ['(0.1 + x)*0.2 + 0.3*x', 'x', '0.5'],
  ])('d(%s)/d%s = %s', (text, name, derivative) => {
    expect(printFormula(differentiate(read(text), name))).toBe(derivative);
  });

  it('has the value of the partial that evaluation gives, and is a formula itself', () => {
    let compared = 0;
    const thousandths = fc.integer({ min: 300, max: 2000 }).map((step) => step / 1000);
    fc.assert(fc.property(numberTree(GENTLE_TREE, 4), thousandths, thousandths, thousandths, (e, x, y, z) => {
      const env = environment({ x, y, z: z - 1 });
      const direct = evaluateWithPartials(e, env);
      for (const name of ['x', 'y', 'z']) {
        const derivative: Expression = differentiate(e, name);
        // Only the limits of length and height may stand against reading it again.
        const again = parseFormula(printFormula(derivative));
        const readAgain = again.ok ? shape(again.value) : again.problem.code;
        expect([shape(derivative), 'formula-long', 'formula-deep', 'formula-chained']).toContainEqual(readAgain);
        const symbolic = evaluate(derivative, env);
        // The symbolic form may lack a value where the partial has one: u^v needs ln(u), 0 times an infinite slope.
        if (!direct.ok || !symbolic.ok) continue;
        compared += 1;
        const partial = direct.value.partials.get(name) ?? 0;
        const scale = Math.max(1, Math.abs(partial), Math.abs(direct.value.value));
        expect(Math.abs(symbolic.value - partial)).toBeLessThanOrEqual(1e-9 * scale);
      }
    }), { numRuns: cases(1500) });
    expect(compared).toBeGreaterThan(cases(2500));
  });
});
