/** What a table in the page does with each gesture: the record after it, the edits it asks for, and where the focus goes. */
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { rowsIn } from '../../src/graph/index.ts';
import { actOnTable } from '../../src/view/cells/table-edit.ts';
import { lookAt, type TableLook } from '../../src/view/cells/table-look.ts';
import { tableStep, type TableEvent, type TableStep } from '../../src/view/cells/table-step.ts';
import type { TableUi } from '../../src/view/cells/table-ui.ts';
import { benchDesk, type BenchDesk } from '../bench-desk.ts';

const SHEET = `---
title: Five specimens
---

\`\`\`table
id: tests
columns:
  - key: specimen
    type: text
  - key: S
    type: quantity
    unit: MPa
  - key: N
    type: count
  - key: lg_N
    type: derived
    formula: log10(N)
rows: |
  specimen,S [MPa],N
  A1,400,50000
  A2,360,120000
  A3,320,400000
  A4,280,900000
  A5,240,2000000
\`\`\`
`;

let bench: BenchDesk;
beforeEach(async () => {
  bench = await benchDesk(SHEET);
});
afterEach(() => bench.dispose());

const ui = (): TableUi => bench.ui('tests').table;
const cell = () => {
  const block = bench.desk.block('tests');
  if (block?.kind !== 'cell' || block.cell.kind !== 'table') throw new Error('no table');
  return block.cell;
};
const look = (): TableLook => lookAt(cell(), bench.desk);
/** One step by itself; nothing of it is carried out. */
const step = (event: TableEvent, record: Partial<TableUi> = {}): TableStep => {
  const shown = look();
  return tableStep({ ui: { ...ui(), ...record }, cell: cell(), look: shown, state: bench.session.states().cell('tests')?.table }, event);
};
const act = async (event: TableEvent): Promise<boolean> => {
  const isTaken = actOnTable('tests', event, bench.desk);
  await bench.settled();
  return isTaken;
};
const rows = (): readonly string[] => bench.text().split('\n').filter((line) => /^ {2}[AB]\d?,|^ {2},/.test(line)).map((line) => line.trim());
const key = (name: string, row: number, column: number, shiftKey = false): TableEvent =>
  ({ on: 'key', at: { row, column }, press: { key: name, ctrlKey: false, metaKey: false, altKey: false, shiftKey }, caret: { start: 0, end: 3, length: 3 } });
const typed = async (row: number, column: number, text: string): Promise<void> => void (await act({ on: 'type', at: { row, column }, text }));
const place = (row: number, column: number) => ({ row, column });

describe('typing', () => {
  test('is kept beside the table until the field is left, draws nothing, and is then one step to undo', async () => {
    await typed(1, 1, '365');
    expect([ui().draft, rows()[1], bench.drawn]).toEqual([{ row: 1, column: 1, text: '365' }, 'A2,360,120000', []]);
    await act({ on: 'leave' });
    expect([ui().draft, rows()[1]]).toEqual([undefined, 'A2,365,120000']);
    await bench.undo();
    expect(rows()[1]).toBe('A2,360,120000');
  });

  test('what stood there before asks for no edit', () => {
    expect(step({ on: 'leave' }, { draft: { ...place(1, 1), text: '360' } })).toMatchObject({ ui: { draft: undefined }, effects: [] });
    expect(step({ on: 'leave' }).effects).toEqual([]);
  });

  test('Escape gives back what stood there, and is the field’s own where nothing was typed', () => {
    const { ui: after, ...rest } = step(key('Escape', 1, 1), { draft: { ...place(1, 1), text: '9' } });
    expect([after.draft, rest]).toEqual([undefined, { effects: [{ do: 'give back', text: '360' }], isTaken: true }]);
    expect(step(key('Escape', 1, 1)).isTaken).toBe(undefined);
  });

  test('an undo takes what is half typed with it', async () => {
    await typed(0, 1, '410');
    await act({ on: 'leave' });
    await typed(2, 1, '3');
    await bench.undo();
    expect([ui().draft, rows()[0]]).toEqual([undefined, 'A1,400,50000']);
  });

  test('what could not be written down stays in its field', async () => {
    await typed(1, 1, '365');
    const refused = { ...bench.desk, apply: () => false };
    actOnTable('tests', { on: 'leave' }, refused);
    expect([ui().draft?.text, bench.drawn]).toEqual(['365', ['tests']]);
  });

  test('a row that is left out is told after what moved', async () => {
    await typed(1, 2, 'many');
    await act({ on: 'leave' });
    expect(bench.said.at(-1)).toMatch(/^Row 2 is left out: /);
  });
});

