/** What is said of a class as a whole: outliers, same readings, other formulas. */
import { describe, expect, test } from 'vitest';
import { ok } from '../../src/core/problem/index.ts';
import { createGatherer, nameOf, NOTHING_GATHERED, otherFormulas, sameReadings, spreads, type ReturnedSheet } from '../../src/returns/index.ts';
import { scoresOf } from '../../src/returns/spread.ts';
import { PLANTED, simulatedClass } from '../simulated-class.ts';

const gatherer = createGatherer();
for (const { number, text } of simulatedClass()) gatherer.take({ name: `${number}.md`, text: ok(text), isAltered: false });
const { sheets } = gatherer.take({ name: '1 again.md', text: ok(simulatedClass(1)[0]?.text ?? ''), isAltered: false });
const team = (number: number): string => `T${number}`;

describe('outliers', () => {
  // Iglewicz and Hoaglin, How to Detect and Handle Outliers (ASQC 1993), the ten values with which they show the modified z-score: 25.9 and 26.3 for the
  // two outliers, 1.6 at most for the others. From memory.
  test('the published example', () => {
    const { median, scores } = scoresOf([2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3], 0);
    expect(median).toBeCloseTo(2.45, 12);
    expect(scores.slice(8).map((score) => score.toFixed(1))).toEqual(['25.9', '26.3']);
    expect(Math.max(...scores.slice(0, 8).map(Math.abs)).toFixed(1)).toBe('1.6');
  });

  // Masses from a mass spectrometer (Tietjen and Moore 1972), NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1: 245.57 is the one outlier
  // by Grubbs' test. From memory.
  test('the one outlier of the handbook is ours too', () => {
    const masses = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
    expect(masses.filter((_mass, i) => Math.abs(scoresOf(masses, 0).scores[i] ?? 0) > 3.5)).toEqual([245.57]);
  });

  test('readings that are all the same on their scale have none, unless one lies beyond what the instrument errs by', () => {
    expect(scoresOf([100, 100, 100, 100, 100.5, 100], 0.3).scores.every((score) => Math.abs(score) < 3.5)).toBe(true);
    expect(scoresOf([100, 100, 100, 100, 102, 100], 0.3).scores.map((score) => Math.abs(score) > 3.5)).toEqual([false, false, false, false, true, false]);
  });

  test('of the thirty the planted diameter is named, and nothing else', () => {
    const named = spreads(sheets).flatMap(({ symbol, values }) => values.filter(({ isOutlier }) => isOutlier).map(({ sheet }) => `${symbol} ${nameOf(sheet)}`));
    expect(named).toEqual([`d ${team(PLANTED.wrongDiameter)}`]);
    const d = spreads(sheets).find(({ symbol }) => symbol === 'd');
    expect([d?.values.length, d?.label, d?.unit?.name]).toEqual([30, 'Minimum diameter, read around the bar', 'mm']);
    expect(d?.median).toBeCloseTo(0.00752, 5);
  });
});

describe('same readings', () => {
  test('of two teams are pointed out, and of no others', () => {
    const pairs = sameReadings(sheets).map(({ one, other, symbols }) => `${nameOf(one)} ${nameOf(other)} ${symbols.join(' ')}`);
    expect(pairs).toEqual([`${team(PLANTED.copied - 1)} ${team(PLANTED.copied)} L s_1 s_2 s_3 d`]);
  });

  // Teams that each measured for themselves, with four readings of a rule and hands that err by two thirds of its step: 11 000 pairs.
  test('of teams that measured apart are hardly ever the same', () => {
    const apart = createGatherer();
    let all = NOTHING_GATHERED;
    for (const { number, text } of simulatedClass(150)) if (number !== PLANTED.copied) all = apart.take({ name: `${number}.md`, text: ok(text), isAltered: false });
    expect(sameReadings(all.sheets)).toEqual([]);
    // Classes of thirty out of the same teams: one false pair in twenty of them is what the rule allows.
    const classes = Array.from({ length: 4 }, (_, i) => sameReadings(all.sheets.slice(30 * i, 30 * (i + 1))).length);
    expect(classes.reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(1);
  });

  test('that all have alike tell nothing, and two sheets alone are judged too', () => {
    const withD = (d: readonly number[]) => ({ ...sheets[0], values: (sheets[0]?.values ?? []).map((one) => (one.symbol === 'd' ? { ...one, readings: d } : one)) }) as ReturnedSheet;
    // Ten sheets that differ in the diameter alone.
    expect(sameReadings(Array.from({ length: 10 }, (_, i) => withD([0.00752, 0.00752 + i * 1e-5])))).toEqual([]);
    expect(sameReadings([withD([0.0075, 0.0076]), withD([0.0075, 0.0077])]).map(({ symbols, compared }) => [symbols.join(' '), compared])).toEqual([['L s_1 s_2 s_3', 5]]);
  });

  test('however they are written', () => {
    const value = (typed: string, readings: readonly number[]) => ({ symbol: typed.slice(0, 1), label: '', typed, text: '', readings, standardUncertainty: 0 });
    const like = (first: string) => ({ ...sheets[0], values: [value(`a${first}`, [0.1012, 0.1014]), value('b', [0.2, 0.21]), value('c', [0.3, 0.31])] }) as ReturnedSheet;
    expect(sameReadings([like('101.2, 101.4 mm'), like('10.12; 10.14 cm')]).map(({ symbols, compared }) => [symbols, compared])).toEqual([[['a', 'b', 'c'], 3]]);
  });
});

test('a sheet that works something out in another way is named with what', () => {
  expect(otherFormulas(sheets).map(({ sheet, names }) => `${nameOf(sheet)}: ${names.join(', ')}`)).toEqual([`${team(PLANTED.otherFormula)}: sigma_a`]);
});
