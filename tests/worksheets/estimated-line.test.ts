/**
 * The life by a line estimated from the strength, with all that it is estimated from uncertain: whether its 95 % interval holds, by sampling what the
 * sheet states as uncertain from the stated laws and working out each life apart from the sheet.
 */
import { describe, expect, test } from 'vitest';
import { sampledLives } from '../bench/estimated-study.ts';
import { holds, numberOf, solved } from './solved.ts';

const SAMPLES = 40_000;

describe('the interval of a life by the estimated line', () => {
  // Long lives are more frequent than first order in the logarithm has them: with the wide scatter of ground surfaces it holds somewhat fewer than 93 %.
  test.each([['polished', 1, 0.93], ['machined', 1.06, 0.93], ['ground', 1.04, 0.92]])('holds 93 to 97 %% of lives: %s', async (surface, more, least) => {
    const { shares: { inside } } = await sampledLives({ surface, F: `${310 * more} N` }, SAMPLES);
    expect(inside).toBeGreaterThan(least);
    expect(inside).toBeLessThan(0.97);
  });

  test('names the line as what it is uncertain by: its factor is several times that of the measurements', async () => {
    const states = await solved({});
    expect(numberOf(states, 'k_l')).toBeGreaterThan(4);
    expect(numberOf(states, 'k_m')).toBeLessThan(1.5);
    // The whole: u(lg N) of inputs and line near 0.4, with the scatter of 0.2 a factor of 7 to 9 at 95 %.
    expect(numberOf(states, 'N_hi') / numberOf(states, 'N_f')).toBeGreaterThan(7);
    expect(numberOf(states, 'N_hi') / numberOf(states, 'N_f')).toBeLessThan(9);
    expect(numberOf(states, 'f_u')).toBeCloseTo(0.861, 3);
  });

  test.each([['240 N'], ['250 N'], ['260 N']])('below the limit it still has a lower end, and says how many break: %s', async (F) => {
    const { shares, states } = await sampledLives({ F }, SAMPLES);
    expect(states.symbol('N_f')).toMatchObject({ status: 'range', word: 'below limit' });
    expect(states.symbol('N_hi')).toMatchObject({ status: 'range', word: 'below limit' });
    expect(shares.below).toBeGreaterThan(0.01);
    expect(shares.below).toBeLessThan(0.04);
    // To first order in the logarithms; the samples know the share to a quarter of a per cent.
    expect(Math.abs(shares.broken - numberOf(states, 'P_e'))).toBeLessThan(0.015);
  });

  test('at the limit itself one half breaks; far below it nobody is promised anything, and there is no lower end', async () => {
    const states = await solved({ F: '262.6 N' });
    expect(numberOf(states, 'sigma_a') / numberOf(states, 'S_e')).toBeCloseTo(1, 3);
    expect(numberOf(states, 'P_e')).toBeCloseTo(0.5, 2);
    const far = await solved({ F: '60 N' });
    expect(numberOf(far, 'P_e')).toBe(0.001);
    expect(far.symbol('N_lo')).toMatchObject({ status: 'range', word: 'below limit' });
    expect(holds(far, 'all-break')).toBe(false);
    // With a reliability of 90 % the line is a low one; the limit of which half break is the same.
    expect(numberOf(await solved({ F: '262.6 N', reliability: '90' }), 'P_e')).toBeCloseTo(0.5, 2);
  });

  test('a line without a limit says that all break', async () => {
    expect(numberOf(await solved({ F: '200 N', line: 'supplied' }), 'P_e')).toBe(1);
  });
});
