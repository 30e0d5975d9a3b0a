import { describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import { solving } from '../shipped.ts';

interface Answer {
  readonly values: Readonly<Record<string, { value: number | null; unit: string; u: number | null } | undefined>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null }[];
  readonly errors: readonly unknown[];
}

async function solve(...settings: readonly string[]): Promise<{ readonly code: number; readonly json: Answer }> {
  const { code, stdout } = await solveCommand([...solving('staircase'), '--json', ...settings.flatMap((setting) => ['--set', setting])]);
  return { code, json: JSON.parse(stdout) as Answer };
}

describe('the staircase sheet in the headless command', () => {
  it('gives the strength and its standard deviation with their uncertainty, in the table’s unit', async () => {
    const { code, json } = await solve();
    expect(code).toBe(0);
    expect(json.errors).toEqual([]);
    // Dixon and Mood by hand: 270 + 10·(12/8 + 1/2) and 1.62·10·(0.75 + 0.029).
    expect(json.values['S_50']).toMatchObject({ unit: 'MPa' });
    expect(json.values['S_50']?.value).toBeCloseTo(290, 9);
    expect(json.values['s_S']?.value).toBeCloseTo(12.6198, 9);
    // G·s/√n and H·s/√n; computed with numpy 2.4 and scipy.stats.norm for a step of 10/12.6198.
    expect(json.values['S_50']?.u).toBeCloseTo(4.359482276, 8);
    expect(json.values['s_S']?.u).toBeCloseTo(6.622456395, 8);
    expect(json.checks).toEqual([expect.objectContaining({ cell: 'below-limit', holds: true })]);
  });
  it('takes maximum likelihood by choice', async () => {
    // Computed with scipy 1.17, optimize.minimize.
    const { code, json } = await solve('method=probit');
    expect(code).toBe(0);
    expect(json.values['S_50']?.value).toBeCloseTo(288.536019, 4);
    expect(json.values['s_S']?.value).toBeCloseTo(11.821649, 4);
  });
});
