import fc from 'fast-check';
import { expect, test } from 'vitest';
import { thinned } from '../../src/app/earlier-thinning.ts';

const MINUTE = 60_000;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const NOW = 20_000 * DAY;

/** What stays of states of so long ago, oldest first. */
function stays(ages: readonly number[]): number[] {
  const kept = thinned(ages.map((age) => NOW - age), NOW);
  return ages.filter((_, i) => kept[i]);
}

test('every state of the last hour stays', () => {
  const ages = Array.from({ length: 600 }, (_, i) => (600 - i) * 5900);
  expect(stays(ages)).toEqual(ages);
});

test('of older ones the last of ten minutes, of a day, of thirty days', () => {
  // NOW is the beginning of a slot of each width.
  expect(stays([2 * HOUR + 9 * MINUTE, 2 * HOUR + MINUTE, 2 * HOUR - MINUTE, 0])).toEqual([2 * HOUR + MINUTE, 2 * HOUR - MINUTE, 0]);
  expect(stays([3 * DAY - HOUR, 3 * DAY - 5 * HOUR, 2 * DAY - HOUR])).toEqual([3 * DAY - 5 * HOUR, 2 * DAY - HOUR]);
});

test('the newest always stays, of a clock set ahead as well', () => {
  expect(stays([40 * DAY])).toEqual([40 * DAY]);
  expect(stays([-5 * DAY, -HOUR])).toEqual([-5 * DAY, -HOUR]);
});

test('two of the same ten minutes stay one state while a day ends between them', () => {
  const pair = [NOW - 2 * HOUR + MINUTE, NOW - 2 * HOUR + 6 * MINUTE];
  for (const later of [0, DAY - 2 * HOUR + 3 * MINUTE, DAY]) expect(thinned([...pair, NOW], NOW + later).slice(0, 2)).toEqual([false, true]);
});

test('thinning in between changes nothing that stays in the end', () => {
  // Many within one slot, and ends of an hour, a day and thirty days that fall among them.
  const age = fc.oneof(fc.integer({ min: 0, max: 100 * DAY }), fc.integer({ min: 0, max: 3 * HOUR }), fc.integer({ min: 0, max: 40 }).map((i) => i * 3 * MINUTE));
  const wait = fc.oneof(fc.integer({ min: 0, max: 40 * DAY }), fc.tuple(fc.constantFrom(0, HOUR, DAY, 30 * DAY), fc.integer({ min: -120, max: 60 })).map(([long, i]) => Math.max(0, long + i * MINUTE)));
  fc.assert(fc.property(fc.array(age, { maxLength: 60 }), wait, (ages, later) => {
    const times = ages.map((age) => NOW - age).sort((a, b) => a - b);
    const between = times.filter((_, i) => thinned(times, NOW)[i]);
    const [once, twice] = [times, between].map((list) => list.filter((_, i) => thinned(list, NOW + later)[i]));
    expect(twice).toEqual(once);
  }));
});
