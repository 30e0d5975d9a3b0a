import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDimensions, differentiate, evaluate, evaluateBlock, evaluateWithPartials, parseFormula, printFormula, typeset } from '../../../src/core/formula/index.ts';
import { DIMENSIONLESS, LENGTH_DIMENSION } from '../../../src/core/units/index.ts';
import tables from '../../tables/quantiles.json' with { type: 'json' };
import { environment, read, shape } from './expressions.ts';

const NAMES = ['x', 'n', 'm'] as const;

/**
 * Value and slopes by the arguments, computed with mpmath 1.3.0 at 25 digits: densities from their definitions by the gamma function, shares by
 * quadrature of those, quantiles by root search, slopes by numerical differentiation.
 */
const COMPUTED: readonly (readonly [text: string, at: readonly number[], value: number, slopes: readonly number[]])[] = [
  ['student(x, n)', [1.5, 7], 0.911350756505015, [0.12626306128596, 0.0030115824951819]],
  ['student_density(x, n)', [-0.7, 4.5], 0.28413761452208786, [0.21922441200602, 0.0057952191504454]],
  ['student_quantile(x, n)', [0.975, 11], 2.2009851600916397, [22.899969119854, -0.024412161401801]],
  ['chi_square(x, n)', [12, 9], 0.7866906949165835, [0.056375218287529, -0.067322628162555]],
  ['chi_square_density(x, n)', [3.5, 5], 0.1513127534719715, [-0.010808053819427, -0.010859780829619]],
  ['chi_square_quantile(x, n)', [0.05, 9], 3.325112843066815, [20.701220613285, 0.60447228441083]],
  ['fisher(x, n, m)', [2.5, 3, 12], 0.8908452876049937, [0.09117723197252, 0.012645213434976, 0.0041590898325962]],
  ['fisher_density(x, n, m)', [0.8, 4, 9], 0.5414240784614274, [-0.4770744953656, 0.048561093600356, 0.0092733110576844]],
  ['fisher_quantile(x, n, m)', [0.95, 2, 11], 3.9822979570944854, [34.481083480344, -0.53869331147137, -0.10750061576039]],
  // z and √(2π) exp(z²/2): any table of the normal distribution.
  ['normal_quantile(x)', [0.975], 1.959963984540054, [17.110083080333]],
];

/** Printed tables, as in NIST/SEMATECH e-Handbook 1.3.6.7 (from memory; the digits are those of every such table). */
const PRINTED: readonly (readonly [string, number, number])[] = [
  ['normal_quantile(0.90)', 1.282, 0.0005], ['normal_quantile(0.99)', 2.326, 0.0005],
  ['student_quantile(0.975, 10)', 2.228, 0.0005], ['student_quantile(0.95, 4)', 2.132, 0.0005],
  ['chi_square_quantile(0.95, 10)', 18.307, 0.0005], ['chi_square_quantile(0.025, 20)', 9.591, 0.0005],
  ['fisher_quantile(0.95, 2, 10)', 4.103, 0.0005], ['fisher_quantile(0.95, 5, 10)', 3.326, 0.0005],
];

const at = (values: readonly number[]) => environment(Object.fromEntries(NAMES.map((name, i) => [name, values[i] ?? Number.NaN])));

function valueOf(text: string, values: readonly number[] = []): number {
  const result = evaluate(read(text), at(values));
  if (!result.ok) throw new Error(`${text}: ${result.problem.what}`);
  return result.value;
}

