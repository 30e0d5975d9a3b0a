/** Holding, comparing and going back as edits of the sheet: each is one step to undo, and what is refused changes nothing. */
import { describe, expect, test } from 'vitest';
import { createHoldDesk } from '../../src/app/hold-desk.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';
import { fenced, given, step } from '../report/sheet-at.ts';

const SHEET = `---\ntitle: Bending\n---\n${given('d', '6 mm', 'mm', 'label: Diameter')}${step('x', 'd^2', 'mm^2', 'label: Area')}${step('y', '2*x', 'mm^2', 'label: Both')}`;
const OTHER = SHEET.replace('title: Bending', 'title: Bending\nteam: Team 4').replace('6 mm', '7 mm');

interface Bench {
  readonly bench: BenchDesk;
  readonly desk: ReturnType<typeof createHoldDesk>;
  /** How often the panel was asked to say that something was refused. */
  readonly shown: () => number;
  /** Names of the held states with what they hold of d. */
  held(): readonly string[];
}

async function holding(text: string, others: Readonly<Record<string, string>> = {}): Promise<Bench> {
  const bench = await benchDesk(text);
  let count = 0;
  const desk = createHoldDesk({
    session: () => bench.session, context: () => bench.context(), now: () => new Date(2026, 0, 12, 9, 30), show: () => void count++,
    kept: () => Object.entries(others).map(([id, other]) => ({ id, text: other }) as KeptSheet),
  });
  return {
    bench, desk, shown: () => count,
    held: () => bench.session.document().frontMatter.held.map(({ name, inputs }) => `${name}: ${inputs.get('d') ?? 'none'}`),
  };
}

describe('a state', () => {
  test('is held as it is, compared with, gone back to, renamed and dropped, each one step to undo', async () => {
    const { bench, desk, held } = await holding(SHEET);
    expect(desk.hold('first')).toBe(true);
    await bench.settled();
    await bench.edit({ do: 'set key', cellId: 'd', key: 'value', value: '9 mm' });
    expect(held()).toEqual(['first: 6 mm']);
    desk.compareWith('first');
    await bench.settled();
    expect(bench.session.document().frontMatter.entries.get('held_reference')).toBe('first');
    desk.goBackTo('first');
    await bench.settled();
    expect(bench.context().states.symbol('d')).toMatchObject({ estimate: { value: 0.006 } });
    desk.renameHeld('first', 'before');
    await bench.settled();
    // What is compared with goes along with its name.
    expect([held(), bench.session.document().frontMatter.entries.get('held_reference')]).toEqual([['before: 6 mm'], 'before']);
    desk.dropHeld('before');
    await bench.settled();
    expect(held()).toEqual([]);
    for (let i = 0; i < 6; i++) await bench.undo();
    expect(bench.text()).toBe(SHEET);
    bench.dispose();
  });

  test('that has the name of another one is refused, and the panel says so until something is done', async () => {
    const { bench, desk, held, shown } = await holding(SHEET);
    desk.hold('first');
    expect(desk.hold('first')).toBe(false);
    await bench.settled();
    expect([held(), shown(), desk.look(bench.context()).refused[0]?.problem.mend]).toEqual([['first: 6 mm'], 1, expect.stringMatching(/\w/u)]);
    desk.hold('second');
    await bench.settled();
    expect([held(), desk.look(bench.context()).refused]).toEqual([['first: 6 mm', 'second: 6 mm'], []]);
    bench.dispose();
  });
});

describe('the state of another sheet', () => {
  test('is held by its team, under a name that is still free', async () => {
    const { bench, desk, held } = await holding(SHEET, { other: OTHER });
    for (let i = 0; i < 2; i++) desk.holdOfSheet('other');
    await bench.settled();
    expect(held()).toEqual(['Team 4: 7 mm', 'Team 4 (2): 7 mm']);
    bench.dispose();
  });

  test('with nothing of this one is refused, and one that is gone does nothing', async () => {
    const { bench, desk, held, shown } = await holding(SHEET, { other: given('k', '2', '1') });
    desk.holdOfSheet('other');
    desk.holdOfSheet('gone');
    await bench.settled();
    expect([held(), shown(), desk.look(bench.context()).refused[0]?.problem.code, bench.text()]).toEqual([[], 1, 'held-nothing', SHEET]);
    bench.dispose();
  });

  test('any number of files is held in one step to undo, and each that is none is named', async () => {
    const { bench, desk, held } = await holding(SHEET);
    const file = (name: string, text: string): File => new File([text], name);
    const teams = Array.from({ length: 60 }, (_, i) => file(`team-${i}.md`, OTHER.replace('Team 4', `Team ${i}`).replace('7 mm', `${7 + i} mm`)));
    await desk.holdOfFiles([...teams.slice(0, 30), file('picture.md', '\u0000'), ...teams.slice(30), file('else.md', given('k', '2', '1'))]);
    await bench.settled();
    expect([held().length, held()[0], held()[59]]).toEqual([60, 'Team 0: 7 mm', 'Team 59: 66 mm']);
    const state = desk.look(bench.context());
    expect(state.refused.map(({ from, problem }) => `${from} ${problem.code}`)).toEqual(['picture.md not-text', 'else.md held-nothing']);
    // The table has them all, with the present state.
    expect([state.table?.columns.length, state.problems]).toEqual([61, []]);
    await bench.undo();
    expect(bench.text()).toBe(SHEET);
    bench.dispose();
  });

  test('with a table too long to be held is refused', async () => {
    const table = (rows: string): string => fenced('table', 'id: t', 'label: Tests', 'columns:', '  - key: N', '    type: number', 'rows: |', '  N', rows);
    const { bench, desk, held } = await holding(SHEET + table('  1'), { other: OTHER + table(Array.from({ length: 3000 }, (_, i) => `  ${100_000 + i}`).join('\n')) });
    desk.holdOfSheet('other');
    await bench.settled();
    expect([held(), desk.look(bench.context()).refused[0]?.problem.code]).toEqual([[], 'held-table-long']);
    bench.dispose();
  });
});

test('chief results are taken into the comparison and out of it; without any the sheet says none', async () => {
  const { bench, desk } = await holding(SHEET);
  desk.hold('first');
  await bench.settled();
  const chief = (): string | undefined => bench.session.document().frontMatter.entries.get('chief_results');
  desk.showResult('x', true);
  await bench.settled();
  expect(chief()?.split(', ')).toContain('x');
  for (const symbol of (chief() ?? '').split(', ')) {
    desk.showResult(symbol, false);
    await bench.settled();
  }
  expect(chief()).toBeUndefined();
  bench.dispose();
});
