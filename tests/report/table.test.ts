/** Tables and fits as data and as the report prints them. */
import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../src/sheet/index.ts';
import { presentTable, renderSheet, type PresentedTable } from '../../src/report/index.ts';
import { COLUMNS, tableSheet } from '../sheet/table-texts.ts';
import { serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { cellOf, contextOf } from './sheet-at.ts';

const ROWS = 'specimen,group,S [MPa],N,outcome\nA1,steel,380,41200,fracture\nA2,steel,abc,52000,lost\nA3,bronze,300,10000000,survived\n';

const contextWith = (rows: string, columns?: string) => contextOf(serialiseSheet(tableSheet(rows, columns)));

async function presented(rows: string, columns?: string): Promise<PresentedTable> {
  const context = await contextWith(rows, columns);
  return presentTable(cellOf(context, 'table', 'specimens'), context);
}

describe('a table as data', () => {
  test('heads say quantity and unit, and words where there is no unit', async () => {
    const { columns } = await presented(ROWS);
    expect(columns.map(({ head }) => head)).toEqual(['Specimen', 'Group', 'S / MPa', 'N / cycles', 'Outcome', 'valid', 'note']);
    expect(columns.filter(({ isFigures }) => isFigures).map(({ typed }) => typed)).toEqual(['S', 'N']);
    expect(columns.filter(({ isPresent }) => !isPresent).map(({ typed, standsFor }) => [typed, standsFor])).toEqual([['valid', 'yes'], ['note', '']]);
  });

  test('the unit is the one that the rows themselves are in, and a compound one stands in brackets', async () => {
    const { columns } = await presented('S / ksi,N,outcome\n55,1000,fracture\n');
    expect(columns.find(({ typed }) => typed === 'S')?.head).toBe('S / ksi');
    const columnsOfRates = `columns:\n  - key: k\n    label: Stiffness\n    type: quantity\n    unit: N/mm\n`;
    expect((await presented('k\n12\n', columnsOfRates)).columns[0]?.head).toBe('k / (N/mm)');
  });

  test('the subscript of a quantity stands below the line, on the page as in print', async () => {
    const columns = 'columns:\n  - key: n_i\n    label: Cycles\n    type: count\n    unit: cycles\n';
    const table = await presented('n_i\n12\n', columns);
    expect(table.columns[0]?.head).toBe('n_i / cycles');
    expect(table.columns[0]?.subscripted).toEqual(['n', 'i', ' / cycles']);
    expect((await presented(ROWS)).columns.every(({ subscripted }) => subscripted === undefined)).toBe(true);
    expect(renderSheet(await contextOf(shipped('alternating-bending')))).toContain('n<sub>i</sub> / cycles');
  });

  test('a row in error is counted, and its marks stand at their cells', async () => {
    const table = await presented(ROWS);
    expect([table.counts, table.rowCount, table.groups]).toEqual(['3 rows, 1 left out', 3, ['steel (1)', 'bronze (1)']]);
    const [good, bad] = table.rows(0, 2);
    expect([good?.isLeftOut, bad?.isLeftOut]).toEqual([false, true]);
    expect(bad?.fields.map(({ isWrong }) => isWrong)).toEqual([false, false, true, false, true, false, false]);
    expect(bad?.fields[2]?.marks.map(({ code }) => code)).toEqual(['number-missing']);
    expect(bad?.fields[4]?.marks.map(({ code }) => code)).toEqual(['table-option-unknown']);
    expect(good?.fields.flatMap(({ marks }) => marks)).toEqual([]);
    expect([table.nextLeftOut(0), table.nextLeftOut(1), table.nextLeftOut(2)]).toEqual([1, 1, 1]);
  });

  test('what is typed stays; print has digits in groups and outcomes in the table’s own words', async () => {
    const [, , runout] = (await presented(ROWS)).rows(0, 3);
    expect(runout?.fields.slice(0, 5).map(({ text }) => text)).toEqual(['A3', 'bronze', '300', '10000000', 'survived']);
    expect(runout?.fields.slice(0, 5).map(({ printed }) => printed)).toEqual(['A3', 'bronze', '300', '10\u202f000\u202f000', 'runout →']);
  });

  test('derived columns are computed and cannot be typed in', async () => {
    const table = await presented('S,N,outcome\n380,1,fracture\n', `${COLUMNS}  - key: half\n    label: Half the stress\n    type: derived\n    formula: S/2\n    unit: MPa\n`);
    const column = table.columns.findIndex(({ typed }) => typed === 'half');
    expect([table.columns[column]?.isDerived, table.columns[column]?.head, table.rows(0, 1)[0]?.fields[column]?.text]).toEqual([true, 'half / MPa', '190.00']);
  });

  test('rows that are not there are not made up', async () => {
    const table = await presented(ROWS);
    expect(table.rows(2, 10).map(({ number }) => number)).toEqual([3]);
    expect([table.rows(3, 10), table.rows(-5, 0)]).toEqual([[], []]);
    expect((await presented('')).counts).toBe('no rows yet');
    expect((await presented(',,,,\nS,N\n')).rows(0, 0)).toEqual([]);
  });

  test('an edit shows in the next picture of the table', async () => {
    const edited = applyEdit(tableSheet(ROWS), { do: 'set table cell', cellId: 'specimens', row: 1, column: 'S', text: '360' });
    if (!edited.ok) throw new Error(edited.problem.what);
    const context = await contextOf(serialiseSheet(edited.value));
    const row = presentTable(cellOf(context, 'table', 'specimens'), context).rows(1, 2)[0];
    expect([row?.fields[2]?.text, row?.fields[2]?.isWrong, row?.fields[4]?.isWrong]).toEqual(['360', false, true]);
  });
});

describe('a table in the report', () => {
  test('prints the columns that the rows have, marks at their row, and escapes every field', async () => {
    const page = renderSheet(await contextWith(`${ROWS}<img src=x onerror=alert(1)>,steel,380,1,fracture\n`));
    expect(page.match(/<th scope="col"/g)).toHaveLength(5);
    expect(page).toContain('<td class="figures">10\u202f000\u202f000</td>');
    expect(page).toContain('<tr class="left-out">');
    expect(page).toMatch(/class="told"><td colspan="5"><p class="out">Row \d+ is left out\.<\/p>/);
    expect(page).not.toContain('<img');
    expect(page).toContain('&lt;img src=x onerror=alert(1)&gt;');
  });

  test('a long table ends after 1000 rows with the number of the others', async () => {
    const rows = Array.from({ length: 1234 }, (_, i) => `L${i},380,${50000 + i},fracture`).join('\n');
    const page = renderSheet(await contextWith(`specimen,S,N,outcome\n${rows}\n`));
    expect(page).toContain('<td>L999</td>');
    expect(page).not.toContain('<td>L1000</td>');
    expect(page).toContain('234 more rows, which the document holds.');
  });
});
