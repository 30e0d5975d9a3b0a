/** The class's specimens in one table: each once, with where it comes from, the team apart from the steel. */
import { describe, expect, test } from 'vitest';
import { ok } from '../../src/core/problem/index.ts';
import { createSheetGraph } from '../../src/graph/index.ts';
import { createGatherer, poolCsv, pooled, poolInto, type ReturnedSheet } from '../../src/returns/index.ts';
import { applyEdit, cellsOf, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { neutral } from '../shipped.ts';
import { PLANTED, simulatedClass } from '../simulated-class.ts';

const gatherer = createGatherer();
for (const { number, text } of simulatedClass(29)) gatherer.take({ name: `team-${number}.md`, text: ok(text), isAltered: false });
const { sheets } = gatherer.take({ name: 'team-30.md', text: ok(simulatedClass(30)[29]?.text ?? ''), isAltered: false });
const pool = pooled(sheets);

function tableOf(document: SheetDocument) {
  const table = cellsOf(document, 'table').find(({ id }) => id === 'specimens');
  if (table === undefined) throw new Error('no table');
  return table;
}

function filled(document: SheetDocument, of = pool): SheetDocument {
  const { questions, command } = poolInto(of, tableOf(document));
  expect(questions).toEqual([]);
  const edited = command === undefined ? ok(document) : applyEdit(document, command);
  if (!edited.ok) throw new Error(edited.problem.what);
  return edited.value;
}

describe('the pool', () => {
  test('has every specimen once; a name that comes again is left out with where it stands', () => {
    expect(pool.specimens.length).toBe(29);
    expect(pool.left.map(({ sheet, reason }) => `${sheet.head.team}: ${reason}`)).toEqual([
      `T${PLANTED.sameSpecimen}: Specimen PS-${PLANTED.sameSpecimen - 1} is there already, with another test, from T${PLANTED.sameSpecimen - 1}. Give one of the two another name in its sheet.`,
    ]);
  });

  test('goes into the class’s table without a question, with team, file and steel each in a column of its own', async () => {
    const document = filled(parseSheet(neutral('sn-line')));
    const [head = '', first = ''] = tableOf(document).rows.split('\n');
    const row = new Map(head.split(',').map((name, i) => [name.replace(/ \[.*/, ''), first.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/)[i]]));
    expect([row.get('specimen'), row.get('team'), row.get('file'), row.get('N'), row.get('outcome')]).toEqual(['PS-01', 'T01', 'team-1.md', '103000', 'fracture']);
    expect(row.get('group')).toMatch(/1045/);
    const graph = createSheetGraph(document);
    const table = (await graph.settled()).cell('specimens')?.table;
    graph.dispose();
    expect([table?.rowCount, table?.leftOut]).toEqual([29, 0]);
  });

  test('put in again adds nothing', () => {
    const once = filled(parseSheet(neutral('sn-line')));
    const { command, counts } = poolInto(pool, tableOf(once));
    expect([command, counts.added, counts.same + counts.stay]).toEqual([undefined, 0, 29]);
  });

  test('stresses in different units keep them', () => {
    const inKsi = (sheet: ReturnedSheet): ReturnedSheet => ({ ...sheet, tests: sheet.tests.map((one) => ({ ...one, row: new Map([...(one.row ?? []), ['S', { text: '54.1', unit: 'ksi' }]]) })) });
    const [first, second] = sheets;
    if (first === undefined || second === undefined) throw new Error('no sheets');
    const csv = poolCsv(pooled([first, inKsi(second)]));
    expect(csv).toMatch(/^specimen,team,machine,S,/);
    expect(csv).toMatch(/PS-02,T02,[^,]*,54\.1 ksi,/);
    expect(tableOf(filled(parseSheet(neutral('sn-line')), pooled([first, inKsi(second)]))).rows).toMatch(/54\.1 ksi/);
  });

  test('a test that goes on, or a sheet without a specimen, is named', () => {
    const [first] = sheets;
    const [own] = first?.tests ?? [];
    if (first === undefined || own === undefined) throw new Error('no test');
    const { row: _row, ...open } = own;
    const { left } = pooled([{ ...first, tests: [{ ...open, phase: 'running' }] }, { ...first, tests: [{ ...own, row: new Map([...(own.row ?? []), ['specimen', { text: '' }]]) }] }]);
    expect(left.map(({ reason }) => reason)).toEqual(['“Record of the test” is not ended.', expect.stringMatching(/^It says no specimen/)]);
  });
});
