import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import { shipped, solving } from '../shipped.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-invisible-'));
afterAll(() => rmSync(folder, { recursive: true }));

const SHEET = [
  '---', 'title: Invisible', '---', '',
  '```given', 'symbol: d', 'label: Diameter', 'unit: mm', 'value: 6\u200b.35 mm', '```', '',
  '```given', 'symbol: F', 'label: Load', 'unit: N', 'value: 250 N', '```', '',
  '```step', 'symbol: M', 'label: Moment', 'unit: N*m', 'formula: F\u2062*unit(m)', '```', '',
].join('\n');

describe('invisible signs', () => {
  it('are named where they stand in a given and in a formula', async () => {
    const file = join(folder, 'sheet.md');
    writeFileSync(file, SHEET);
    const { code, stdout } = await solveCommand([file]);
    expect(code).toBe(1);
    expect(stdout).toContain('An invisible sign, zero-width space (U+200B), stands after “6”. Delete it, or type this anew.');
    expect(stdout).toContain('An invisible sign, invisible times (U+2062), stands after “F”. Delete it, or write * in its place.');
  });

  it('are named in the rows of a table, words of outcomes among them', async () => {
    const file = join(folder, 'rows.csv');
    writeFileSync(file, ['specimen,group,S [MPa],N,outcome', 'a,K,4\u200b00,1e5,fracture', 'b,K,380,2e5,frac\u00adture', 'c,K,350,3e5,fracture', 'd,K,340,4e5,fracture', ''].join('\n'));
    const { stdout } = await solveCommand([...solving('sn-line'), '--rows', `specimens=${file}`]);
    expect(stdout).toContain('An invisible sign, zero-width space (U+200B), stands after “4”.');
    expect(stdout).toContain('An invisible sign, soft hyphen (U+00AD), stands after “frac”.');
  });

  it('stand in no sheet that ships', () => {
    expect(['rotating-bending', 'alternating-bending', 'sn-line', 'staircase'].filter((name) => /\p{Default_Ignorable_Code_Point}/u.test(shipped(name)))).toEqual([]);
  });
});
