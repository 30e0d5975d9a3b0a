/** What stands in the files of teams, as they leave: numbers, names, and nothing of what the teams are to find. */
import { expect, test } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { counterpart, fromSI } from '../../src/core/units/index.ts';
import { drawClass, planVariants } from '../../src/graph/index.ts';
import { classOf, classTable, extractDocument, isHidden, renderReport, shownClass, unitSystemOf, type DrawnClass } from '../../src/report/index.ts';
import { areNumbersChanged, cellsOf, parseSheet, variantText } from '../../src/sheet/index.ts';
import { teamFiles } from '../../src/app/team-files.ts';
import { contextOfDocument } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';

const OWN = { css: '', script: { elements: '', policy: '' } };
const TEAMS = ['T1', 'Ωμέγα', '<b>"T3"</b>', 'T4: =1+1', 'T5'].map((team) => ({ team, names: `of ${team}` }));

function drawn(name: string, change: (text: string) => string = (text) => text): DrawnClass {
  const document = parseSheet(change(shipped(name).replace('own_working: false', 'own_working: true').replace('title:', 'class_seed: hush-4711\ntitle:')));
  const plan = planVariants(document);
  if (!plan.ok) throw new Error(plan.problem.what);
  const draws = [...drawClass(plan.value, 'hush-4711', TEAMS.map(({ team }) => team))];
  return classOf(document, plan.value, TEAMS.flatMap((listed, i) => (draws[i] === undefined ? [] : [{ listed, draw: draws[i] }])));
}

async function filesOf(one: DrawnClass): Promise<readonly { readonly name: string; readonly content: string }[]> {
  const files: { name: string; content: string }[] = [];
  for await (const file of teamFiles(one, OWN, new Date('2026-11-30T09:00:00Z'), async () => undefined)) files.push(file);
  return files;
}

/** A number as any hand might write it, with four figures and more; fewer stand everywhere by chance. */
function writings(value: number): readonly string[] {
  return [4, 5, 6].map((figures) => Number(value.toPrecision(figures)).toString()).filter((text) => text.replace(/\D/g, '').replace(/^0+/, '').length >= 4);
}

/** What a file says in words, attributes that are read out, formulas and its document; not where letters and lines of drawings stand. */
function saidIn(content: string): string {
  return content.replaceAll('\u202f', '').replaceAll('\\,', '').replace(/ (?:style|d|points|transform|viewBox|width|height|[cr]?[xy][12]?|r)="[^"]*"/g, '');
}

/** Symbols that a step keeps to itself whose number stands in so many files of the teams. */
async function toldIn(one: DrawnClass, isLookedAt: (id: string, context: Parameters<typeof isHidden>[1]) => boolean): Promise<{ readonly looked: number; readonly told: ReadonlyMap<string, number> }> {
  const files = await filesOf(one);
  const told = new Map<string, number>();
  let looked = 0;
  for (const [i, { content }] of files.entries()) {
    const states = one.teams[i]?.draw.variant?.reckoned.states;
    if (states === undefined) throw new Error('no numbers');
    const context = { document: one.plan.document, states, system: unitSystemOf(one.plan.document) };
    const page = saidIn(content);
    // Most numbers stand nowhere, which is found much faster as text.
    const there = (text: string): boolean => page.includes(text) && new RegExp(`(?<![\\d.])${text.replaceAll('.', '\\.')}(?!\\d|\\.\\d)`).test(page);
    const given = new Set(cellsOf(one.plan.document, 'given').map(({ symbol }) => states.symbol(symbol)).map((state) => (state?.status === 'value' ? state.estimate.value.toPrecision(9) : '')));
    for (const { id, symbol } of cellsOf(one.plan.document, 'step')) {
      const state = states.symbol(symbol);
      // What takes a given over (spans that close) is no secret.
      if (state?.status !== 'value' || given.has(state.estimate.value.toPrecision(9)) || !isLookedAt(id, context)) continue;
      looked += 1;
      const unit = counterpart(state.unit, context.system);
      if ([fromSI(state.estimate.value, unit), standardUncertainty(state.estimate) / unit.factor].some((number) => number !== 0 && writings(number).some(there))) told.set(symbol, (told.get(symbol) ?? 0) + 1);
    }
  }
  return { looked, told };
}