describe('distributions in formulas', () => {
  it.each(COMPUTED)('%s at %j, with its slopes', (text, values, value, slopes) => {
    const result = evaluateWithPartials(read(text), at(values));
    if (!result.ok) throw new Error(result.problem.what);
    expect(Math.abs(result.value.value / value - 1)).toBeLessThan(1e-12);
    for (const [i, slope] of slopes.entries()) {
      const name = NAMES[i] ?? 'x';
      const tolerance = i === 0 ? 1e-11 : 1e-8;
      expect(Math.abs((result.value.partials.get(name) ?? 0) / slope - 1), name).toBeLessThan(tolerance);
      const shown = differentiate(read(text), name);
      const symbolic = evaluate(shown, at(values));
      expect(symbolic.ok ? Math.abs(symbolic.value / slope - 1) : symbolic.problem.what, name).toBeLessThan(1e-7);
      const again = parseFormula(printFormula(shown));
      expect(again.ok && shape(again.value)).toEqual(shape(shown));
    }
  });

  it('gives the quantiles of printed tables', () => {
    for (const [text, printed, half] of PRINTED) expect(Math.abs(valueOf(text) - printed), text).toBeLessThanOrEqual(half);
    for (const [degrees = 0, confidence = 0, t = 0] of tables['t two-sided'].rows) {
      expect(Math.abs(valueOf('student_quantile(x, n)', [(1 + confidence) / 2, degrees]) / t - 1)).toBeLessThan(1e-10);
    }
    for (const [above = 0, below = 0, p = 0, f = 0] of tables.F.rows) {
      expect(Math.abs(valueOf('fisher_quantile(x, n, m)', [p, above, below]) / f - 1)).toBeLessThan(1e-10);
    }
  });

  it('undo each other, for any share and any degrees of freedom that are taken', () => {
    const degrees = fc.double({ min: -0.9, max: 8.9, noNaN: true }).map((power) => 10 ** power);
    const pairs = [['normal(normal_quantile(x))'], ['student(student_quantile(x, n), n)'], ['chi_square(chi_square_quantile(x, n), n)'], ['fisher(fisher_quantile(x, n, m), n, m)']] as const;
    fc.assert(fc.property(fc.double({ min: 0.001, max: 0.999, noNaN: true }), degrees, degrees, (p, n, m) => {
      for (const [text] of pairs) expect(Math.abs(valueOf(text, [p, n, m]) / p - 1), text).toBeLessThan(1e-8);
    }), { numRuns: 60 });
  });

  it('never throw, whatever the numbers are', () => {
    const any = fc.oneof(fc.double(), fc.double({ min: 0, max: 1 }), fc.constantFrom(0, 1, 1e-300, 1e300, 1e9, 0.1, 0.5));
    fc.assert(fc.property(any, any, any, (x, n, m) => {
      for (const [text] of COMPUTED) {
        const result = evaluateWithPartials(read(text), at([x, n, m]));
        const numbers = result.ok ? [result.value.value, ...result.value.partials.values()] : [0];
        expect(numbers.every(Number.isFinite), text).toBe(true);
      }
    }), { numRuns: 150 });
  });

  it('are the same in blocks, with NaN where there is no value', () => {
    for (const [text, values] of COMPUTED) {
      const columns = { x: Float64Array.of(values[0] ?? 0, Number.NaN, values[0] ?? 0), n: values[1] ?? 0, m: values[2] ?? 0 };
      const block = evaluateBlock(read(text), (name) => columns[name as 'x'], () => 0, 3);
      const own = valueOf(text, values);
      expect([...block], text).toEqual([own, Number.NaN, own]);
    }
  });

  it('name the argument at fault', () => {
    const said = (text: string, values: readonly number[]): string => {
      const result = evaluate(read(text), at(values));
      return result.ok ? '' : `${result.problem.what} ${result.problem.mend}`;
    };
    expect(said('student_quantile(x, n)', [1.5, 4])).toBe('student_quantile(x, n) has no value: x is 1.5 in SI units. student_quantile needs a share between 0 and 1, and degrees of freedom between 0.1 and 10^9: check x.');
    expect(said('student_quantile(x, n)', [0.5, 0])).toContain('n is 0.');
    expect(said('fisher(x, n, m)', [0.5, 3, -1])).toContain('m is -1');
    expect(said('chi_square_density(x, n)', [-1, 3])).toContain('a number above zero');
    expect(said('normal_quantile(x)', [1])).toContain('a share between 0 and 1');
  });

  it('take plain numbers only', () => {
    expect(checkDimensions(read('fisher_quantile(x, n, m)'), () => DIMENSIONLESS)).toMatchObject({ ok: true, value: DIMENSIONLESS });
    expect(checkDimensions(read('fisher_quantile(x, n, m)'), (name) => (name === 'm' ? LENGTH_DIMENSION : DIMENSIONLESS)).ok).toBe(false);
  });

  it('are set as tables head them', () => {
    expect(['normal_quantile((1 + P)/2)', 'student_quantile(0.975, n - 1)^2', 'chi_square_quantile(p, n)', 'fisher_quantile(p, n, m)', 'student(x, n)', 'chi_square_density(x, n)']
      .map((text) => typeset(read(text)))).toEqual([
      'z_{\\left(1 + P\\right)/2}', '\\left(t_{0.975,\\,n - 1}\\right)^{2}', '\\chi^2_{p,\\,n}', 'F_{p,\\,n,\\,m}', 'P\\left(t_{n} \\le x\\right)', 'f_{\\chi^2_{n}}\\left(x\\right)',
    ]);
  });
});
