/** The short sheet that tests open says what the standard sheet says, in fewer lines: what is looked at on it holds on that one. */
import { describe, expect, test } from 'vitest';
import { cellsOf, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped, shortSheet } from '../shipped.ts';
import { numberOf, solved } from './solved.ts';

const [short, standard] = [parseSheet(shortSheet()), parseSheet(shipped('rotating-bending'))];

const lines = ({ blocks }: Pick<SheetDocument, 'blocks'>) => [...cellsOf({ blocks }, 'given'), ...cellsOf({ blocks }, 'step')];

describe('the short sheet', () => {
  test('is read without a problem, in a quarter of the blocks at most', () => {
    expect(short.problems).toEqual([]);
    expect(short.blocks.length).toBeLessThan(standard.blocks.length / 4);
  });

  test('calls each line what the standard sheet calls it', () => {
    const labels = new Map(lines(standard).map(({ symbol, label, unit }) => [symbol, { label, unit }]));
    for (const { symbol, label, unit } of lines(short)) expect({ label, unit }, symbol).toEqual(labels.get(symbol));
  });

  test('comes to the same reactions, moment and stress from the same readings', async () => {
    const [one, other] = await Promise.all([solved({}, shortSheet()), solved({}, shipped('rotating-bending'))]);
    for (const symbol of ['W', 'F_1', 'F_2', 'R_A', 'R_B', 'M_s', 'I', 'c', 'sigma_a', 'K_f']) expect(numberOf(one, symbol), symbol).toBe(numberOf(other, symbol));
  });
});
