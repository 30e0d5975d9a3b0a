import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-uncertainty-'));
afterAll(() => rmSync(folder, { recursive: true }));

const given = (symbol: string, value: string, unit: string): string =>
  ['```given', `symbol: ${symbol}`, `value: "${value}"`, `unit: "${unit}"`, 'possible: any', '```', ''].join('\n');
const step = (symbol: string, formula: string, unit: string): string => ['```step', `symbol: ${symbol}`, `formula: "${formula}"`, `unit: ${unit}`, '```', ''].join('\n');

async function solve(name: string, text: string, ...args: readonly string[]): Promise<string> {
  const file = join(folder, `${name}.md`);
  writeFileSync(file, text);
  const { code, stdout } = await solveCommand([file, ...args]);
  expect(code).toBe(0);
  return stdout;
}

// A vernier caliper held against a gauge block: EA-4/02 M, supplement example S10 (from memory): u = 0.033 mm, of which the two
// rectangular parts that stand out make a trapezoid with k = 1.83 and U = 0.06 mm.
const CALIPER = given('l_iX', '150.10 mm', 'mm') + given('l_S', '150 ± 0.0008 limit', 'mm') + given('dt', '0 ± 2 limit', 'K') + given('alpha', '11.5e-6', '1/K')
  + given('dl_iX', '0 ± 0.025 limit', 'mm') + given('dl_M', '0 ± 0.050 limit', 'mm') + step('E_X', 'l_iX - l_S + l_S*alpha*dt + dl_iX + dl_M', 'mm');

interface Caliper {
  readonly budgets: { readonly E_X: { readonly u: number; readonly k: number; readonly degreesOfFreedom: unknown; readonly inputs: readonly Readonly<Record<string, unknown>>[] } };
  readonly values: { readonly E_X: { readonly mc: Readonly<Record<'lo' | 'hi' | 'tolerance', number>> & { readonly firstOrderHolds: boolean; readonly shortest: { readonly lo: number; readonly hi: number } } } };
}

describe('uncertainty from the headless command', () => {
  it('gives budget, intervals and verdict as JSON: a caliper', async () => {
    const { budgets, values } = JSON.parse(await solve('caliper', CALIPER, '--json', '--draws', '400000', '--budget', 'E_X')) as Caliper;
    const { u, k, degreesOfFreedom, inputs } = budgets.E_X;
    // Unrounded √(0.0289² + 0.0144² + 0.0020² + 0.0005²) mm.
    expect(u).toBeCloseTo(Math.hypot(0.05, 0.025, 1.725e-3 * 2, 0.0008) / Math.sqrt(3), 12);
    expect(degreesOfFreedom).toBe('infinite');
    expect(k).toBeCloseTo(1.959964, 6);
    expect(inputs.map(({ input }) => input).slice(0, 4)).toEqual(['dl_M', 'dl_iX', 'dt', 'l_S']);
    expect(inputs[2]).toMatchObject({ unit: 'K', type: 'B', distribution: 'rectangular', degreesOfFreedom: 'infinite' });
    expect(inputs[2]?.['sensitivity']).toBeCloseTo(0.001725, 12);
    expect(inputs.slice(0, 4).reduce((sum, { share }) => sum + Number(share), 0)).toBeCloseTo(1, 12);
    const { lo, hi, firstOrderHolds, shortest } = values.E_X.mc;
    expect((hi - lo) / 2 / u).toBeCloseTo(1.83, 1);
    expect(Math.round(100 * ((hi - lo) / 2)) / 100).toBe(0.06);
    expect(shortest.hi - shortest.lo).toBeLessThanOrEqual(hi - lo);
    expect(firstOrderHolds).toBe(false);
  });

  it('says the same in words and a table', async () => {
    const said = await solve('caliper-told', CALIPER, '--draws', '20000', '--budget', 'E_X');
    expect(said).toMatch(/^ {2}E_X: Drawn: 95 % interval 0\.0\d+ to 0\.1\d+ mm\. Don't use the first-order interval here\./m);
    expect(said).toMatch(/^ {2}dl_M +0\.000 mm +0\.029 mm +B +rectangular +∞ +1\.00 mm\/mm +0\.029 mm +80 %$/m);
    expect(said).toMatch(/Combined standard uncertainty 0\.032 mm/);
  });

  it('tells a sum of normal quantities from one of rectangular ones', async () => {
    // JCGM 101:2008, 9.2.2: four standard normal quantities, first order holds.
    const normal = [1, 2, 3, 4].map((i) => given(`X_${i}`, '0 ± 1', '1')).join('') + step('Y', 'X_1 + X_2 + X_3 + X_4', '"1"');
    const { values } = JSON.parse(await solve('normal', normal, '--json', '--draws', '1000000')) as { values: { Y: { interval: unknown; mc: { firstOrderHolds: boolean } } } };
    expect(values.Y.mc.firstOrderHolds).toBe(true);
    expect(values.Y.interval).toMatchObject({ degreesOfFreedom: 'infinite' });
  });

  it('prints its usage when asked', async () => {
    expect((await solveCommand(['--help'])).stdout).toMatch(/^usage: .*\n[^]*--budget/);
  });
});