test.each(['rotating-bending', 'alternating-bending'])('nothing that a team is to find stands in its file: %s', async (name) => {
  const { looked, told } = await toldIn(drawn(name), isHidden);
  expect(looked).toBeGreaterThan(100);
  // A number may stand there by chance once; one that is told is told in every file. f_u only takes over f_c, which is not asked for.
  expect([...told].filter(([symbol, times]) => times > 2 && symbol !== 'f_u')).toEqual([]);
});

test('and the same look finds the results of a sheet that asks for nothing', async () => {
  const { told } = await toldIn(drawn('rotating-bending', (text) => text.replace('own_working: true', 'own_working: false')), () => true);
  for (const symbol of ['R_A', 'R_B', 'M_s', 'sigma_a', 'I']) expect([symbol, (told.get(symbol) ?? 0) > 2]).toEqual([symbol, true]);
});

test('a file is the team’s own, and has nothing of ranges, seed and other teams', async () => {
  const one = drawn('rotating-bending', (text) => text.replace('units: SI', 'units: SI # answer in comment'));
  const files = await filesOf(one);
  expect(new Set(files.map((file) => file.name)).size).toBe(TEAMS.length);
  for (const [i, { name, content }] of files.entries()) {
    const { listed, draw } = one.teams[i] ?? {};
    const variant = variantText(draw?.seed ?? 0, draw?.variant?.entries ?? []);
    const text = extractDocument(content);
    const document = parseSheet(text.ok ? text.value : '');
    expect([document.frontMatter.entries.get('team'), document.frontMatter.entries.get('operators'), document.frontMatter.entries.get('variant')]).toEqual([listed?.team, listed?.names, variant]);
    for (const { symbol, text: number } of draw?.variant?.entries ?? []) expect(cellsOf(document, 'given').find((cell) => cell.symbol === symbol)).toMatchObject({ value: number, origin: 'set' });
    expect(cellsOf(document, 'given').filter(({ varies }) => varies !== undefined)).toEqual([]);
    for (const secret of ['hush', 'varies: ', '"wanted: ', 'answer in comment', '300 MPa ..', ...TEAMS.filter(({ team }) => team !== listed?.team).map(({ names }) => names)]) expect([name, content.includes(secret) && secret]).toEqual([name, false]);
    expect(content).toContain(variant);
    const report = renderReport(await contextOfDocument(document), new Map());
    expect(areNumbersChanged(document)).toBe(false);
    for (const own of [variant, 'set for this team']) expect(report).toContain(own);
    expect(content).not.toContain('<b>"T3"');
  }
});

test('the key has every team’s numbers and what comes out, and runs no formula in a spreadsheet', () => {
  const one = drawn('rotating-bending');
  const lines = classTable(one).split('\r\n');
  expect(lines).toHaveLength(TEAMS.length + 2);
  expect(lines[0]).toMatch(/^\ufeffteam,names,variant,s_1,s_2,s_3,d,F,F_0,L,x_s,F_t,sigma_a,.*R_A,R_B,.*remark$/);
  expect(lines[1]).toMatch(/^T1,of T1,[0-9A-F]{4}-[0-9A-F]{4}-[0-9A-F]{4},\d+\.\d mm,/);
  expect(lines[1]).toMatch(/ ± [\d.]+ MPa/);
  const shown = shownClass(one);
  expect(shown.heads.at(-1)).toBe('sigma_a');
  expect(shown.teams.map(({ cells }) => cells.length)).toEqual(TEAMS.map(() => shown.heads.length));
  const formula = { ...one, teams: one.teams.slice(0, 1).map(({ draw }) => ({ draw, listed: { team: '=1+1', names: '' } })) };
  expect(classTable(formula).split('\r\n')[1]).toMatch(/^'=1\+1,/);
});
