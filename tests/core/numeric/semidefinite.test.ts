import fc from 'fast-check';
import { expect, it } from 'vitest';
import { factorSemidefinite } from '../../../src/core/numeric/index.ts';

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
