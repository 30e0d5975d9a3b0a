import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import table from '../tables/censored-regression.json';
import { shipped, solving } from '../shipped.ts';

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
  readonly values: Readonly<Record<string, { si: number | null; si_u: number | null; mc?: { u: number } }>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null }[];
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
}

const folder = mkdtempSync(join(tmpdir(), 'spanlife-fits-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function solve(rows: string, ...settings: readonly string[]): Promise<{ readonly code: number; readonly json: Answer }> {
  const file = join(folder, 'rows.csv');
  writeFileSync(file, rows);
  const { code, stdout } = await solveCommand([...solving('sn-line'), '--rows', `specimens=${file}`, '--json', ...settings.flatMap((setting) => ['--set', setting])]);
  return { code, json: JSON.parse(stdout) as Answer };
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

describe('fits of the headless command', () => {
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

  it('takes a group that only the rows name, and refuses one that nobody names, with those that there are', async () => {
    const rows = 'specimen,group,S [MPa],N,outcome\na,batch 1,400,1e5,fracture\nb,batch 1,350,3e5,fracture\nc,batch 1,300,1e6,fracture\nd,batch 2,300,2e6,fracture\n';
    const { code, json } = await solve(rows, 'group=batch 1');
    expect(code).toBe(0);
    expect(json.fits['line']?.n).toBe(3);
    const refused = await solveCommand([...solving('sn-line'), '--rows', `specimens=${join(folder, 'rows.csv')}`, '--set', 'group=batch 3']);
    expect(refused.code).toBe(2);
    expect(refused.stderr).toContain('Choose one of: all, steel K, steel M, batch 1, batch 2.');
  });

  it('gives what is found besides a line among the values, with its draws, and keeps it out of the fits', async () => {
    const rows = dataRows('superalloy', 'specimen,S [ksi],N,outcome');
    writeFileSync(join(folder, 'rows.csv'), rows);
    const settings = ['S_x=100 ± 0.5 ksi', 'N_x=5e4 cycles', 'method=maximum-likelihood'].flatMap((setting) => ['--set', setting]);
    const { code, stdout } = await solveCommand([...solving('sn-line'), '--rows', `specimens=${join(folder, 'rows.csv')}`, '--json', '--draws', '20000', ...settings]);
    const json = JSON.parse(stdout) as Answer;
    // No groups in these rows: nothing to compare is no error.
    expect([code, json.errors, Object.keys(json.fits)]).toEqual([0, [], ['line']]);
    const [N, S] = [json.values['N_d'], json.values['S_d']];
    expect(N?.si).toBeGreaterThan(1e3);
    expect(N?.si).toBeLessThan(json.values['N_50']?.si ?? 0);
    expect(S?.si_u).toBe(0);
    expect((N?.mc?.u ?? 0) / (N?.si_u ?? 1)).toBeCloseTo(1, 1);
  });

  it('reckons with a line that was taken from another sheet, and says where it comes from', async () => {
    // Invented: log10 N = 31 − 10·log10(S/MPa). With exact inputs u²(log10 N) = 4 − 2·1.56·x + 0.61·x², x = log10(S/MPa).
    const snapshot = [
      'from: A class', 'fit: line', 'taken: 2026-11-20', 'method: least-squares', 'model: linear', 'life: lognormal', 'stress: log', 'A: 31', 'B: -10', 's: 0.2',
      'covariance: 4; -1.56, 0.61; 0, 0, 0.05', 'n: 12', 'failures: 12', 'runouts: 0', 'levels: 4', 'degrees_of_freedom: 10', 'log_likelihood: -150',
      'tested_stress: 280 .. 460 MPa', 'tested_lives: 5e4 .. 1e7 cycles', 'data: 0123456789abcdef',
    ];
    const file = join(folder, 'taken.md');
    const sheet = shipped('rotating-bending');
    writeFileSync(file, sheet.replace('  N_high: N_high\n', `  N_high: N_high\nsnapshot:\n${snapshot.map((line) => `  ${line}\n`).join('')}`));
    const exact = ['L=400 ± 0 mm', 's_1=100 ± 0 mm', 's_2=200 ± 0 mm', 's_3=100 ± 0 mm', 'x_s=200 ± 0 mm', 'd=7.5 ± 0 mm', 'F=300 ± 0 N', 'F_0=0 ± 0 N', 'inertia=left-out'];
    const { code, stdout } = await solveCommand([file, '--json', ...['line=fitted', ...exact].flatMap((setting) => ['--set', setting])]);
    const json = JSON.parse(stdout) as Answer;
    expect([code, json.errors]).toEqual([0, []]);
    expect(json.fits['class-line']).toMatchObject({ n: 12, s: 0.2, taken: { title: 'A class', fitId: 'line', date: '2026-11-20' } });
    const x = Math.log10((32 * 15) / (Math.PI * 0.0075 ** 3) / 1e6);
    expect(json.values['lg_N']?.si).toBeCloseTo(31 - 10 * x, 9);
    expect(json.values['lg_N']?.si_u).toBeCloseTo(Math.sqrt(4 - 2 * 1.56 * x + 0.61 * x * x), 9);
    // 2.228139: Student's t, 0.975, 10 degrees of freedom, any printed table.
    expect(json.values['k_95']?.si).toBeCloseTo(2.228139, 5);
    const spoilt = join(folder, 'spoilt.md');
    writeFileSync(spoilt, readFileSync(file, 'utf8').replace('  s: 0.2\n', '  s: -0.2\n'));
    const refused = await solveCommand([spoilt, '--json']);
    expect(refused.code).toBe(1);
    expect((JSON.parse(refused.stdout) as Answer).errors).toMatchObject([{ cell: 'class-line', message: expect.stringContaining('s, the scatter, must be above zero') }]);
  });
});