describe('keys', () => {
  test('lead on past what is computed, with the record first', async () => {
    expect(step(key('Enter', 0, 1))).toMatchObject({ ui: { at: place(0, 2) }, effects: [{ do: 'arrive', at: place(0, 2) }], isTaken: true });
    expect(step(key('Enter', 0, 2)).ui.at).toEqual(place(1, 0));
    expect(step(key('Enter', 0, 2), { draft: { ...place(0, 2), text: '7' } }).effects).toMatchObject([{ do: 'edit' }, { do: 'arrive', at: place(1, 0) }]);
  });

  test('from the first row nothing leads back, and from the new row, empty, out of the table', () => {
    expect(step(key('Enter', 0, 0, true)).ui.at).toEqual(place(0, 0));
    expect(step(key('ArrowUp', 0, 1)).effects).toEqual([{ do: 'arrive', at: place(0, 1) }]);
    expect(step(key('Enter', 5, 2)).effects).toEqual([{ do: 'to next blank' }]);
    expect(step(key('x', 0, 0))).toEqual({ ui: ui(), effects: [] });
  });

  test('a row that typing begins is gone on from once it is in the page', async () => {
    await typed(5, 2, '3000000');
    expect(step(key('Enter', 5, 2)).effects).toMatchObject([{ do: 'edit', after: [{ on: 'tell row' }, { on: 'go', to: place(6, 0) }] }]);
    await act(key('Enter', 5, 2));
    expect([rows().length, ui().at]).toEqual([6, place(6, 0)]);
  });
});

describe('rows', () => {
  test('one is added below the last field, and the focus goes there', async () => {
    await act({ on: 'focus', at: place(1, 1) });
    await act({ on: 'add row' });
    expect([rows()[2], ui().at]).toEqual([',,', place(2, 1)]);
  });

  test('one that is deleted offers its undo with the very edit, and the focus stays in the table', async () => {
    await act({ on: 'focus', at: place(4, 0) });
    actOnTable('tests', { on: 'delete row' }, bench.desk);
    // Offered once the row is in the page no more, it would come with the next edit and undo that one.
    expect(bench.offered).toEqual(['tests: Row 5 is deleted.']);
    await bench.settled();
    expect([rows().length, ui().at]).toEqual([4, place(4, 0)]);
  });

  test('the next one for a test goes after the last, also while only some are shown', async () => {
    await act({ on: 'look', look: { only: 'S > 300*unit(MPa)' } });
    await act({ on: 'go on', column: 'S', text: '260' });
    expect(rows()).toEqual(['A1,400,50000', 'A2,360,120000', 'A3,320,400000', 'A4,280,900000', 'A5,240,2000000', ',260,']);
    expect([look().isPicked, ui().at]).toEqual([false, place(5, 0)]);
  });

  test('one that is not shown is gone to among all', async () => {
    await act({ on: 'look', look: { only: 'A1' } });
    await act({ on: 'go to row', row: 3 });
    expect([ui().look, ui().at.row]).toEqual([{ only: '' }, 3]);
    await act({ on: 'order', direction: 'rising' });
    await act({ on: 'go to row', row: 0, column: 1 });
    expect(ui().at).toEqual(place(look().shownAt(0) ?? -1, 1));
  });

  test('a window of them is shown without the focus', () => {
    expect(step({ on: 'show', first: 2 })).toEqual({ ui: { ...ui(), first: 2, at: place(2, 0) }, effects: [] });
  });
});

