import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import table from '../tables/censored-regression.json';

interface Fit {
  readonly method: string;
  readonly n: number;
  readonly failures: number;
  readonly runouts: number;
  readonly parameters: Readonly<Record<string, { value: number; se: number; lo: number; hi: number }>>;
  readonly covariance: readonly (readonly number[])[];
  readonly s: number;
  readonly logLikelihood: number;
  readonly lackOfFit: null | { F: number; df1: number; df2: number; p: number };
}

interface Answer {
  readonly fits: Readonly<Record<string, Fit | null>>;
  readonly values: Readonly<Record<string, { si: number | null; si_u: number | null }>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null }[];
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
}

const folder = mkdtempSync(join(tmpdir(), 'spanlife-fits-'));
afterAll(() => rmSync(folder, { recursive: true }));

function solve(rows: string, ...settings: readonly string[]): Promise<{ readonly code: number; readonly json: Answer }> {
  const file = join(folder, 'rows.csv');
  writeFileSync(file, rows);
  const args = ['--import', 'tsx', 'src/solve.ts', 'worksheets/sn-line.md', '--rows', `specimens=${file}`, '--json'];
  for (const setting of settings) args.push('--set', setting);
  return new Promise((resolve) => {
    execFile(process.execPath, args, { maxBuffer: 1e8 }, (error, stdout) => {
      resolve({ code: error === null ? 0 : Number(error.code), json: JSON.parse(stdout) as Answer });
    });
  });
}

function dataRows(name: 'superalloy', header: string): string {
  const { rows } = table.data[name];
  const lines = (rows as readonly (readonly number[])[]).map(
    ([stress = 0, kilocycles = 0, failed = 0], i) => `A${i + 1},${stress},${kilocycles * 1000},${failed === 1 ? 'fracture' : 'runout'}`,
  );
  return [header, ...lines].join('\n');
}

function published(id: string) {
  const found = table.cases.find((entry) => entry.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  return found.expected as unknown as Readonly<Record<string, { readonly value: number & readonly number[] }>>;
}

const LN10 = Math.log(10);
const MPA_PER_KSI = 6.894757293168361;

describe('fits of the headless command', { timeout: 120_000 }, () => {
  it.each([
    ['cens-superalloy-lognormal-linear', 'lognormal'],
    ['cens-superalloy-weibull-linear', 'weibull'],
  ])('%s: maximum likelihood with runouts, stress in ksi by the header', async (id, life) => {
    // Data: Nelson, Accelerated Testing (1990), p. 272; estimates by R's survreg on natural logarithms, ksi and kilocycles.
    const expected = published(id);
    const { code, json } = await solve(dataRows('superalloy', 'specimen,S [ksi],N,outcome'), 'method=maximum-likelihood', `life=${life}`);
    expect(code).toBe(0);
    const fit = json.fits['line'];
    const [b0 = 0, b1 = 0] = expected['coefficients']?.value ?? [];
    expect(fit?.parameters['B']?.value).toBeCloseTo(b1, 5);
    const A = b0 / LN10 + 3 - b1 * Math.log10(MPA_PER_KSI);
    expect(Math.abs((fit?.parameters['A']?.value ?? 0) / A - 1)).toBeLessThan(1e-6);
    expect(Math.abs((fit?.s ?? 0) / ((expected['sigma']?.value ?? 0) / LN10) - 1)).toBeLessThan(1e-6);
    expect(fit?.covariance).toHaveLength(3);
    expect(json.values['B']?.si).toBe(fit?.parameters['B']?.value);
    expect(json.values['B']?.si_u).toBeCloseTo(fit?.parameters['B']?.se ?? 0, 12);
    expect(json.checks.find(({ cell }) => cell === 'runouts-used')?.holds).toBe(true);
  });

  it('fits the fractures by least squares, counts the runouts, and a check points to maximum likelihood', async () => {
    const { json } = await solve(dataRows('superalloy', 'specimen,S [ksi],N,outcome'));
    const fit = json.fits['line'];
    expect(fit?.method).toBe('least-squares');
    expect(fit?.n).toBe(fit?.failures);
    expect(fit?.runouts).toBe(4);
    expect(json.checks.find(({ cell }) => cell === 'runouts-used')?.holds).toBe(false);
  });

  it('leaves a row in error out, says which, and refuses too few points in words', async () => {
    const { code, json } = await solve('specimen,S [MPa],N,outcome\nA1,400,1e5,fracture\nA2,abc,1e5,fracture\nA3,420,-5,fracture\n');
    expect(code).toBe(1);
    expect(json.fits['line']).toBeNull();
    expect(json.errors.map(({ cell }) => cell)).toContain('line');
    expect(json.errors.find(({ cell }) => cell === 'line')?.message).toMatch(/\d|specimen/);
  });
});
