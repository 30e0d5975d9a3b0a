import { describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import { solving } from '../shipped.ts';

async function solve(...args: string[]) {
  const { code, stdout } = await solveCommand([...solving('alternating-bending'), ...args, '--json']);
  return { code, answer: JSON.parse(stdout) as { values: Record<string, { value: number | null; u: number | null; range?: string }>; errors: unknown[] } };
}

describe('the alternating-bending sheet, headless', () => {
  it('has no error unedited, and gives a table’s symbols like any other', async () => {
    const { code, answer } = await solve();
    expect([code, answer.errors]).toEqual([0, []]);
    expect(answer.values['D_M']?.value).toBeGreaterThan(0);
    expect(answer.values['D_M']?.u).toBeGreaterThan(0);
    expect(answer.values['N_obs']).toMatchObject({ value: null, range: 'open' });
  });

  it('takes another support, correction and rows from outside', async () => {
    const { code, answer } = await solve('--set', 'support=guided', '--set', 'mean_stress=walker', '--set', 'k_m=500 N/mm', '--set', 'z_1=11 mm', '--set', 'z_2=14 mm');
    expect(code).toBe(0);
    // 3 E t δ/L² with E = 205 GPa, t = 3 mm, δ = 1.5 mm, L = 80.125 mm, and 12 E I/L³ beside 500 N/mm of the machine; by hand.
    const k = (12 * 205000 * (20.01 * 27) / 12) / 80.125 ** 3;
    expect(answer.values['sigma_a']?.value).toBeCloseTo(((3 * 205000 * 3 * 1.5) / 80.125 ** 2) * (500 / (500 + k)), 6);
  });
});
