import { describe, expect, it } from 'vitest';
import { createRowShelf } from '../../src/app/row-shelf.ts';
import type { KeptSheet } from '../../src/app/kept-sheet.ts';
import { proposeRowsIn, rowsIn } from '../../src/graph/index.ts';
import { shipped } from '../shipped.ts';

const line = shipped('sn-line');
const kept = (id: string, text: string): KeptSheet => ({ id, title: id, detail: '', text, changed: '2026-11-20T09:00:00Z', revision: 1, isCopy: false });
const rowOf = (cycles: string): string => `specimen,team,S [MPa],N,outcome\nPS-07,T4,371.774,${cycles},fracture\n`;

function shelf(...sheets: readonly KeptSheet[]) {
  const stored = new Map(sheets.map((sheet) => [sheet.id, sheet]));
  const rows = createRowShelf({
    openId: () => 'open',
    now: () => new Date('2026-11-20T10:00:00Z'),
    store: {
      list: async () => [...stored.values()],
      read: async (id) => stored.get(id),
      save: async (sheet, revision) => {
        stored.set(sheet.id, { ...sheet, revision: revision + 1 });
        return { done: true, revision: revision + 1 };
      },
    },
  });
  return { rows, stored };
}

describe('duplicates and targets: where a specimen can be sent', () => {
  it('sheets are offered by name with tables of specimens alone; blocks applied and levels planned are none', async () => {
    const { rows } = shelf(kept('a team’s sheet', shipped('rotating-bending')), kept('line', line), kept('open', line), kept('words', '# Words\n'));
    expect((await rows.kept()).map(({ title, tables }) => [title, tables.map(({ label }) => label)])).toEqual([['line', ['Specimens of the class']]]);
  });

  it('the team of a sheet is told, so that another team’s is not taken by default', async () => {
    const { rows } = shelf(kept('theirs', line.replace(/^---\n/, '---\nteam: Heron\n')), kept('ours', line));
    expect((await rows.kept()).map(({ title, team }) => [title, team])).toContainEqual(['theirs', 'Heron']);
  });

  it('a specimen that is sent twice is one row, and is taken back', async () => {
    const { rows, stored } = shelf(kept('line', line));
    const tableNow = async () => {
      const [table] = (await rows.kept())[0]?.tables ?? [];
      if (table === undefined) throw new Error('no table');
      return table.cell;
    };
    const before = await tableNow();
    const first = proposeRowsIn(rowsIn(rowOf('56000')), before);
    if (first.command === undefined) throw new Error('asked');
    const brought = await rows.bring('line', before, first.command);
    expect(brought.ok && stored.get('line')?.text).toContain('  PS-07,,371.774,56000,fracture,T4\n');
    const again = await tableNow();
    expect(proposeRowsIn(rowsIn(rowOf('56000')), again)).toMatchObject({ questions: [], counts: { same: 1, added: 0 } });
    expect(proposeRowsIn(rowsIn(rowOf('57000')), again).questions).toEqual([{ about: 'again', count: 1, first: 'PS-07' }]);
    // What was planned for the table as it stood before is not done to another one.
    const late = await rows.bring('line', before, first.command);
    expect(late.ok ? '' : late.problem.code).toBe('row-table-changed');
    expect(brought.ok && (await brought.value())).toBe(true);
    expect(stored.get('line')?.text).toBe(line);
  });
});
