/** The sheets that ship are nobody's: no reading, no story; what they assume says so, and the example is a layer of its own. */
import { describe, expect, test } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { presentAttention, renderReport } from '../../src/report/index.ts';
import { applyEdit, cellsOf, enterText, nextSpecimen, parseSheet, serialiseSheet, withExample, type SheetDocument } from '../../src/sheet/index.ts';
import { contextOf } from '../report/sheet-at.ts';
import { exampleEntries, neutral, SHIPPED, shipped } from '../shipped.ts';
import { numberOf } from './solved.ts';

/** A library of published values has no example, and the book of the language is one. */
const WITH_EXAMPLE = SHIPPED.filter((name) => exampleEntries(name) !== undefined);
const EXAMPLE_WORDS = /solar|boat|PS-\d|FS-\d|shaft group|bench \d|write yours here|invented/iu;
const TITLE_ENTRIES = ['course', 'team', 'operators', 'date', 'machine', 'specimen', 'batch'];

function entered(document: SheetDocument, entries: Readonly<Record<string, string>>): SheetDocument {
  return Object.entries(entries).reduce((before, [target, text]) => {
    const after = enterText(before, target, text);
    if (!after.ok) throw new Error(`${target}: ${after.problem.what}`);
    return after.value;
  }, document);
}

async function statesOf(document: SheetDocument) {
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return states;
}

describe.each(WITH_EXAMPLE)('%s as it ships', (name) => {
  const document = parseSheet(neutral(name));

  test('holds no value, choice or row of anybody that it does not say to be assumed', () => {
    const filled = cellsOf(document, 'given').filter(({ value, readings }) => (readings ?? value ?? '') !== '');
    expect(filled.filter(({ origin }) => origin !== 'assumed').map(({ symbol }) => symbol)).toEqual([]);
    expect(cellsOf(document, 'choice').filter(({ chosen, origin }) => chosen !== '' && origin !== 'assumed').map(({ id }) => id)).toEqual([]);
    expect(cellsOf(document, 'table').filter(({ rows }) => rows.trim().includes('\n')).map(({ id }) => id)).toEqual([]);
    expect(TITLE_ENTRIES.filter((key) => (document.frontMatter.entries.get(key) ?? '') !== '')).toEqual([]);
  });

  test('names nothing of the example', () => {
    expect(neutral(name).split('\n').filter((line) => EXAMPLE_WORDS.test(line))).toEqual([]);
  });

  test('is quiet: no problem, nothing to be mended, no check that fails, no number that is none', async () => {
    const context = await contextOf(neutral(name));
    expect(document.blocks.flatMap(({ id }) => (context.states.cell(id)?.problems ?? []).map(({ what }) => `${id}: ${what}`))).toEqual([]);
    expect(presentAttention(context)).toMatchObject({ problems: [], failedChecks: [] });
    expect(renderReport(context)).not.toMatch(/\bNaN\b|Infinity|undefined/);
  });

  test('has everything of its example marked, and nothing unmarked, once that is laid over it', () => {
    const example = parseSheet(shipped(name));
    expect(cellsOf(example, 'given').filter(({ value, readings, origin }) => (readings ?? value ?? '') !== '' && origin === undefined).map(({ symbol }) => symbol)).toEqual([]);
    expect(cellsOf(example, 'given').some(({ origin }) => origin === 'example')).toBe(true);
    expect(EXAMPLE_WORDS.test(exampleEntries(name) ?? '')).toBe(true);
  });
});

describe('a mark of origin', () => {
  const example = parseSheet(shipped('rotating-bending'));
  const origin = (document: SheetDocument, symbol: string) => cellsOf(document, 'given').find((given) => given.symbol === symbol)?.origin;

  test('goes with another entry, stays with the same one, and leaves the others alone', () => {
    expect([origin(example, 'F'), origin(example, 'k_F')]).toEqual(['example', 'assumed']);
    const mine = entered(example, { F: '314 N' });
    expect([origin(mine, 'F'), origin(mine, 'F_t'), origin(mine, 'k_F')]).toEqual([undefined, 'example', 'assumed']);
    expect(origin(entered(example, { F: '310 N' }), 'F')).toBe('example');
  });

  test('goes from an entry of the title block by itself', () => {
    const changed = applyEdit(example, { do: 'set front matter', key: 'team', value: 'T9' });
    expect(changed.ok && changed.value.frontMatter.entries.get('from_example')).toBe('course, operators, date, machine, specimen, batch');
  });

  test('stays at a table until the last of its rows is gone', () => {
    const tests = parseSheet(shipped('one-stress'));
    const rowsGone = (count: number) => {
      const after = applyEdit(tests, { do: 'delete rows', cellId: 'specimens', at: 0, count });
      return after.ok ? cellsOf(after.value, 'table').find(({ id }) => id === 'specimens')?.origin : 'not made';
    };
    expect([rowsGone(1), rowsGone(16)]).toEqual(['example', undefined]);
  });

  test('that is no word of the two is told with the near one', () => {
    const { problems } = cellsOf(parseSheet('```given\nsymbol: d\nvalue: 7 mm\nunit: mm\norigin: exampel\n```\n'), 'given')[0] ?? { problems: [] };
    expect(problems.map(({ code, mend, line }) => [code, mend, line])).toEqual([['origin-unknown', 'Did you mean `origin: example`?', 5]]);
  });
});

