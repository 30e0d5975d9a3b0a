/** What row tables say of groups, against plain loops over the same rows. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { countRows, filterRows, groupNumbers, groupRows, momentsOf, numbersOf, numberValues, orderRows, placesOf, rollUp, rowTable, valuesOf } from '../../../src/core/rows/index.ts';

interface Row {
  readonly stress: number;
  readonly outcome: string;
  readonly life: number;
  readonly isKept: boolean;
}

const row: fc.Arbitrary<Row> = fc.record({
  stress: fc.constantFrom(300, 340, 380.5), outcome: fc.constantFrom('fracture', 'runout', ''), life: fc.double({ min: 1e3, max: 1e9, noNaN: true }), isKept: fc.boolean(),
});

const tableOf = (rows: readonly Row[]) => filterRows(rowTable(new Map<string, Float64Array | readonly string[]>([
  ['stress', Float64Array.from(rows, ({ stress }) => stress)], ['outcome', rows.map(({ outcome }) => outcome)], ['life', Float64Array.from(rows, ({ life }) => life)],
])), (place) => rows[place]?.isKept === true);

describe('groups of rows', () => {
  it('have the counts, means and squares about them of plain loops, in order of first appearance', () => {
    fc.assert(fc.property(fc.array(row, { maxLength: 60 }), (rows) => {
      const kept = rows.map((one, place) => ({ ...one, place })).filter(({ isKept }) => isKept);
      const keys = [...new Set(kept.map(({ stress, outcome }) => `${stress} ${outcome}`))];
      const grouped = groupRows(tableOf(rows), ['stress', 'outcome']);
      const groups = rollUp(grouped, 'life');
      expect(valuesOf(groups, 'stress').map((stress, i) => `${stress} ${valuesOf(groups, 'outcome')[i]}`)).toEqual(keys);
      expect([...groupNumbers(grouped)]).toEqual(kept.map(({ stress, outcome }) => keys.indexOf(`${stress} ${outcome}`)));
      keys.forEach((key, i) => {
        const own = kept.filter(({ stress, outcome }) => `${stress} ${outcome}` === key);
        const mean = own.reduce((sum, { life }) => sum + life, 0) / own.length;
        const squares = own.reduce((sum, { life }) => sum + (life - mean) ** 2, 0);
        const [first, count, foundMean = 0, foundSquares = 0] = ['first', 'count', 'mean', 'squares'].map((name) => numbersOf(groups, name)[i]);
        expect([first, count]).toEqual([own[0]?.place, own.length]);
        expect(Math.abs(foundMean - mean)).toBeLessThanOrEqual(1e-12 * mean);
        expect(Math.abs(foundSquares - squares)).toBeLessThanOrEqual(1e-11 * own.length * mean ** 2);
      });
    }));
  });

  it('keep the digits of a small scatter on a large mean, as the published test of a mean and its scatter asks', () => {
    // NumAcc4 of the Statistical Reference Datasets of NIST: 1001 values about 10 000 000.2, certified deviation 0.1.
    const values = Float64Array.from({ length: 1001 }, (_, i) => (i === 0 ? 10_000_000.2 : i % 2 === 1 ? 10_000_000.1 : 10_000_000.3));
    const all = rollUp(rowTable(new Map([['y', values]])), 'y');
    expect(numbersOf(all, 'mean')[0]).toBeCloseTo(10_000_000.2, 8);
    expect(Math.sqrt((numbersOf(all, 'squares')[0] ?? 0) / 1000)).toBeCloseTo(0.1, 8);
  });

  it('of a table without rows are none, and rows stand in the order asked for', () => {
    const rows: Row[] = [1, 2, 3].map((life) => ({ stress: 300, outcome: '', life, isKept: life > 1 }));
    expect(countRows(rollUp(groupRows(tableOf([]), ['stress']), 'life'))).toBe(0);
    expect([...placesOf(orderRows(tableOf(rows), (a, b) => b - a))]).toEqual([2, 1]);
  });
});

describe('moments by numbers of groups', () => {
  // The same as rolling the rows up, which goes another way.
  it('are those of the groups', () => fc.assert(fc.property(fc.array(fc.tuple(fc.constantFrom(300, 340, 380), fc.double({ min: -1e3, max: 1e3, noNaN: true }))), (rows) => {
    const [stress, life] = [Float64Array.from(rows, ([own]) => own), Float64Array.from(rows, ([, own]) => own)];
    const rolled = rollUp(groupRows(rowTable(new Map([['stress', stress], ['life', life]])), ['stress']), 'life');
    const { first, count, mean, squares } = momentsOf(numberValues(stress), life);
    expect([first, count, mean, squares].map((column) => [...column])).toEqual(['first', 'count', 'mean', 'squares'].map((name) => [...numbersOf(rolled, name)]));
  })));
});
