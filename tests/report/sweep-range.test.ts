/** Between which values something is asked, before anybody has said so, and what is read of what was typed. */
import { describe, expect, test } from 'vitest';
import { parseUnit, type Unit } from '../../src/core/units/index.ts';
import { proposedRange, readRange, roundPlaces, searchRange, type SweepRange } from '../../src/report/present/sweep-range.ts';
import { cellsOf } from '../../src/sheet/index.ts';
import { contextOf, fenced } from './sheet-at.ts';

function unit(name: string): Unit {
  const read = parseUnit(name);
  if (!read.ok) throw new Error(name);
  return read.value;
}
const MM = unit('mm');

async function rangesOf(...lines: readonly string[]): Promise<{ readonly proposed: SweepRange | undefined; readonly searched: SweepRange | undefined }> {
  const context = await contextOf(fenced('given', 'symbol: x', ...lines));
  const [cell] = cellsOf(context.document, 'given');
  if (cell === undefined) throw new Error('no given');
  return { proposed: proposedRange(cell, context.states), searched: searchRange(cell, context.states) };
}

/** In units of its own, without the last digits of the conversion. */
const inUnit = (range: SweepRange | undefined, factor: number): readonly number[] | undefined => range && [range.from, range.to].map((end) => Number((end / factor).toPrecision(10)));

describe('what is proposed', () => {
  test.each([
    // A fifth of 6.35 mm is 1.27 mm: 5.08 to 7.62, out to whole steps of 0.2 mm.
    ['a fifth of the value to either side, out to round steps', ['value: 6.35 mm', 'unit: mm', 'possible: any'], 1e-3, [5, 7.8]],
    // 5 u = 5 mm, a fifth of the value is 4 mm.
    ['five standard uncertainties where that is more', ['value: 20 ± 1 mm', 'unit: mm', 'possible: any'], 1e-3, [15, 25]],
    ['no more than the given can be', ['value: 0.9', 'unit: "1"', 'possible: 0 .. 1'], 1, [0.7, 1]],
    ['the usual values where there is none', ['unit: mm', 'possible: any', 'plausible: 3 mm .. 12 mm'], 1e-3, [3, 12]],
    ['a range across zero about an uncertain zero', ['value: 0 ± 1 mm', 'unit: mm', 'possible: any'], 1e-3, [-5, 5]],
  ] as const)('is %s', async (_what, lines, factor, ends) => {
    expect(inUnit((await rangesOf(...lines)).proposed, factor)).toEqual(ends);
  });

  test.each([['an exact zero', ['value: 0 mm', 'unit: mm', 'possible: any']], ['an empty blank', ['unit: mm']], ['one that cannot be read', ['value: about six', 'unit: mm']]] as const)(
    'is nothing for %s', async (_what, lines) => expect((await rangesOf(...lines)).proposed).toBeUndefined());
});

describe('where an answer is looked for', () => {
  test.each([
    ['the usual values', ['value: 6 mm', 'unit: mm', 'possible: any', 'plausible: 3 mm .. 12 mm'], 1e-3, [3, 12]],
    ['a tenth to tenfold without those', ['value: 6 mm', 'unit: mm', 'possible: any'], 1e-3, [0.6, 60]],
    ['the same of a value below zero, in rising order', ['value: -6 mm', 'unit: mm', 'possible: any'], 1e-3, [-60, -0.6]],
    ['what is possible of it', ['value: 0.5', 'unit: "1"', 'possible: 0.2 .. 1'], 1, [0.2, 1]],
  ] as const)('is %s', async (_what, lines, factor, ends) => {
    expect(inUnit((await rangesOf(...lines)).searched, factor)).toEqual(ends);
  });
});

test('places are round in the unit shown, rise, begin and end as asked, and are a hundred and some', () => {
  for (const [from, to] of [[0.0051, 0.00773], [-0.003, 0.003], [0, 1e-9]] as const) {
    const places = roundPlaces({ from, to }, MM);
    expect([places[0], places.at(-1)]).toEqual([from, to]);
    expect(places.every((x, i) => i === 0 || x > (places[i - 1] ?? Infinity))).toBe(true);
    expect(places.length).toBeGreaterThan(45);
    expect(places.length).toBeLessThan(124);
    const step = Number((((places[2] ?? 0) - (places[1] ?? 0)) * 1000).toPrecision(6));
    expect([1, 2, 5]).toContain(Number((step / 10 ** Math.floor(Math.log10(step))).toPrecision(6)));
  }
});

describe('what is typed for the ends', () => {
  const proposed = { from: 0.005, to: 0.008 };
  test.each([
    ['in the unit shown', { from: '4', to: '9' }, [0.004, 0.009]],
    ['in another one', { from: '0.2 in', to: '1 cm' }, [0.00508, 0.01]],
    ['the wrong way round', { from: '9 mm', to: '4 mm' }, [0.004, 0.009]],
    ['only one of them', { from: ' ', to: '9' }, [0.005, 0.009]],
  ] as const)('is read %s', (_how, texts, ends) => expect(inUnit(readRange(texts, proposed, MM), 1)).toEqual(ends));

  test.each([['twice the same', { from: '5', to: '5 mm' }], ['no number', { from: 'a', to: '9' }], ['another dimension', { from: '4 N', to: '9' }], ['beyond all numbers', { from: '-1e308', to: '1e311' }]] as const)(
    'is no range: %s', (_what, texts) => expect(readRange(texts, proposed, MM)).toBeUndefined());

  test('nothing is one only where something is proposed', () => {
    expect([readRange({ from: '', to: '' }, proposed, MM), readRange({ from: '', to: '' }, undefined, MM)]).toEqual([proposed, undefined]);
  });
});
