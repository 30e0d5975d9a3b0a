/** Of a very long sheet the beginning is drawn, more when it is asked for, gone to or printed. */
import { nothing } from 'lit-html';
import { expect, test } from 'vitest';
import { createLongSheet } from '../../src/view/long-sheet.ts';

const blocks = (count: number): readonly number[] => Array.from({ length: count }, (_, i) => i);

test('a sheet of usual length is drawn whole, without a word', () => {
  const long = createLongSheet(() => undefined);
  expect(long.pick(blocks(290))).toHaveLength(290);
  expect(long.foot()).toBe(nothing);
});

test('what is gone to is drawn with all before it; a print has all and leaves the sheet as it was', () => {
  let drawn = 0;
  const long = createLongSheet(() => void (drawn += 1));
  expect(long.pick(blocks(5000))).toHaveLength(600);
  long.reach(599);
  expect(drawn).toBe(0);
  long.reach(1000);
  expect([drawn, long.pick(blocks(5000)).length]).toEqual([1, 1601]);
  const asBefore = long.all();
  expect(long.pick(blocks(5000))).toHaveLength(5000);
  expect(long.foot()).toBe(nothing);
  asBefore();
  expect(long.pick(blocks(5000))).toHaveLength(1601);
});

test('a line that is added below the last one drawn is drawn', () => {
  const long = createLongSheet(() => undefined);
  long.pick(blocks(900));
  expect(long.pick(blocks(901))).toContain(600);
  expect(long.pick(blocks(900))).toHaveLength(601);
});
