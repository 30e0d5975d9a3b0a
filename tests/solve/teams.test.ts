/** A class from the command line: a document for each team, and the key. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { cellsOf, parseSheet } from '../../src/sheet/index.ts';
import { solveCommand } from '../../src/solve/command.ts';
import { solving } from '../shipped.ts';

const folder = mkdtempSync(join(tmpdir(), 'spanlife-teams-'));
afterAll(() => rmSync(folder, { recursive: true }));
const list = join(folder, 'class.csv');
writeFileSync(list, 'team;name\nT1;Ada\n../T2;Ben\nT1;Cem\n');
const into = (name: string): readonly string[] => ['--teams', list, '--into', join(folder, name)];

test('each team gets a document with its names and numbers, and the key names its variant', async () => {
  const { code, stdout, stderr } = await solveCommand([...solving('rotating-bending'), ...into('a'), '--class-seed', 'autumn']);
  expect([code, stderr]).toEqual([0, 'In several lines, whose names are put together: T1 (2).\n']);
  const [head, ...rows] = stdout.replace(/^\ufeff/, '').trimEnd().split('\r\n');
  expect(head).toMatch(/^team,names,variant,s_1,/);
  expect(rows.map((row) => row.split(',')[0])).toEqual(['T1', '../T2']);
  const files = readdirSync(join(folder, 'a'));
  expect(files).toHaveLength(2);
  for (const name of files) {
    const document = parseSheet(readFileSync(join(folder, 'a', name), 'utf8'));
    const row = rows.find((one) => one.includes(name.replace('.md', '')));
    expect(row).toContain(cellsOf(document, 'given').find(({ symbol }) => symbol === 's_1')?.value);
    expect(row?.startsWith(document.frontMatter.entries.get('team') ?? '?')).toBe(true);
    expect(document.frontMatter.entries.get('class_seed')).toBe(undefined);
  }
});

test('nothing is written over, and what is missing is said', async () => {
  const sheet = solving('rotating-bending');
  await solveCommand([...sheet, ...into('b'), '--class-seed', 'autumn']);
  expect(await solveCommand([...sheet, ...into('b'), '--class-seed', 'autumn'])).toMatchObject({ code: 2, stderr: expect.stringContaining('is not written over') as string });
  expect(await solveCommand([...sheet, ...into('c')])).toMatchObject({ code: 2, stderr: expect.stringContaining('name one with --class-seed') as string });
  expect(await solveCommand([...sheet, '--teams', list])).toMatchObject({ code: 2, stderr: expect.stringContaining('go together') as string });
  expect(await solveCommand(['worksheets/materials.md', ...into('d'), '--class-seed', 'x'])).toMatchObject({ code: 2, stderr: expect.stringContaining('Nothing in this sheet varies') as string });
  expect(readdirSync(folder).toSorted()).toEqual(['a', 'b', 'class.csv']);
});

test('a sheet without numbers for a team ends with 1 and says why', async () => {
  const file = join(folder, 'none.md');
  writeFileSync(file, '```given\nsymbol: a\nunit: mm\nvaries: 1 mm .. 2 mm step 1 mm\n```\n```step\nsymbol: b\nformula: 2*a\nunit: mm\nwanted: 9 mm .. 10 mm\n```\n');
  const { code, stdout } = await solveCommand([file, ...into('e'), '--class-seed', 'x']);
  expect(code).toBe(1);
  expect(stdout).toContain('b between 9 mm and 10 mm, 2000 times');
});
