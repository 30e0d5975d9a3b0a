/**
 * The lecture's sheet. Its own answers are held against the sheet itself with the slip typed into a blank (a second way to
 * the same number), and against closed forms: M = F₁·s₁ between two equal loads that stand symmetrically, σ = 32 M/(π d³)
 * (Budynas and Nisbett, Shigley's Mechanical Engineering Design, 9th ed., table A-9 and equation 3-24), N ∝ σ^B.
 */
import { describe, expect, it } from 'vitest';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const text = shipped('span-errors');
const asIs = await solved({}, text);

/** By which factor a symbol moves when these blanks are typed over. */
async function moved(symbol: string, settings: Readonly<Record<string, string>>): Promise<number> {
  return numberOf(await solved(settings, text), symbol) / numberOf(asIs, symbol);
}

describe('the chain', () => {
  it('gives the closed forms', () => {
    expect(numberOf(asIs, 'M_s')).toBeCloseTo(150 * 0.1, 12);
    expect(numberOf(asIs, 'sigma_a')).toBeCloseTo((32 * 15) / (Math.PI * 0.0075 ** 3), 4);
    expect(Math.log10(numberOf(asIs, 'N_f'))).toBeCloseTo(30.9 - 10 * Math.log10((32 * 15) / (Math.PI * 7.5 ** 3) * 1e3), 10);
    expect(numberOf(asIs, 't_f')).toBeCloseTo(numberOf(asIs, 'N_f') / (2800 / 60), 6);
  });

  it('is written back byte for byte', () => {
    expect(serialiseSheet(parseSheet(text))).toBe(text);
  });
});

describe('its own answers are what typing the slip shows', () => {
  const slips: readonly (readonly [string, string, Readonly<Record<string, string>>, number])[] = [
    ['p_s1', 'sigma_a', { s_1: '101 mm' }, 1],
    ['p_s2', 'sigma_a', { s_2: '201 mm' }, 1],
    ['p_rule', 'sigma_a', { L: '404 mm', s_1: '101 mm', s_2: '202 mm', s_3: '101 mm', x_s: '202 mm' }, 1],
    ['p_parts', 'sigma_a', { s_1: '101 mm', s_2: '202 mm', s_3: '101 mm' }, 1],
    ['p_d', 'sigma_a', { d: '7.425 mm' }, 1],
    ['p_N', 'N_f', { d: '7.425 mm' }, 1],
    // What was forgotten makes the true value the larger one: here the typed load is the true one.
    ['p_F', 'sigma_a', { W: '314 N' }, -1],
    ['p_FN', 'N_f', { W: '314 N' }, -1],
  ];
  for (const [answer, symbol, settings, power] of slips) {
    it(`answer ${answer}`, async () => {
      expect(numberOf(asIs, answer)).toBeCloseTo((await moved(symbol, settings)) ** power - 1, 10);
    });
  }

  it('one, a half, one and three per cent', () => {
    expect(['p_s1', 'p_s2', 'p_rule', 'p_parts'].map((symbol) => numberOf(asIs, symbol).toFixed(10))).toEqual(
      ['0.0100000000', '0.0050000000', '0.0100000000', '0.0300000000'],
    );
  });

  it('the closure tells the slips of one length and of mixed instruments, and not the rule that is wrong throughout', async () => {
    const closes = async (settings: Readonly<Record<string, string>>): Promise<boolean | undefined> => holds(await solved(settings, text), 'closes');
    expect(await closes({})).toBe(true);
    expect(await closes({ s_2: '203 mm' })).toBe(false);
    expect(await closes({ s_1: '101 mm', s_2: '202 mm', s_3: '101 mm' })).toBe(false);
    expect(await closes({ L: '404 mm', s_1: '101 mm', s_2: '202 mm', s_3: '101 mm', x_s: '202 mm' })).toBe(true);
  });
});

it('a diameter known as well as asked blurs the life by a tenth', async () => {
  const still = { L: '400 ± 0 mm', s_1: '100 ± 0 mm', s_2: '200 ± 0 mm', s_3: '100 ± 0 mm', x_s: '200 ± 0 mm', W: '300 ± 0 N' };
  expect(numberOf(asIs, 'u_d10')).toBeCloseTo(0.025e-3, 12);
  const states = await solved({ ...still, d: '7.5 ± 0.025 mm' }, text);
  expect(uncertaintyOf(states, 'N_f') / numberOf(states, 'N_f')).toBeCloseTo(0.1, 10);
});

it('a waist worked back to the class period breaks then', async () => {
  const thinner = numberOf(asIs, 'd_c');
  const states = await solved({ d: `${thinner * 1e3} mm` }, text);
  expect(numberOf(states, 't_f')).toBeCloseTo(75 * 60, 6);
});
