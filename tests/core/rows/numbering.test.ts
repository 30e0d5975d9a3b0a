import fc from 'fast-check';
import { expect, it } from 'vitest';
import { numberValues } from '../../../src/core/rows/index.ts';

/** As a `Map` tells values apart. */
function byMap(values: Iterable<unknown>): number[] {
  const known = new Map<unknown, number>();
  return Array.from(values, (value) => {
    const number = known.get(value) ?? known.size;
    known.set(value, number);
    return number;
  });
}

it('values are numbered as a Map tells them apart, in order of first appearance', () => {
  const few = fc.constantFrom(0, -0, 1, -1, 0.1, Number.NaN, Infinity, -Infinity, 5e-324, 2 ** 52);
  fc.assert(fc.property(fc.array(fc.oneof(few, fc.double())), (values) => {
    const expected = byMap(values);
    expect([...numberValues(Float64Array.from(values)).numbers]).toEqual(expected);
    expect(numberValues(values)).toEqual({ numbers: Uint32Array.from(expected), count: new Set(values).size });
  }));
});

it('columns of values that are all different, and of values that come again far on, too', () => {
  const column = Float64Array.from({ length: 50_000 }, (_, i) => 250 + ((i * 7919) % 30_011) / 256);
  const { numbers, count } = numberValues(column);
  expect(count).toBe(30_011);
  expect([...numbers]).toEqual(byMap(column));
});