test.each([
  ['values:\n  nothing: 1 mm\n', 'enter-unknown'], ['valuse:\n  d: 1 mm\n', 'example-group'], ['tables:\n  block: |\n    a\n', 'example-cell'], ['values: 7\n', 'example-shape'],
])('an example that does not fit is refused as a whole: %j', (text, code) => {
  const laid = withExample(parseSheet(neutral('rotating-bending')), text);
  expect(laid.ok ? '' : laid.problem.code).toBe(code);
});

describe('the blank rotating-bending sheet', () => {
  const MINE = { L: '400 mm', s_1: '100 mm', s_2: '200 mm', s_3: '100 mm', x_s: '200 mm', F: '314 N', F_0: '0 N', d: '7.5 mm' };
  const blank = parseSheet(neutral('rotating-bending'));

  test('gives the stress from spans, load and diameter alone: 32 F a/2 over πd³', async () => {
    const states = await statesOf(entered(blank, MINE));
    const expected = (32 * (314 / 2) * 0.1) / (Math.PI * 0.0075 ** 3);
    expect(Math.abs(numberOf(states, 'sigma_a') / expected - 1)).toBeLessThan(1e-12);
    // My load is compared with nothing that I have not said.
    expect(states.cell('load-as-set')?.check?.holds).toBeUndefined();
  });

  test('counts the inertia from when all that it needs is there', async () => {
    const before = await statesOf(entered(blank, MINE));
    expect(numberOf(before, 'sigma_d')).toBe(0);
    const after = await statesOf(entered(blank, { ...MINE, e: '0.02 mm', n: '2800 rev/min', D_s: '12 mm', m_h: '0.9 kg', k_h: '8 N/mm', rho: '60 mm', D: '12 mm', material: '1045-cold-drawn' }));
    const bound = after.symbol('sigma_d');
    expect(bound?.status === 'value' && bound.estimate.sensitivities.size > 0).toBe(true);
    expect(numberOf(after, 'N_f')).toBeGreaterThan(0);
  });

  test('has a choice of material that is still to be made, and life that says so', async () => {
    const states = await statesOf(entered(blank, MINE));
    expect(states.symbol('N_e')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['“Material”'] });
    expect(states.symbol('N_f')).toMatchObject({ status: 'range', word: 'open' });
  });
});

describe('the next specimen', () => {
  const before = entered(parseSheet(shipped('rotating-bending')), { d: '7.40 mm', N_obs: '120000 cycles', L: '402 mm' });
  const { document, empties } = nextSpecimen(before);
  const text = (symbol: string) => cellsOf(document, 'given').find((given) => given.symbol === symbol)?.value;

  test('keeps set-up, load, machine, team and material, and empties what is the specimen’s', () => {
    expect([text('L'), text('F'), text('rho'), text('d'), text('N_obs'), text('e')]).toEqual(['402 mm', '310 N', '60 mm', undefined, undefined, undefined]);
    const { entries } = document.frontMatter;
    expect([entries.get('team'), entries.get('machine'), entries.get('specimen'), entries.get('date')]).toEqual(['T4, solar boat', 'rotating-bending bench 2', '', '']);
    expect(cellsOf(document, 'choice').find(({ id }) => id === 'material')?.chosen).toBe('1045-cold-drawn');
    expect(empties).toEqual(expect.arrayContaining(['the specimen’s name', 'the date', 'Minimum diameter, read around the bar', 'Cycles at fracture, from the counter']));
  });

  test('leaves the sheet that it came from as it is, and has nothing more to leave out', () => {
    expect(serialiseSheet(before)).toContain('value: 7.40 mm');
    expect(nextSpecimen(document).empties).toEqual([]);
  });
});
