import fc from 'fast-check';
import { expect, it } from 'vitest';
import { factorSemidefinite, orderStatistic } from '../../../src/core/numeric/index.ts';

const values = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength: 200 });

it('the k-th smallest value is that of the sorted column, and the rest stays', () => {
  fc.assert(fc.property(values, fc.nat(), (list, place) => {
    const k = place % list.length;
    const column = Float64Array.from(list);
    const sorted = column.slice().sort();
    const found = orderStatistic(column, k);
    expect(found === sorted[k]).toBe(true);
    expect(column.slice(0, k).every((value) => value <= found) && column.slice(k).every((value) => value >= found)).toBe(true);
    expect(column.sort()).toEqual(sorted);
  }), { numRuns: 500 });
});

it('ends on long columns that trap careless pivots', () => {
  // A selection that takes quadratic time here would run into the test's time limit.
  const size = 200_000;
  for (const shape of [(i: number) => i, (i: number) => -i, () => 1, (i: number) => i % 2, (i: number) => Math.min(i, size - i)]) {
    const column = Float64Array.from({ length: size }, (_, i) => shape(i));
    const sorted = column.slice().sort();
    expect(orderStatistic(column, size / 4) === sorted[size / 4]).toBe(true);
  }
});

it('a factor multiplied by its transpose gives the matrix back, whatever its rank', () => {
  const size = 4;
  const rows = fc.array(fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 1, maxLength: 6 }), { minLength: size, maxLength: size });
  fc.assert(fc.property(rows, (vectors) => {
    const unit = vectors.map((vector) => {
      const length = Math.hypot(...vector);
      return length < 1e-3 ? [1] : vector.map((entry) => entry / length);
    });
    const dot = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, entry, i) => sum + entry * (b[i] ?? 0), 0);
    const matrix = unit.map((a) => unit.map((b) => dot(a, b)));
    const factor = factorSemidefinite(matrix);
    for (const [i, row] of matrix.entries()) {
      for (const [j, entry] of row.entries()) expect(Math.abs(dot(factor?.[i] ?? [], factor?.[j] ?? []) - entry)).toBeLessThan(1e-8);
    }
  }));
});

it('a matrix with a negative eigenvalue has no factor', () => {
  expect(factorSemidefinite([[1, 0.9, -0.9], [0.9, 1, 0.9], [-0.9, 0.9, 1]])).toBeUndefined();
  expect(factorSemidefinite([[1, 1.1], [1.1, 1]])).toBeUndefined();
  expect(factorSemidefinite([[1, 1, 0], [1, 1, 0.5], [0, 0.5, 1]])).toBeUndefined();
  expect(factorSemidefinite([[1, -1], [-1, 1]])?.[0]).toHaveLength(1);
  expect(factorSemidefinite([])).toEqual([]);
});
