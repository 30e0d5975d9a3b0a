import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LongSum } from '../../../src/core/numeric/long-sum.ts';

/** The same in whole numbers of any length: products of integers below 2⁵³ are exact there. */
function exactly(pairs: readonly (readonly [number, number])[]): bigint {
  return pairs.reduce((sum, [a, b]) => sum + BigInt(a) * BigInt(b), 0n);
}

describe('a long sum', () => {
  it('keeps what a plain sum loses', () => {
    const sum = new LongSum();
    for (const value of [1e16, 1, -1e16]) sum.add(value);
    expect(sum.value).toBe(1);
    sum.clear().add(-1);
    sum.addProduct(1 + 2 ** -30, 1 + 2 ** -30);
    // (1 + e)² − 1 = 2e + e²; e² alone is lost in a double.
    expect(sum.value + sum.rest).toBe(2 ** -29 + 2 ** -60);
  });
  it('of products of whole numbers, and their opposites but one, is that one to the last digit', () => {
    const factor = fc.maxSafeInteger();
    fc.assert(fc.property(fc.array(fc.tuple(factor, factor), { minLength: 2, maxLength: 12 }), (pairs) => {
      const [first = [0, 0]] = pairs;
      const all = [...pairs, ...pairs.slice(1).map(([a, b]) => [-a, b] as const)];
      const sum = new LongSum();
      for (const [a, b] of all) sum.addProduct(a, b);
      expect(exactly(all)).toBe(exactly([first]));
      const wanted = Number(exactly([first]));
      const largest = Math.max(...all.map(([a, b]) => Math.abs(a * b)));
      expect(Math.abs(sum.value - wanted)).toBeLessThanOrEqual(1e-15 * Math.abs(wanted) + 1e-28 * largest);
    }), { seed: 31, numRuns: 200 });
  });
});
