import { describe, expect, it } from 'vitest';
import {
  chiSquareQuantile, erf, erfc, fisherQuantile, incompleteBeta, incompleteGamma, logGamma, normalCumulative, normalDensity,
  normalQuantile, studentQuantile,
} from '../../../src/core/numeric/index.ts';
import precise from '../../tables/quantiles-precise.json' with { type: 'json' };
import tables from '../../tables/quantiles.json' with { type: 'json' };

// Sources, and how the numbers were computed, stand in the tables.

type Row = readonly number[];

/** Rows, arguments and then the expected value, that are missed by more than the tolerance. */
function missed(rows: readonly Row[], evaluate: (row: Row) => number, relative: number): readonly Row[] {
  if (rows.length < 5) throw new Error('the table has lost its rows');
  return rows.flatMap((row) => {
    const expected = row[row.length - 1] ?? Number.NaN;
    const got = evaluate(row);
    return Math.abs(got - expected) <= relative * Math.abs(expected) ? [] : [[...row, got]];
  });
}

const argument = (row: Row, place: number): number => row[place] ?? Number.NaN;
const byOne = (f: (x: number) => number) => (row: Row) => f(argument(row, 0));
const byTwo = (f: (x: number, y: number) => number) => (row: Row) => f(argument(row, 0), argument(row, 1));
const byThree = (f: (x: number, y: number, z: number) => number) => (row: Row) => f(argument(row, 0), argument(row, 1), argument(row, 2));

describe('values computed with many digits (mpmath)', () => {
  it('erf and erfc, to 1e-14', () => {
    expect(missed(precise.erf, byOne(erf), 1e-14)).toEqual([]);
    expect(missed(precise.erfc, byOne(erfc), 1e-14)).toEqual([]);
  });
  it('normal distribution, tails kept', () => {
    expect(missed(precise['normal cumulative'], byOne(normalCumulative), 1e-14)).toEqual([]);
    expect(missed(precise['normal quantile'], byOne(normalQuantile), 1e-14)).toEqual([]);
  });
  it('log gamma, incomplete beta and gamma', () => {
    expect(missed(precise['log gamma'], byOne(logGamma), 1e-14)).toEqual([]);
    expect(missed(precise['incomplete beta'], byThree(incompleteBeta), 2e-14)).toEqual([]);
    expect(missed(precise['incomplete gamma'], byTwo(incompleteGamma), 2e-14)).toEqual([]);
  });
  it('quantiles of t, chi-square and F, degrees of freedom that are not whole among them', () => {
    expect(missed(precise['t quantile'], byTwo(studentQuantile), 1e-13)).toEqual([]);
    expect(missed(precise['chi-square quantile'], byTwo(chiSquareQuantile), 1e-13)).toEqual([]);
    expect(missed(precise['F quantile'], byThree(fisherQuantile), 1e-13)).toEqual([]);
  });
});

describe('tables of quantiles (R)', () => {
  it('two-sided t, to the digits given', () => {
    expect(missed(tables['t two-sided'].rows, (row) => studentQuantile((1 + argument(row, 1)) / 2, argument(row, 0)), 1e-11)).toEqual([]);
  });
  it('F, to the digits given', () => {
    expect(missed(tables.F.rows, (row) => fisherQuantile(argument(row, 2), argument(row, 0), argument(row, 1)), 1e-11)).toEqual([]);
  });
});

describe('printed tables', () => {
  const [t, f, chiSquare] = tables.cases;

  it('Student factors of 95 %, JCGM 100:2008 Table G.2', () => {
    const { df = { value: [] } } = t?.inputs ?? {};
    const printed = t?.expected.t?.value ?? [];
    expect(printed).toHaveLength(10);
    for (const [i, degreesOfFreedom] of df.value.entries()) {
      expect(Math.abs(studentQuantile(0.975, degreesOfFreedom) - (printed[i] ?? 0))).toBeLessThanOrEqual(0.0006);
    }
  });
  it('F at 95 %, the first two as in ASTM E739', () => {
    const { df1 = { value: [] }, df2 = { value: [] } } = f?.inputs ?? {};
    const printed = f?.expected.F?.value ?? [];
    expect(printed).toHaveLength(5);
    for (const [i, numerator] of df1.value.entries()) {
      expect(Math.abs(fisherQuantile(0.95, numerator, df2.value[i] ?? 0) - (printed[i] ?? 0))).toBeLessThanOrEqual(0.006);
    }
  });
  it('chi-square with 9 degrees of freedom, and the interval of s that follows', () => {
    const expected = chiSquare?.expected;
    const low = chiSquareQuantile(0.025, 9);
    const high = chiSquareQuantile(0.975, 9);
    expect(Math.abs(low - Number(expected?.chisq_lo?.value))).toBeLessThanOrEqual(0.0006);
    expect(Math.abs(high - Number(expected?.chisq_hi?.value))).toBeLessThanOrEqual(0.0006);
    expect((12 * Math.sqrt(9 / high)) / Number(expected?.lower?.value)).toBeCloseTo(1, 8);
    expect((12 * Math.sqrt(9 / low)) / Number(expected?.upper?.value)).toBeCloseTo(1, 8);
  });
  it('the density at 0 and at 1 (1/√2π and 0.2420, any table of the normal distribution)', () => {
    expect(normalDensity(0)).toBeCloseTo(0.3989422804014327, 15);
    expect(normalDensity(1)).toBeCloseTo(0.2419707245191434, 15);
  });
});
