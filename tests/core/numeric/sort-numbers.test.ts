/** Against the engine's own sort, which compares. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createRandom, select, sortNumbers } from '../../../src/core/numeric/index.ts';

const rising = (values: Float64Array): Float64Array => values.slice().sort();

/** As many values as are sorted by digits, of every size and sign, with some that come twice. */
const columns = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.constantFrom(0, -0, 1, -1, Infinity, -Infinity, 5e-324)), { minLength: 1, maxLength: 40 })
  .chain((few) => fc.integer({ min: 600, max: 1500 }).map((count) => Float64Array.from({ length: count }, (_, i) => (few[(i * 7919) % few.length] ?? 0) * (i % 3 === 0 ? 1 : 1 + i * 1e-9))))
  .filter((column) => column.every((value) => !Number.isNaN(value)));

describe('sortNumbers', () => {
  test('puts any values in the order of the engine, zeros with their sign', () => {
    fc.assert(fc.property(columns, (column) => {
      const found = sortNumbers(column.slice());
      expect(rising(column).every((value, i) => Object.is(value, found[i]))).toBe(true);
    }), { numRuns: 200 });
  });

  test('sorts a stretch of a longer column and nothing beside it', () => {
    const column = new Float64Array(3000);
    createRandom(7).fillNormal(column);
    const expected = column.slice();
    expected.subarray(500, 2500).sort();
    sortNumbers(column.subarray(500, 2500));
    expect(column).toEqual(expected);
  });

  test.each([1, 1e-12, 1e300, 1e-310])('sorts samples of the size %f about one value', (size) => {
    const column = new Float64Array(5000);
    createRandom(3).fillNormal(column);
    for (const shift of [0, size * 1e6]) {
      const moved = column.map((value) => shift + value * size);
      expect(sortNumbers(moved.slice())).toEqual(rising(moved));
    }
  });
});

describe('select', () => {
  test('finds what stands at a place of the sorted stretch, and parts the others by it', () => {
    fc.assert(fc.property(fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 60 }), fc.nat(), fc.nat(), (numbers, a, b) => {
      const column = Float64Array.from(numbers);
      const from = a % numbers.length;
      const place = from + (b % (numbers.length - from));
      const expected = column.slice(from).sort()[place - from];
      expect(select(column, place, from)).toBe(expected);
      expect(column[place]).toBe(expected);
      expect(column.slice(from, place).every((value) => value <= (expected ?? 0))).toBe(true);
      expect(column.slice(place).every((value) => value >= (expected ?? 0))).toBe(true);
      expect([...column].slice(0, from)).toEqual(numbers.slice(0, from));
      expect(rising(column)).toEqual(rising(Float64Array.from(numbers)));
    }));
  });
});
