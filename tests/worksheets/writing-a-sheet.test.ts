/** The book of the sheet's language: every kind, key and function that the reference has stands in it, working, and what it says of the command is what that does. */
import { describe, expect, test } from 'vitest';
import { INSTRUMENT_CLASSES } from '../../src/core/estimate/index.ts';
import { FUNCTIONS } from '../../src/core/formula/index.ts';
import { UNIT_TABLE } from '../../src/core/units/unit-table.ts';
import { FINDINGS_FORMS } from '../../src/graph/findings/index.ts';
import { CHART_NAMES, renderReport, renderSheet, warningsOf } from '../../src/report/index.ts';
import { ASKS, cellsOf, DRAWINGS, FRONT_MATTER, HELD_STATES, INNER_PARTS, KINDS, type KnownKind } from '../../src/sheet/index.ts';
import { solveCommand } from '../../src/solve/command.ts';
import { contextOf } from '../report/sheet-at.ts';
import { neutral } from '../shipped.ts';

const TEXT = neutral('writing-a-sheet');
const [, HEAD = '', BODY = ''] = /^---\n(.*?)\n---\n(.*)$/su.exec(TEXT) ?? [];

interface Fenced {
  readonly kind: string;
  readonly body: string;
}
const CELLS: readonly Fenced[] = [...BODY.matchAll(/^```([a-z]+)\n(.*?)^```$/gmsu)].map(([, kind = '', body = '']) => ({ kind, body }));
/** Prose and tables of the book, in which code stands between backticks. */
const CODE = new Set([...BODY.replace(/^```[a-z]+\n.*?^```$/gmsu, '').matchAll(/`([^`\n]+)`/gu)].flatMap(([, code = '']) => [code, code.replace(/:.*$/u, '')]));

const ofKind = (kind: string): string => CELLS.filter((cell) => cell.kind === kind).map(({ body }) => body).join('\n');
const hasKey = (text: string, key: string): boolean => new RegExp(`^[ -]*${key}:`, 'mu').test(text);
/** In a working cell of that kind, or named in the prose as code. */
const missing = (text: string, keys: readonly string[]): readonly string[] => keys.filter((key) => !hasKey(text, key) && !CODE.has(key));

describe('the book of the language', () => {
  test.each(Object.keys(KINDS) as KnownKind[])('has every key of a %s', (kind) => {
    const text = ofKind(kind);
    // An end has nothing but what all have.
    expect(CELLS.some((cell) => cell.kind === kind)).toBe(true);
    const shared = kind === 'end' || kind === 'aside' || kind === 'photo' ? ['id', 'note'] : ['id'];
    expect(missing(text, Object.keys(KINDS[kind].keys)).filter((key) => !shared.includes(key) || !hasKey(BODY, key))).toEqual([]);
    if (kind === 'figure' || kind === 'fit') return;
    for (const { title, keys } of INNER_PARTS[kind] ?? []) expect([title, missing(text, Object.keys(keys))]).toEqual([title, []]);
  });

  test.each(Object.keys(ASKS) as (keyof typeof ASKS)[])('asks everything that can be asked of %s', (finds) => {
    const text = CELLS.filter(({ kind, body }) => kind === 'fit' && body.includes(`\nfinds: ${finds}\n`)).map(({ body }) => body).join('\n');
    expect(missing(text, Object.keys(ASKS[finds].keys))).toEqual([]);
    expect(FINDINGS_FORMS[finds].published.some((name) => hasKey(text, name))).toBe(true);
  });

  test('has every entry of the head', () => {
    expect(missing(HEAD, Object.keys(FRONT_MATTER.keys))).toEqual([]);
    expect(missing('', Object.keys(HELD_STATES.keys))).toEqual([]);
  });

  test('uses every function, unit(...) and the words between comparisons', () => {
    const formulas = CELLS.map(({ body }) => body).join('\n');
    expect(FUNCTIONS.map(({ name }) => name).filter((name) => !new RegExp(`\\b${name}\\(`, 'u').test(formulas))).toEqual([]);
    for (const word of ['unit(', ' and ', ' or ', 'not (']) expect(formulas).toContain(word);
  });

  test('names every instrument, every drawing and every unit', () => {
    expect(INSTRUMENT_CLASSES.map(({ name }) => name).filter((name) => !TEXT.includes(name))).toEqual([]);
    const drawings = /The drawings are: ([^]*?)\./u.exec(TEXT)?.[1] ?? '';
    expect(drawings.split(/, |,\n|; the charts: /u).toSorted()).toEqual([...new Set([...Object.keys(DRAWINGS).flatMap((names) => names.split(', ')), ...CHART_NAMES])].toSorted());
    const units = new Set((/\*\*Units\*\*: ([^]*?)\.\n/u.exec(TEXT)?.[1] ?? '').split(/[\s,]+/u));
    expect(UNIT_TABLE.map(({ symbol }) => symbol).filter((symbol) => !units.has(symbol))).toEqual([]);
  });

  test('computes without a problem, and no key of it is unknown', async () => {
    const context = await contextOf(TEXT);
    const { document, states } = context;
    expect(document.blocks.flatMap(({ id }) => (states.cell(id)?.problems ?? []).map(({ what }) => `${id}: ${what}`))).toEqual([]);
    expect([...document.problems, ...document.frontMatter.problems, ...document.frontMatter.warnings]).toEqual([]);
    const warnings = document.blocks.flatMap((block) => (block.kind === 'cell' ? warningsOf(block.cell, context) : []));
    expect(warnings.filter(({ code }) => code === 'key-unknown')).toEqual([]);
    // What waits does so for the test and the picture alone.
    const open = [...cellsOf(document, 'given'), ...cellsOf(document, 'step')].filter(({ symbol }) => states.symbol(symbol)?.status !== 'value').map(({ symbol }) => symbol);
    expect(open).toEqual(['N_o', 'x_b']);
  });

  test('shows the text of each cell below it, on the page as it opens and in the report', async () => {
    const context = await contextOf(TEXT);
    const count = (html: string): number => html.split('class="own-text"').length - 1;
    const cells = context.document.blocks.filter(({ kind }) => kind === 'cell').length;
    expect([count(renderSheet(context)), count(renderReport(context))]).toEqual([cells, cells]);
    expect(count(renderSheet(await contextOf(TEXT.replace('own_texts: shown', 'own_texts: hidden'))))).toBe(0);
  });

  test('tells the difference of two temperatures in K, an arc by radians and the instruments’ laws as they are', async () => {
    const { states } = await contextOf(TEXT);
    const value = (symbol: string): number => {
      const state = states.symbol(symbol);
      return state?.status === 'value' ? state.estimate.value : Number.NaN;
    };
    expect(value('Delta_T')).toBeCloseTo(14, 9);
    // 3 degrees are pi/60.
    expect(value('b_w')).toBeCloseTo((0.1202 * Math.PI) / 60, 6);
  });

  test('lists what the command writes as JSON, and its exit codes', async () => {
    const { code, stdout } = await solveCommand(['worksheets/writing-a-sheet.md', '--json', '--budget', 'sigma_b']);
    const answer = JSON.parse(stdout) as Record<string, unknown>;
    expect(code).toBe(0);
    expect(Object.keys(answer).filter((key) => !CODE.has(key))).toEqual([]);
    const fit = (answer['fits'] as Record<string, Record<string, unknown>>)['line'] ?? {};
    expect(Object.keys(fit).filter((key) => !CODE.has(key))).toEqual([]);
    // The covariance goes by the parameters, then ln s.
    expect(fit['covariance']).toHaveLength(Object.keys(fit['parameters'] as object).length + 1);
  });
});
