/** Whatever leaves the page says which values are on trial, and what was measured is in it as well. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { presentGiven, presentHeldTable, renderSheet, restsOnTrial, sheetTex, trialSentence } from '../../src/report/index.ts';
import { solveCommand } from '../../src/solve/command.ts';
import { shipped, solving } from '../shipped.ts';
import { contextOf } from './sheet-at.ts';

const TEXT = shipped('rotating-bending');
const TRIED = TEXT.replace('readings: 101.0, 101.5, 101.5, 101.0 mm\n', 'readings: 101.0, 101.5, 101.5, 101.0 mm\ntrial: 105 mm\n');
const SAID = 'Left support to left load point: s_1 = 105 mm';

test('at the given: the trial value with its uncertainty beside the readings, whose mean stays', async () => {
  const context = await contextOf(TRIED);
  const cell = context.document.blocks.find((block) => block.kind === 'cell' && block.cell.kind === 'given' && block.cell.symbol === 's_1');
  if (cell?.kind !== 'cell' || cell.cell.kind !== 'given') throw new Error('no given');
  const given = presentGiven(cell.cell, context);
  expect(given.blanks).toEqual(['101.0 mm', '101.5 mm', '101.5 mm', '101.0 mm']);
  expect(given.mean).toBe('101.25 mm');
  expect(given.trial).toMatchObject({ typed: '105 mm', stays: 'your readings', uncertainty: expect.stringMatching(/^0\.\d+ mm$/) });
});

test('in the report, in the equations for LaTeX, and in a sentence for other files; nothing of it where none stands', async () => {
  const [tried, plain] = [await contextOf(TRIED), await contextOf(TEXT)];
  const html = renderSheet(tried);
  expect(html).toContain('<section class="trial-band" aria-labelledby="trial-band-words"><h2 id="trial-band-words">A trial value stands in place of what was measured</h2>');
  expect(html).toMatch(/<li>Left support to left load point: <span class="symbol-name"><i>s<\/i>.?<sub>1<\/sub><\/span> = 105 mm.?<\/li>/s);
  expect(html).toMatch(/class="trial-here">Trial value 105 mm \(u = [\d.]+ mm\); your readings stay\./);
  expect(sheetTex(tried)).toContain('A trial value stands in place of what was measured');
  expect(trialSentence(tried)).toContain(SAID);
  expect(trialSentence(plain)).toBeUndefined();
  expect(renderSheet(plain)).not.toContain('trial-');
});

test('what hangs on it is known, and what does not', async () => {
  const context = await contextOf(TRIED);
  const at = (symbol: string): string => context.states.definedBy(symbol) ?? '';
  expect(['s_1', 'l_1', 'R_B', 'M_s', 'sigma_a'].map((symbol) => restsOnTrial(at(symbol), context))).toEqual([true, true, true, true, true]);
  expect(['d', 'I', 'F'].map((symbol) => restsOnTrial(at(symbol), context))).toEqual([false, false, false]);
});

test('beside a held state the row of the given says that it is on trial', async () => {
  const held = 'held:\n  - name: as read\n    inputs:\n      s_1: "[101.0, 101.5, 101.5, 101.0 mm]"\n';
  const table = presentHeldTable(await contextOf(TRIED.replace('units: SI\n', `units: SI\n${held}`)));
  expect(table?.inputs.map(({ symbol, cells }) => [symbol, cells[0]?.text.includes('(trial value)'), cells[1]?.text.includes('(trial value)')])).toEqual([['s_1', true, false]]);
});

test('in solve, as text and as JSON', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'spanlife-trial-'));
  const file = join(folder, 'tried.md');
  writeFileSync(file, TRIED);
  const [text, json, set] = [await solveCommand([file]), await solveCommand([file, '--json']), await solveCommand([...solving('rotating-bending'), '--set', 'trial s_1=105 mm', '--json'])];
  rmSync(folder, { recursive: true });
  expect(text.stdout).toContain('TRIAL VALUES IN PLACE OF WHAT WAS MEASURED: s_1 = 105 mm.');
  expect(JSON.parse(json.stdout)).toMatchObject({ trials: { s_1: '105 mm' }, values: { s_1: { value: 105, restsOnTrial: true }, M_s: { restsOnTrial: true } } });
  expect(JSON.parse(json.stdout).values.d).not.toHaveProperty('restsOnTrial');
  expect(set.stdout).toBe(json.stdout);
});
