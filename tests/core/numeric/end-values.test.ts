import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createRandom, endValues } from '../../../src/core/numeric/index.ts';

const values = fc.array(fc.oneof(fc.double({ noNaN: true }), fc.integer({ min: 0, max: 3 })), { minLength: 1, maxLength: 200 });

it('the lowest and highest values are those of the sorted column', () => {
  fc.assert(fc.property(values, fc.nat(), (list, place) => {
    const column = Float64Array.from(list);
    const before = column.slice();
    const sorted = column.slice().sort();
    const count = 1 + (place % list.length);
    expect(endValues(column, count)).toEqual({ lowest: sorted.slice(0, count), highest: sorted.slice(column.length - count) });
    expect(column).toEqual(before);
  }), { numRuns: 500 });
});

it('on long columns too, whatever their order', () => {
  const size = 40_000;
  const random = createRandom(5);
  const shapes = [(i: number) => i, (i: number) => -i, () => 1, (i: number) => i % 2, (i: number) => Math.min(i, size - i), (i: number) => (i % 10) * size + i,
    () => random.normal(), () => Math.tan(random.uniform())];
  for (const shape of shapes) {
    const column = Float64Array.from({ length: size }, (_, i) => shape(i));
    const sorted = column.slice().sort();
    for (const count of [1, 50, 2000]) {
      expect(endValues(column, count)).toEqual({ lowest: sorted.slice(0, count), highest: sorted.slice(size - count) });
    }
  }
});
