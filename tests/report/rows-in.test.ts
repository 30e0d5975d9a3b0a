import { describe, expect, it } from 'vitest';
import { answered, proposeRowsIn, rowsIn, type RowsAnswer, type RowsIn } from '../../src/graph/index.ts';
import { presentRowsIn, type PresentedRowsIn } from '../../src/report/index.ts';
import { LINE_COLUMNS, THERE } from '../graph/rows-in/helpers.ts';
import { tableOf, tableSheet } from '../sheet/table-texts.ts';

const cell = tableOf(tableSheet(THERE, LINE_COLUMNS));
function present(text: string, said: readonly RowsAnswer[] = [], at?: RowsIn['at']): PresentedRowsIn {
  const source = said.reduce(answered, rowsIn(text, { from: 'class.csv', ...(at === undefined ? {} : { at }) }));
  return presentRowsIn(source, proposeRowsIn(source, cell));
}

describe('rows in are presented before they go in', () => {
  it('as they would be read, with what becomes of them', () => {
    const shown = present('Probe;Gruppe;Spannung / ksi;Schwingspielzahl;Ergebnis\nX1;steel K;66,79;47.428;Bruch\nX2;steel K;60,1;1.341.862;Durchläufer\n');
    expect([shown.title, shown.openQuestions, shown.press]).toEqual(['Rows of class.csv', 0, 'add 2 rows']);
    expect(shown.heads).toEqual(['Specimen', 'Group', 'Stress amplitude / MPa', 'Life / cycles', 'Outcome']);
    // 66.79 ksi is 460.50084 MPa and 60.1 ksi 414.37491 MPa by 1 ksi = 6.894757293 MPa (NIST SP 811, 2008, appendix B.8).
    expect(shown.rows.map((row) => row.map((field) => field.replaceAll('\u202f', ' ')))).toEqual([['X1', 'steel K', '460.5008', '47 428', 'fracture'], ['X2', 'steel K', '414.3749', '1 341 862', 'runout']]);
    expect(shown.columns.flatMap(({ readings }) => readings.map(({ sentence }) => sentence.replaceAll('\u202f', ' ')))).toEqual([
      'The head says ksi.', 'Its own numbers show a decimal comma.', 'No unit is stated: read in cycles, as the table does.',
      'Its own numbers show a decimal comma. 47.428 is read as 47 428.', 'Bruch is read as fracture, Durchläufer is read as runout.',
    ]);
    expect(shown.sentences).toEqual(['2 rows read.', '2 rows are added to the 3 there.']);
  });

  it('says what gives way and what is left out, and asks instead of offering a press', () => {
    const text = 'Series A\nspecimen;S [MPa];N;outcome;machine\nK02;460;1.250;failed;2\nX2;460;9000;failed;2\n';
    const asked = present(text);
    expect([asked.press, asked.openQuestions]).toEqual([undefined, 2]);
    expect(asked.rows[0]?.[2]).toBe('1.250 ?');
    const shown = present(text, [{ answer: 'mark', place: 2, mark: 'comma' }, { answer: 'again', again: 'replace' }, { answer: 'target', place: 4, target: 'out' }]);
    expect(shown.press).toBe('replace 1 row and add 1');
    expect(shown.sentences).toEqual([
      '2 rows read.', '1 row is added to the 3 there.', 'What stands in row 2 of the table is replaced.', 'Left out above the head: “Series A”.', 'Column left out: machine.',
    ]);
    expect(present(text, [{ answer: 'mark', place: 2, mark: 'comma' }, { answer: 'how', how: 'replace all' }]).press).toBe('replace all 3 rows by 2');
  });
});
