import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDimensions, differentiate, evaluate, evaluateBlock, evaluateWithPartials, parseFormula, printFormula, typeset } from '../../../src/core/formula/index.ts';
import { DIMENSIONLESS, LENGTH_DIMENSION } from '../../../src/core/units/index.ts';
import { environment, read, shape } from './expressions.ts';

const CALL = read('reversals(epsilon, s, b, p, c)');
const NAMES = ['epsilon', 's', 'b', 'p', 'c'] as const;

/** Constants of an invented, typical steel. */
const STEEL = { epsilon: 0.006, s: 1758 / 207000, b: -0.0977, p: 0.5, c: -0.6 };

function valueAt(values: Readonly<Record<string, number>>): number {
  const result = evaluate(CALL, environment(values));
  if (!result.ok) throw new Error(result.problem.what);
  return result.value;
}

const lines = fc.record({
  epsilon: fc.double({ min: 1e-4, max: 0.05, noNaN: true }),
  s: fc.double({ min: 0.002, max: 0.02, noNaN: true }),
  b: fc.double({ min: -0.2, max: -0.04, noNaN: true }),
  p: fc.double({ min: 0.05, max: 2, noNaN: true }),
  c: fc.double({ min: -0.9, max: -0.4, noNaN: true }),
});

describe('reversals of the strain-life line', () => {
  it('finds the life of a strain amplitude', () => {
    // Computed with mpmath findroot for these constants: N = 3580.628611588861 cycles.
    expect(valueAt(STEEL) / 2 / 3580.628611588861 - 1).toBeCloseTo(0, 12);
  });

  it('puts back into the line, for any of its constants', () => {
    fc.assert(fc.property(lines, (values) => {
      const x = valueAt(values);
      const back = values.s * x ** values.b + values.p * x ** values.c;
      expect(Math.abs(back / values.epsilon - 1)).toBeLessThan(1e-12);
    }));
  });

  it('is one term’s own formula where the other is nothing', () => {
    expect(valueAt({ ...STEEL, p: 0 }) / (STEEL.epsilon / STEEL.s) ** (1 / STEEL.b) - 1).toBeCloseTo(0, 11);
    expect(valueAt({ ...STEEL, s: 0 }) / (STEEL.epsilon / STEEL.p) ** (1 / STEEL.c) - 1).toBeCloseTo(0, 11);
  });

  it('has partials that agree with differences and with the symbolic derivative', () => {
    fc.assert(fc.property(lines, (values) => {
      const direct = evaluateWithPartials(CALL, environment(values));
      if (!direct.ok) throw new Error(direct.problem.what);
      for (const name of NAMES) {
        const partial = direct.value.partials.get(name) ?? Number.NaN;
        const slope = (h: number) => (valueAt({ ...values, [name]: values[name] + h }) - valueAt({ ...values, [name]: values[name] - h })) / (2 * h);
        const h = 1e-4 * Math.abs(values[name]);
        const off = (4 * slope(h / 2) - slope(h)) / 3 - partial;
        expect(Math.abs((off * values[name]) / direct.value.value), name).toBeLessThan(1e-6);
        const symbolic = evaluate(differentiate(CALL, name), environment(values));
        expect(symbolic.ok && Math.abs(symbolic.value / partial - 1), name).toBeLessThan(1e-9);
      }
    }), { numRuns: 60 });
  });

  it('follows its arguments by the chain rule, and its derivative is a formula', () => {
    const e = read('reversals(2*x, x/3, -x, 5*x, -2*x)');
    const direct = evaluateWithPartials(e, environment({ x: 0.12 }));
    const derivative = differentiate(e, 'x');
    const symbolic = evaluate(derivative, environment({ x: 0.12 }));
    if (!direct.ok || !symbolic.ok) throw new Error('no value');
    expect(symbolic.value / (direct.value.partials.get('x') ?? 0) - 1).toBeCloseTo(0, 10);
    const again = parseFormula(printFormula(derivative));
    expect(again.ok && shape(again.value)).toEqual(shape(derivative));
  });

  it('is the same in blocks, with NaN where there is no value', () => {
    const strain = Float64Array.of(0.006, 0.002, -1, 0.01);
    const block = evaluateBlock(CALL, (name) => (name === 'epsilon' ? strain : STEEL[name as 's']), () => 0, 4);
    expect([...block].map((value, i) => value / (strain[i] === -1 ? Number.NaN : valueAt({ ...STEEL, epsilon: strain[i] ?? 0 })))).toEqual([1, 1, Number.NaN, 1]);
  });

  it('says what it needs', () => {
    for (const wrong of [{ epsilon: 0 }, { b: 0.1 }, { s: -1 }, { s: 0, p: 0 }]) {
      const result = evaluate(CALL, environment({ ...STEEL, ...wrong }));
      expect(result.ok ? '' : result.problem.mend).toContain('exponents below zero');
    }
    const clash = checkDimensions(CALL, (name) => (name === 'p' ? LENGTH_DIMENSION : DIMENSIONLESS));
    expect(clash.ok).toBe(false);
    expect(checkDimensions(CALL, () => DIMENSIONLESS)).toMatchObject({ ok: true, value: DIMENSIONLESS });
    expect(typeset(CALL)).toContain('\\operatorname{reversals}');
  });
});