describe('looking', () => {
  test('picks, says how many, and changes no row', async () => {
    await act({ on: 'look', look: { only: 'S > 300*unit(MPa)' } });
    await act({ on: 'look', look: { only: '' } });
    expect(bench.said).toEqual(['3 of 5 rows are shown.', 'All 5 rows are shown.']);
    await act({ on: 'look', look: { only: 'S > ' } });
    expect(bench.said.at(-1)).toContain('Nothing stands after >');
    expect(bench.session.canUndo()).toBe(false);
  });

  test('a row typed over keeps its place, and an undo picks anew', async () => {
    await typed(3, 1, '310');
    await act({ on: 'leave' });
    await act({ on: 'look', look: { only: 'S > 300*unit(MPa)' } });
    await typed(0, 1, '200');
    await act({ on: 'leave' });
    expect(look().picked?.rows).toEqual([0, 1, 2, 3]);
    await bench.undo();
    await bench.undo();
    expect(look().picked?.rows).toEqual([0, 1, 2]);
  });

  test('an order to look at is kept only when that is asked for, as one step', async () => {
    await act({ on: 'focus', at: place(0, 1) });
    await act({ on: 'order', direction: 'rising' });
    expect([bench.said.at(-1), rows()[0]]).toEqual(['The rows are shown in rising order of S.', 'A1,400,50000']);
    await act({ on: 'keep order' });
    expect([rows()[0], look().isPicked, bench.said.at(-1)]).toEqual(['A5,240,2000000', false, 'The rows lie in rising order of S now.']);
    await bench.undo();
    expect(rows()[0]).toBe('A1,400,50000');
    expect(step({ on: 'keep order' }).effects).toEqual([]);
  });

  test('what is counted and what is computed are edits that say what came of them', async () => {
    await act({ on: 'unfold' });
    await act({ on: 'count', where: ' S > 300*unit(MPa) ' });
    expect([ui().isOpen, bench.said.at(-1)]).toEqual([true, '5 rows, 2 not counted, for which S > 300*unit(MPa) does not hold']);
    await act({ on: 'count', where: '' });
    expect(cell().where).toBe(undefined);
    await act({ on: 'add column', key: 'lg_S', formula: 'log10(S/unit(MPa))' });
    expect([cell().columns.length, bench.said.at(-1)]).toEqual([5, 'The column lg_S is added.']);
  });
});

describe('rows that come', () => {
  test('a block that fits is pasted as one step; a word is the field’s own', async () => {
    expect(await act({ on: 'paste', at: place(0, 1), text: '401' })).toBe(false);
    expect(await act({ on: 'paste', at: place(5, 1), text: '200\t5000000\n180\t9000000\n' })).toBe(true);
    expect([rows().slice(5), bench.said.at(-1), ui().at]).toEqual([[',200,5000000', ',180,9000000'], 'Pasted; the table has 7 rows.', place(5, 1)]);
    await bench.undo();
    expect(rows().length).toBe(5);
  });

  test('nothing is pasted where only some rows are shown', async () => {
    await act({ on: 'look', look: { only: 'A3' } });
    expect(await act({ on: 'paste', at: place(0, 1), text: '1\t2\n3\t4\n' })).toBe(true);
    expect([rows().length, bench.said.at(-1)]).toEqual([5, expect.stringContaining('Not pasted')]);
  });

  test('what does not fit is looked at first, and what is typed in the field stays', () => {
    const draft = { ...place(0, 1), text: '40' };
    const { ui: after, effects, isTaken } = step({ on: 'paste', at: place(0, 1), text: 'specimen,S [MPa],N\nB1,300,1000\n' }, { draft });
    expect([after.rowsIn === undefined, after.draft, effects.map((one) => one.do), isTaken]).toEqual([false, draft, ['announce', 'to rows in'], true]);
  });

  test('looked at, answered, and left: the table stays as it is', async () => {
    await act({ on: 'rows come', source: rowsIn('specimen,S [MPa],N\nB1,300,1000\n', { from: 'rows.csv' }) });
    await act({ on: 'rows read so', answer: { answer: 'head', hasHead: true } });
    expect(ui().rowsIn).not.toBe(undefined);
    await act({ on: 'leave rows' });
    expect([ui().rowsIn, rows().length, bench.said.at(-1), bench.session.canUndo()]).toEqual([undefined, 5, 'The table stays as it is.', false]);
    expect(step({ on: 'rows read so', answer: { answer: 'order is right' } })).toEqual({ ui: ui(), effects: [] });
    expect(step({ on: 'take rows' }).effects).toEqual([]);
  });

  test('taken, the first of them is gone to, also where other rows are picked', async () => {
    await act({ on: 'look', look: { only: 'S > 350*unit(MPa)' } });
    await act({ on: 'rows come', source: rowsIn('specimen,S [MPa],N\nB1,300,1000\nB2,310,2000\n', { from: 'rows.csv' }) });
    await act({ on: 'take rows' });
    expect([rows().slice(5), ui().rowsIn, bench.said.at(-1)]).toEqual([['B1,300,1000', 'B2,310,2000'], undefined, 'The rows are in: the table has 7 rows.']);
    expect([look().isPicked, ui().at]).toEqual([false, place(5, 0)]);
  });

  test('that can not go in stay to be looked at', async () => {
    await act({ on: 'rows come', source: rowsIn('specimen,S [MPa],N\nB1,300,1000\n', { from: 'rows.csv' }) });
    const { rowsIn: source } = ui();
    actOnTable('tests', { on: 'take rows' }, { ...bench.desk, apply: () => false });
    expect(ui().rowsIn).toBe(source);
  });
});

