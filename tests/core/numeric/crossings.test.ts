import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { findCrossings, type Crossings } from '../../../src/core/numeric/index.ts';

/** Over an even grid. */
function over(f: (x: number) => number, from: number, to: number, count = 201): Crossings {
  const xs = Float64Array.from({ length: count }, (_, i) => from + (i / (count - 1)) * (to - from));
  return findCrossings(f, xs, xs.map(f));
}

const none = { roots: [], touches: [], flats: [], jumps: [] };

describe('zeros over a grid, against functions whose zeros are known', () => {
  test('every single root', () => {
    const { roots } = over((x) => (x - 0.2) * (x - 0.5001) * (x - 0.9), 0, 1);
    expect(roots).toHaveLength(3);
    [0.2, 0.5001, 0.9].forEach((root, i) => expect(Math.abs((roots[i] ?? 0) - root)).toBeLessThan(1e-14));
  });

  test('two roots between neighbours of the grid', () => {
    const { roots, touches } = over((x) => (x - 0.5012) * (x - 0.5033), 0, 1);
    expect(roots.map((x) => x.toFixed(12))).toEqual(['0.501200000000', '0.503300000000']);
    expect(touches).toEqual([]);
  });

  test('a double root is touched and not crossed, also from below', () => {
    for (const side of [1, -1]) {
      const found = over((x) => side * (x - 0.4321) ** 2, 0, 1);
      expect(found).toMatchObject({ roots: [], jumps: [], flats: [] });
      expect(found.touches).toHaveLength(1);
      expect(Math.abs((found.touches[0] ?? 0) - 0.4321)).toBeLessThan(1e-6);
    }
    expect(over((x) => (x - 0.4321) ** 2 + 1e-9, 0, 1)).toEqual(none);
    expect(over((x) => (x - 0.4321) ** 2 - 1e-9, 0, 1).roots).toHaveLength(2);
  });

  test('a corner that touches', () => {
    expect(over((x) => Math.abs(x - 1 / 3), 0, 1).touches[0]).toBeCloseTo(1 / 3, 9);
  });

  test('a root at a place of the grid, and at either end', () => {
    expect(over((x) => x - 0.5, 0, 1).roots).toEqual([0.5]);
    expect(over((x) => x, 0, 1).roots).toEqual([0]);
    expect(over((x) => x - 1, 0, 1).roots).toEqual([1]);
  });

  test('a stretch of zeros, with its ends', () => {
    const { flats, roots } = over((x) => Math.max(0, x - 0.7) - Math.max(0, 0.3 - x), 0, 1);
    expect(roots).toEqual([]);
    expect(flats).toHaveLength(1);
    expect(flats[0]?.[0]).toBeCloseTo(0.3, 10);
    expect(flats[0]?.[1]).toBeCloseTo(0.7, 10);
  });

  test('jumps and poles are no roots', () => {
    expect(over((x) => (x < 1 / 3 ? -1 : 1), 0, 1)).toMatchObject({ roots: [], jumps: [expect.closeTo(1 / 3, 12)] });
    expect(over((x) => 1 / (x - 0.6180339), 0, 1)).toMatchObject({ roots: [], jumps: [expect.closeTo(0.6180339, 12)] });
  });

  test('a root beside the edge of a gap', () => {
    const { roots } = over((x) => Math.sqrt(x - 0.3001) - 0.001, 0, 1);
    expect(roots).toEqual([expect.closeTo(0.3001 + 1e-6, 12)]);
    expect(over(() => Number.NaN, 0, 1)).toEqual(none);
  });

  test('any polynomial with its roots apart', () => {
    fc.assert(fc.property(fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 6 }), fc.double({ min: 0, max: 0.009, noNaN: true }), (hundredths, shift) => {
      const expected = hundredths.map((k) => k / 100 + shift).toSorted((a, b) => a - b);
      const { roots, touches } = over((x) => expected.reduce((product, root) => product * 3 * (x - root), 1), 0, 1.1, 1001);
      expect(touches).toEqual([]);
      expect(roots).toHaveLength(expected.length);
      expected.forEach((root, i) => expect(Math.abs((roots[i] ?? 0) - root)).toBeLessThan(1e-10));
    }));
  });
});
