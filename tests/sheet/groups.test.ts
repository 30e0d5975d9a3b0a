/** A choice may name a group of the table that is none of its options, where a fit takes its group from it. */
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { applyEdit, enterText, groupsBehind, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';

const snLine = parseSheet(shipped('sn-line'));

/** Invented: two batches that no option of the sheet names, and a row without a group. */
function batches(): SheetDocument {
  const rows = ['specimen,group,S,N', 'a,batch 1,400,1e5', 'b,batch 1,350,3e5', 'c,batch 1,300,1e6', 'd, batch 2 ,300,2e6', 'e,,300,2e6'].join('\n');
  const replaced = applyEdit(snLine, { do: 'replace rows', cellId: 'specimens', text: rows });
  if (!replaced.ok) throw new Error(replaced.problem.what);
  return replaced.value;
}

describe('groups behind a choice', () => {
  it('are those of the table, once each, for the choice that the fit names and no other', () => {
    expect(groupsBehind(snLine, 'group')).toEqual(['steel K', 'steel M']);
    expect(groupsBehind(batches(), 'group')).toEqual(['batch 1', 'batch 2']);
    expect(groupsBehind(snLine, 'method')).toEqual([]);
  });

  it('can be entered and chosen; the fit uses their rows and no cell is in trouble', async () => {
    for (const take of [
      (sheet: SheetDocument) => enterText(sheet, 'group', 'batch 1'),
      (sheet: SheetDocument) => applyEdit(sheet, { do: 'choose', cellId: 'group', option: 'batch 1' }),
    ]) {
      const taken = take(batches());
      if (!taken.ok) throw new Error(taken.problem.what);
      const graph = createSheetGraph(taken.value);
      const states = await graph.settled();
      graph.dispose();
      expect(states.cell('group')?.problems).toEqual([]);
      expect(states.cell('line')?.fit?.fit.n).toBe(3);
    }
  });

  it('a name that is neither an option nor a group is refused with those that there are', () => {
    const entered = enterText(batches(), 'group', 'batch 3');
    expect(entered.ok ? '' : entered.problem.mend).toBe('Choose one of: all, steel K, steel M, batch 1, batch 2.');
    expect(applyEdit(batches(), { do: 'choose', cellId: 'group', option: 'batch 3' })).toMatchObject({ ok: false, problem: { code: 'option-gone' } });
    expect(enterText(batches(), 'method', 'batch 1').ok).toBe(false);
  });

  it('written in the text of the choice, such a name is told at the choice and at the fit', async () => {
    const [block] = batches().blocks.filter(({ id }) => id === 'group');
    const written = applyEdit(batches(), { do: 'set key', cellId: block?.id ?? '', key: 'chosen', value: 'batch 3' });
    if (!written.ok) throw new Error(written.problem.what);
    const graph = createSheetGraph(written.value);
    const states = await graph.settled();
    graph.dispose();
    expect(states.cell('group')?.problems[0]?.mend).toContain('batch 1, batch 2');
    expect(states.cell('line')?.problems[0]).toMatchObject({ what: 'The table has no group “batch 3”.', mend: 'Its groups are: batch 1, batch 2.' });
  });
});
