import { execFile } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { solveCommand, type Ended } from '../../src/solve/command.ts';
import { solving } from '../shipped.ts';

interface Answer {
  readonly title: string;
  readonly values: Readonly<Record<string, { value: number | null; unit: string; u: number | null; si: number | null; si_u: number | null; text: string; range?: string; mc?: { mean: number; u: number; lo: number; hi: number; draws: number; seed: number } }>>;
  readonly checks: readonly { readonly cell: string; readonly holds: boolean | null; readonly message: string }[];
  readonly errors: readonly { readonly cell: string; readonly message: string }[];
}

const sheet = solving('rotating-bending');
const folder = mkdtempSync(join(tmpdir(), 'spanlife-solve-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The command without a process of its own; the two tests that start it as a user does show that this is the same. */
function solve(...args: readonly string[]): Promise<Ended> {
  return solveCommand(args);
}

function startByNpm(...args: readonly string[]): Promise<{ readonly code: number; readonly stdout: string; readonly stderr: string }> {
  return new Promise((resolve) => {
    execFile('npm', ['run', '--silent', 'solve', '--', ...args], { maxBuffer: 1e8 }, (error, stdout, stderr) => {
      resolve({ code: error === null ? 0 : Number(error.code), stdout, stderr });
    });
  });
}

async function answer(...args: readonly string[]): Promise<{ readonly code: number; readonly json: Answer }> {
  const { code, stdout } = await solve(...args, '--json');
  return { code, json: JSON.parse(stdout) as Answer };
}

describe('the headless command as a user starts it', { timeout: 60_000 }, () => {
  it('prints nothing but the answer through npm', async () => {
    const started = await startByNpm(...sheet);
    expect(started).toEqual(await solve(...sheet));
    expect(started).toMatchObject({ code: 0, stderr: '' });
    expect(started.stdout).toMatch(/^Rotating bending, two load points\n/);
    expect(started.stdout).toMatch(/^sigma_a +[\d.]+ ± [\d.]+ MPa$/m);
  });

  it('says through npm what is wrong, on the stream for errors, with its status', async () => {
    const args = [...sheet, '--set', 'R_A=3 N', '--json'];
    const started = await startByNpm(...args);
    expect(started).toEqual(await solve(...args));
    expect(started).toMatchObject({ code: 2, stdout: '' });
  });
});

describe('the headless command', () => {

  it('answers the unedited example with every value, its unit and its uncertainty', async () => {
    const { code, json } = await answer(...sheet);
    expect(code).toBe(0);
    expect(json.title).toBe('Rotating bending, two load points');
    expect(json.errors).toEqual([]);
    expect(json.values['sigma_a']).toMatchObject({ unit: 'MPa' });
    const { value, si, u, si_u: siU, text } = json.values['sigma_a'] ?? {};
    expect((value ?? 0) * 1e6).toBeCloseTo(si ?? 1, 3);
    expect((u ?? 0) * 1e6).toBeCloseTo(siU ?? 1, 5);
    expect(text).toMatch(/^[\d.]+ ± [\d.]+ MPa$/);
    expect(json.checks.length).toBeGreaterThan(5);
    for (const check of json.checks) expect(check.message).not.toMatch(/\{=|undefined|NaN/);
  });

  it('takes values as the blank does: readings, stated uncertainty, an option, US units', async () => {
    const { code, json } = await answer(
      ...sheet, '--set', 'd=[6.31, 6.33, 6.30] mm', '--set', 'F=60 ± 0.5 lbf', '--set', 'spans=adjusted', '--set', 'L=15.75 in',
    );
    expect(code).toBe(0);
    expect(json.values['d']?.si).toBeCloseTo((6.31 + 6.33 + 6.3) / 3e3, 12);
    expect(json.values['F']).toMatchObject({ unit: 'lbf' });
    expect(json.values['F']?.value).toBeCloseTo(60, 12);
    expect(json.values['F']?.u).toBeCloseTo(0.5, 12);
    expect(json.values['L']?.si).toBeCloseTo(15.75 * 0.0254, 12);
    expect(json.values['l_1']?.si).toBe(json.values['s_1c']?.si);
  });

  it('keeps a bare value’s instrument and drops its readings', async () => {
    const { json } = await answer(...sheet, '--set', 'd=6.31 mm');
    expect(json.values['d']?.si).toBe(0.00631);
    // Micrometer of the sheet: limit and resolution as rectangular parts, no readings left.
    expect(json.values['d']?.u).toBeGreaterThan(0);
    expect(json.values['d']?.u).toBeLessThan(0.0075);
  });

  it('reports an impossible value at its cell, prints the rest and exits with 1', async () => {
    const { code, json } = await answer(...sheet, '--set', 'd=0 mm');
    expect(code).toBe(1);
    expect(json.errors).toHaveLength(1);
    expect(json.errors[0]).toMatchObject({ cell: 'd' });
    expect(json.values['M_s']?.value).toBeGreaterThan(0);
    expect(json.values['sigma_a']).toMatchObject({ value: null, si: null, u: null });
  });

  it('gives a life off the line a range word, no number and no error', async () => {
    const { code, json } = await answer(...sheet, '--set', 'F=200 N');
    expect(code).toBe(0);
    for (const symbol of ['N_f', 'N_lo', 'N_hi', 't_f']) {
      expect(json.values[symbol]).toMatchObject({ value: null, si: null, u: null, range: 'below limit' });
    }
    const short = await answer(...sheet, '--set', 'F=600 N');
    expect(short.json.values['N_f']).toMatchObject({ value: null, range: 'low cycle' });
  });

  it('propagates distributions, and repeats itself for the same seed', async () => {
    const { json } = await answer(...sheet, '--draws', '20000');
    const again = await answer(...sheet, '--draws', '20000');
    const other = await answer(...sheet, '--draws', '20000', '--seed', '7');
    const { mc, value, u } = json.values['sigma_a'] ?? {};
    expect(mc).toMatchObject({ draws: 20000 });
    expect(Math.abs((mc?.mean ?? 0) / (value ?? 1) - 1)).toBeLessThan(0.001);
    expect(Math.abs((mc?.u ?? 0) / (u ?? 1) - 1)).toBeLessThan(0.15);
    expect(mc?.lo).toBeLessThan(value ?? 0);
    expect(again.json.values['sigma_a']?.mc).toEqual(mc);
    expect(other.json.values['sigma_a']?.mc?.mean).not.toBe(mc?.mean);
  });

  it.each([
    [[...sheet, '--set', 'R_A=3 N'], /R_A is derived/],
    [[...sheet, '--set', 'S_utt=3 MPa'], /Did you mean S_ut/],
    [[...sheet, '--set', 'material=wood'], /1045-cold-drawn/],
    [[...sheet, '--set', 'd'], /SYMBOL=VALUE/],
    [['no-such-file.md'], /no such file/i],
    [[], /Name a worksheet/],
    [[...sheet, '--draws', 'many'], /whole number/],
    [[...sheet, '--rows', 'specimens=x.csv'], /no table called specimens/],
    [[...sheet, '--nonsense'], /nonsense/],
    [[...sheet, '--budget', 'sigma_x'], /no symbol called sigma_x/],
  ] as const)('refuses bad usage %j with exit 2 and nothing on stdout', async (args, words) => {
    const { code, stdout, stderr } = await solve(...args);
    expect(code).toBe(2);
    expect(stdout).toBe('');
    expect(stderr).toMatch(words);
    expect(stderr).not.toMatch(/\n\s+at /);
  });

  it('survives junk: binary is refused, broken YAML and loops are told with the rest alive', async () => {
    const junk = join(folder, 'junk.md');
    writeFileSync(junk, Uint8Array.from({ length: 4000 }, (_, i) => (i * 197) % 256));
    expect((await solve(junk)).code).toBe(2);
    const broken = join(folder, 'broken.md');
    writeFileSync(broken, '```given\nsymbol: a\nvalue: 2 mm\n```\n\n```step\nsymbol: b\nformula: c*2\n```\n\n```step\nsymbol: c\nformula: b/2\n```\n\n```given\nsymbol: [\n```\n');
    const { code, json } = await answer(broken);
    expect(code).toBe(1);
    expect(json.values['a']?.si).toBe(0.002);
    expect(json.errors.map(({ cell }) => cell)).toEqual(expect.arrayContaining(['b', 'c']));
    expect(json.errors.length).toBeGreaterThanOrEqual(3);
  });
});
