/** Working back against closed forms of beam and line, and by putting the answer back into the sheet. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { workBack } from '../../../src/graph/index.ts';
import { parseSheet } from '../../../src/sheet/index.ts';
import { given, step } from '../../report/sheet-at.ts';
import { evaluated, givenNamed, valueOf, worksheet, type Evaluated } from './sheets.ts';

const BENDING = worksheet('rotating-bending');
/** Symmetrical and closed: the moment is W x/2 up to the load point, then constant. */
const SYMMETRICAL = { L: '400 mm', s_1: '100 mm', s_2: '200 mm', s_3: '100 mm', x_s: '200 mm', k_F: '0.5', F: '301.5 N' };
const W = 300;

const ask = ({ document, states }: Evaluated, result: string, wanted: number, input: string, from: number, to: number) =>
  workBack(document, states, { result, wanted, input: givenNamed(document, input), from, to });

describe('closed forms', () => {
  test('the diameter for a stress: a cube root', async () => {
    const sheet = await evaluated(BENDING, SYMMETRICAL);
    const { answers, stretches, jumps } = ask(sheet, 'sigma_a', 250e6, 'd', 2e-3, 60e-3);
    expect(answers).toHaveLength(1);
    // σ = 32 M/(π d³), M = W·s_1/2.
    expect((answers[0]?.value ?? 0) / Math.cbrt((32 * (W / 2) * 0.1) / (Math.PI * 250e6))).toBeCloseTo(1, 10);
    expect([stretches, jumps]).toEqual([[], []]);
    expect(answers[0]?.slope).toBeLessThan(0);
  });

  test('the load for a stress: F = F_0 + 2 σ I/(c s_1)', async () => {
    const sheet = await evaluated(BENDING, SYMMETRICAL);
    const d = valueOf(sheet.states, 'd');
    const { answers } = ask(sheet, 'sigma_a', 300e6, 'F', 5, 20_000);
    expect(answers.map(({ value }) => value)).toEqual([expect.closeTo(1.5 + (2 * 300e6 * Math.PI * d ** 3) / (32 * 0.1), 7)]);
  });

  test('the section for a moment: two answers, a stretch at the greatest, none above', async () => {
    const sheet = await evaluated(BENDING, SYMMETRICAL);
    const greatest = (W / 2) * 0.1;
    const two = ask(sheet, 'M_s', greatest / 2, 'x_s', 0, 2);
    expect(two.answers.map(({ value }) => value)).toEqual([expect.closeTo(0.05, 10), expect.closeTo(0.35, 10)]);
    const flat = ask(sheet, 'M_s', greatest, 'x_s', 0, 2);
    expect(flat.answers).toEqual([]);
    expect(flat.stretches).toEqual([[expect.closeTo(0.1, 9), expect.closeTo(0.3, 9)]]);
    const none = ask(sheet, 'M_s', greatest * 1.001, 'x_s', 0, 2);
    expect(none).toMatchObject({ answers: [], stretches: [], jumps: [] });
    expect(none.between?.[1].value).toBeCloseTo(greatest, 12);
    // Beyond the right support there is no moment, and the sheet says so.
    expect(none.gaps).toMatchObject([{ to: 2, why: { status: 'problem', problem: { code: 'not-valid' } } }]);
  });

  test('a shear force between two loads is jumped over', async () => {
    const sheet = await evaluated(BENDING, SYMMETRICAL);
    const { answers, jumps } = ask(sheet, 'V_s', 70, 'x_s', 0, 0.4);
    expect(answers).toEqual([]);
    expect(jumps).toEqual([expect.closeTo(0.1, 9)]);
  });

  test('the end of the test within the class period, by speed and by load', async () => {
    const sheet = await evaluated(BENDING);
    const [life, speed, load, B] = ['N_f', 'n', 'W', 'B'].map((symbol) => valueOf(sheet.states, symbol));
    const period = 100 * 60;
    const bySpeed = ask(sheet, 't_f', period, 'n', 100 / 60, 12_000 / 60);
    expect(bySpeed.answers.map(({ value }) => value / ((life ?? 0) / period))).toEqual([expect.closeTo(1, 10)]);
    // log10 N = A + B log10 σ, and σ goes with the load W = F − F_0.
    const byLoad = ask(sheet, 't_f', period, 'F', 5, 20_000);
    const expected = (load ?? 0) * ((period * (speed ?? 0)) / (life ?? 1)) ** (1 / (B ?? 1)) + 1.5;
    expect(byLoad.answers.map(({ value }) => value / expected)).toEqual([expect.closeTo(1, 9)]);
    expect(byLoad.gaps.map(({ why }) => (why?.status === 'range' ? why.word : ''))).toEqual(['below limit', 'low cycle']);
  });

  test('what only touches is told as that', async () => {
    const sheet = await evaluated(parseSheet(given('x', '5', '1') + step('y', '(x - 2)^2 + 1', '1')));
    expect(ask(sheet, 'y', 1, 'x', -10, 10.3).answers).toMatchObject([{ isTouch: true, value: expect.closeTo(2, 4) }]);
    expect(ask(sheet, 'y', 1 + 1e-8, 'x', -10, 10.3).answers.map(({ value }) => value)).toEqual([expect.closeTo(2 - 1e-4, 8), expect.closeTo(2 + 1e-4, 8)]);
    expect(ask(sheet, 'y', 1 - 1e-8, 'x', -10, 10.3).answers).toEqual([]);
  });

  test('what has no part in a result has no answer', async () => {
    const sheet = await evaluated(parseSheet(given('x', '5', '1') + given('z', '5', '1') + step('y', 'x^2', '1')));
    expect(ask(sheet, 'y', 4, 'z', 0, 10)).toMatchObject({ answers: [], hangsOnIt: false });
  });
});

describe('put back into the sheet, by another graph', () => {
  const cases = [
    ['sigma_a', 'd', 3e-3, 12e-3], ['sigma_a', 'F', 50, 900], ['M_s', 'x_s', 0.001, 0.4], ['N_f', 'd', 6.6e-3, 7.9e-3], ['t_f', 'n', 10, 100],
    ['N_lo', 'd', 6.8e-3, 7.8e-3], ['s_1c', 's_1', 0.09, 0.11], ['S_e', 'S_ut', 300e6, 1300e6], ['k_m', 'F', 280, 400],
  ] as const;
  test('every answer gives what was wanted, to 1e-9', { timeout: 240_000 }, async () => {
    const sheet = await evaluated(BENDING);
    await fc.assert(fc.asyncProperty(fc.constantFrom(...cases), fc.double({ min: 0.05, max: 0.95, noNaN: true }), async ([result, input, from, to], share) => {
      const { between } = ask(sheet, result, 1, input, from, to);
      const [least, greatest] = [between?.[0].value ?? Number.NaN, between?.[1].value ?? Number.NaN];
      const wanted = least + share * (greatest - least);
      const { answers } = ask(sheet, result, wanted, input, from, to);
      expect(answers.length).toBeGreaterThan(0);
      for (const { text, result: there } of answers) {
        const { states } = await evaluated(BENDING, { [input]: text });
        expect(Math.abs(valueOf(states, result) / wanted - 1)).toBeLessThan(1e-9);
        expect(there.estimate.value).toBe(valueOf(states, result));
      }
    }), { numRuns: 18 });
  });
});