describe('a row as a form', () => {
  test('opens and closes by its number; the new one is typed in at once', () => {
    expect(step({ on: 'open row', row: 2 })).toMatchObject({ ui: { form: 2, at: place(2, 0) }, effects: [] });
    expect(step({ on: 'open row', row: 2 }, { form: 2 })).toMatchObject({ ui: { form: undefined }, effects: [] });
    expect(step({ on: 'open row', row: 5 }).effects).toEqual([{ do: 'arrive', at: place(5, 0) }]);
  });

  test('goes on to its neighbours and no further than the new row, and writes down what is typed', () => {
    expect(step({ on: 'form on', by: 1 }, { form: 2 })).toMatchObject({ ui: { form: 3 }, effects: [{ do: 'to form', by: 1 }] });
    expect(step({ on: 'form on', by: -1 }, { form: 0 }).ui.form).toBe(0);
    expect(step({ on: 'form on', by: 1 }, { form: 5 })).toMatchObject({ ui: { form: 5 }, effects: [{ do: 'arrive', at: place(5, 0) }] });
    expect(step({ on: 'form on', by: 1 }, { form: 1, draft: { ...place(1, 1), text: '365' } }).effects).toMatchObject([{ do: 'edit', command: { row: 1, column: 'S', text: '365' } }, { do: 'to form' }]);
  });

  test('comes along with the keys pressed in its row, and stays where another row is typed in', () => {
    expect(step(key('ArrowDown', 1, 1), { form: 1 }).ui).toMatchObject({ form: 2, at: place(2, 1) });
    expect(step(key('Enter', 1, 2), { form: 1 }).ui).toMatchObject({ form: 2, at: place(2, 0) });
    expect(step(key('ArrowDown', 3, 1), { form: 1 }).ui.form).toBe(1);
  });

  test('comes along to the row that is gone to, and stays closed where it was', () => {
    expect(step({ on: 'go to row', row: 3 }, { form: 1 })).toMatchObject({ ui: { form: 3, at: place(3, 0) }, effects: [{ do: 'arrive' }] });
    expect(step({ on: 'go to row', row: 3 }).ui.form).toBeUndefined();
  });

  test('a word is one press and one step to undo, beside what is half typed; the word that stands there is taken out', async () => {
    await typed(1, 1, '365');
    await act({ on: 'option', at: place(1, 0), word: 'B2', isThere: false });
    expect([ui().draft, rows()[1]]).toEqual([undefined, 'B2,365,120000']);
    await bench.undo();
    expect(rows()[1]).toBe('A2,365,120000');
    await act({ on: 'option', at: place(1, 0), word: 'A2', isThere: true });
    expect(rows()[1]).toBe(',365,120000');
  });

  test('of the new row makes that row', async () => {
    await act({ on: 'open row', row: 5 });
    await act({ on: 'option', at: place(5, 0), word: 'B1', isThere: false });
    expect([rows()[5], ui().form]).toEqual(['B1,,', 5]);
  });

  test('is closed where rows are picked, since another row stands there then', () => {
    expect(step({ on: 'look', look: { only: 'A3' } }, { form: 1 }).ui.form).toBe(undefined);
  });
});

describe('a test that has ended', () => {
  test('has its outcome in the row that waits, or with its level in a new one, as one step to undo', async () => {
    await act({ on: 'ended', column: 'specimen', outcome: 'B9', row: 1 });
    expect(rows()[1]).toBe('B9,360,120000');
    await bench.undo();
    expect(rows()[1]).toBe('A2,360,120000');
    await act({ on: 'ended', column: 'specimen', outcome: 'B-out', level: { column: 'S', text: '280' } });
    expect(bench.text()).toContain('  B-out,280,\n');
    await bench.undo();
    expect(bench.text()).not.toContain('B-out');
  });
});
