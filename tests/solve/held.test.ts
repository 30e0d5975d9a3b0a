/** Held states headless: each has the values of the sheet with its inputs set one by one. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { solveCommand } from '../../src/solve/command.ts';
import { shipped, solving } from '../shipped.ts';

async function solve(...args: readonly string[]) {
  const { stdout } = await solveCommand([...args, '--json']);
  return JSON.parse(stdout) as { values: unknown; held?: readonly { name: string; values: unknown }[]; errors: readonly { message: string }[] };
}

test('solve --json tells what is held beside what is', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'spanlife-held-'));
  const file = join(folder, 'held.md');
  const held = 'held:\n  - name: T4\n    inputs:\n      d: 7.00 mm\n      spans: adjusted\n      gone: 1 N\n';
  writeFileSync(file, shipped('rotating-bending').replace('units: SI\n', `units: SI\n${held}`));
  const [now, set] = [await solve(file), await solve(...solving('rotating-bending'), '--set', 'd=7.00 mm', '--set', 'spans=adjusted')];
  rmSync(folder, { recursive: true });
  expect(now.held?.map(({ name }) => name)).toEqual(['T4']);
  expect(now.held?.[0]?.values).toEqual(set.values);
  expect(now.values).not.toEqual(set.values);
  expect(now.errors.map(({ message }) => message)).toEqual([expect.stringContaining('Of the held state “T4”: No given or choice of this sheet is called gone.')]);
  expect(set.held).toBeUndefined();
});
