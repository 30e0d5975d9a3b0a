import { describe, expect, it } from 'vitest';
import { fitsAsItIs, holdsSpecimens, proposeRowsIn, rowsIn } from '../../../src/graph/rows-in/index.ts';
import { valuesOf } from '../../../src/core/rows/index.ts';
import { readTable, tableCsv } from '../../../src/graph/table/index.ts';
import { recordCsv } from '../../../src/report/index.ts';
import { applyEdit, parseSheet } from '../../../src/sheet/index.ts';
import { tableOf, tableSheet } from '../../sheet/table-texts.ts';
import { shipped } from '../../shipped.ts';
import { after, LINE_COLUMNS, proposalOf, THERE } from './helpers.ts';

const abouts = (proposal: ReturnType<typeof proposalOf>): readonly string[] => proposal.questions.map(({ about }) => about);

describe('rows in: the tables that were misread', () => {
  it('rows in: what was taken away as a file comes back without replacing anything', () => {
    const file = tableCsv(readTable(tableOf(tableSheet(THERE, LINE_COLUMNS))));
    const proposal = proposalOf(file);
    expect(proposal.counts).toMatchObject({ there: 3, read: 3, same: 3, added: 0, replaced: [] });
    expect([proposal.questions, proposal.command]).toEqual([[], undefined]);
  });

  it('rows in: a record that was copied has a head, its team is no group, and it is one row more', () => {
    const row = new Map([
      ['specimen', { text: 'PS-07' }], ['team', { text: 'T4' }], ['S', { text: '371.774', unit: 'MPa' }], ['N', { text: '56000' }], ['outcome', { text: 'fracture' }],
      ['date', { text: '2026-11-20' }], ['place', { text: '' }], ['note', { text: 'a, b' }],
    ]);
    const proposal = proposalOf(recordCsv(row), [], { at: { row: 0, column: 'specimen' } });
    expect([proposal.hasHead, proposal.how, proposal.questions, proposal.counts.added, proposal.counts.replaced]).toEqual([true, 'add', [], 1, []]);
    expect(proposal.columns.map(({ name, target }) => [name, target])).toEqual([
      ['specimen', 'as specimen'], ['team', 'own'], ['S [MPa]', 'as S'], ['N', 'as N'], ['outcome', 'as outcome'], ['date', 'own'], ['place', 'out'], ['note', 'as note'],
    ]);
    expect(after(proposal)).toMatchObject({ specimen: ['K01', 'K02', 'K03', 'PS-07'], S: [460, 420, 300, 371.774], N: [81493, 110549, 1e7, 56000] });
  });

  // 66.79 ksi = 460.500839 MPa by NIST SP 811 (2008), appendix B.8: 1 ksi = 6.894757293 MPa.
  it.each([
    ['blanks', 'specimen group S [ksi] N outcome\nX1 steel 66.79 81493 failed\nX2 steel 43.5 1e7 run out\n'],
    ['tabs', 'specimen\tgroup\tS [ksi]\tN\toutcome\nX1\tsteel X\t66.79\t81493\tfailed\nX2\tsteel X\t43.5\t1e7\trunout\n'],
    ['a head with blanks over rows with tabs', 'specimen group S [ksi] N outcome\nX1\tsteel X\t66.79\t81493\tfailed\nX2\tsteel X\t43.5\t1e7\trunout\n'],
  ])('rows in: a head of a specimen, a group, S in ksi is a head, and its stress is converted (%s)', (_, text) => {
    const proposal = proposalOf(text);
    expect([proposal.hasHead, proposal.questions]).toEqual([true, []]);
    const { S = [], N = [], outcome = [] } = after(proposal);
    expect(S.slice(3)).toEqual([460.500840, 299.921942].map((value) => expect.closeTo(value, 5)));
    expect([N.slice(3), outcome.slice(3)]).toEqual([[81493, 1e7], ['fracture', 'runout']]);
  });

  it('rows in: points that group digits in one number of a column group them in all', () => {
    const proposal = proposalOf('specimen;S [MPa];N;outcome\nX1;460,5;47.428;Bruch\nX2;340;1.341.862;Bruch\n');
    expect(proposal.questions).toEqual([]);
    expect(after(proposal)).toMatchObject({ S: [460, 420, 300, 460.5, 340], N: [81493, 110549, 1e7, 47428, 1341862] });
    // In a table's own text, too, nothing of it is guessed.
    expect(readTable(tableOf(tableSheet('S,N,outcome\n460,1.341.862,fracture\n460,47.428,fracture\n'))).marks.map(({ problem }) => problem.code)).toEqual(['count-separators']);
  });

  it('rows in: what can be meant in two ways, or in none, is asked', () => {
    expect(abouts(proposalOf('specimen\tS [MPa]\tN\toutcome\nX1\t460\t47.428\tBruch\n'))).toEqual(['mark']);
    expect(abouts(proposalOf('specimen;S [MPa];N;outcome\nX1;460;1.341.862;Bruch\nX2;460;47.4;Bruch\n'))).toEqual(['mark']);
    const grouped = proposalOf('specimen;S [MPa];N;outcome\nX1;460;1.341.862;Bruch\nX2;460;47.4;Bruch\n', [{ answer: 'mark', place: 2, mark: 'comma' }]);
    expect([grouped.questions, grouped.counts.unfit, grouped.counts.added]).toEqual([[], [{ line: 3, text: '47.4' }], 1]);
    expect(abouts(proposalOf('specimen,S [MPa],N,outcome\nX1,460,5,81493,failed\n'))).toEqual(['long']);
    expect(abouts(proposalOf('specimen,S,N,outcome\nX1,66.79,81493,failed\n'))).toEqual(['unit']);
    expect(abouts(proposalOf('specimen,S [furlong],N,outcome\nX1,66.79,81493,failed\n'))).toEqual(['unit']);
    expect(abouts(proposalOf('specimen,N,outcome\nX1,81493,failed\n'))).toEqual(['missing']);
    expect(abouts(proposalOf('specimen,S [MPa],N\nX1,460,81493\n'))).toEqual(['missing']);
    expect(abouts(proposalOf('X1,steel,460,81493,failed\n'))).toEqual(['order']);
  });

  it.each([
    ['German', 'Probe;Werkstoff;Spannungsamplitude / MPa;Schwingspielzahl;Ergebnis;Bemerkung\nP1;Stahl K;380,5;41.200;Bruch;heiß\nP2;Stahl K;340,25;10.000.000;Durchläufer;\n', ['fracture', 'runout']],
    ['French', 'Éprouvette;Matériau;Contrainte [MPa];Nombre de cycles;Résultat;Remarques\nP1;acier K;380,5;41 200;rompu;chaud\nP2;acier K;340,25;10 000 000;non rompu;\n', ['fracture', 'runout']],
    ['Spanish', 'Probeta;Grupo;Amplitud de tensión (MPa);Número de ciclos;Resultado;Observaciones\nP1;acero K;380,5;41.200;rotura;\nP2;acero K;340,25;10.000.000;sin rotura;\n', ['fracture', 'runout']],
  ])('rows in: %s heads and words are understood, and no row is left out', (_, text, outcomes) => {
    const proposal = proposalOf(text);
    expect([proposal.questions, proposal.counts.added, proposal.counts.marked]).toEqual([[], 2, 0]);
    const { S = [], N = [], outcome = [], leftOut } = after(proposal);
    expect([S.slice(3), N.slice(3), outcome.slice(3), leftOut]).toEqual([[380.5, 340.25], [41200, 1e7], outcomes, [0]]);
  });

  it('rows in: a unit typed in a field is kept and read, a power of ten in the head counts', () => {
    const proposal = proposalOf('specimen\tS\tN [10^3]\toutcome\nX1\t66.79 ksi\t81.5\tfailed\nX2\t460 MPa\t90\tfailed\n');
    expect(proposal.questions).toEqual([]);
    const { S = [], N = [] } = after(proposal);
    expect([S.slice(3), N.slice(3)]).toEqual([[expect.closeTo(460.50084, 5), 460], [81500, 90000]]);
  });

  it('rows in: words that nobody knows are asked once for the whole column', () => {
    const text = 'specimen,S [MPa],N,outcome\nX1,460,1,b\nX2,460,2,b\nX3,460,3,d\n';
    const asked = proposalOf(text);
    expect(asked.questions).toEqual([{ about: 'words', place: 3 }]);
    const proposal = proposalOf(text, [{ answer: 'word', place: 3, word: 'b', meaning: 'fracture' }, { answer: 'word', place: 3, word: 'd', meaning: 'runout' }]);
    expect(after(proposal).outcome?.slice(3)).toEqual(['fracture', 'fracture', 'runout']);
  });

  it('rows in: lines above the head are told, columns that are not known stay', () => {
    const proposal = proposalOf('Series A, tested in May\nspecimen;S [MPa];N;outcome;machine\nX1;460;81493;failed;M2\n');
    expect([proposal.hasHead, proposal.counts.above]).toEqual([true, ['Series A, tested in May']]);
    const edited = applyEdit(tableSheet(THERE, LINE_COLUMNS), proposal.command ?? { do: 'delete', id: '' } as never);
    const state = edited.ok ? readTable(tableOf(edited.value)) : undefined;
    expect(state === undefined ? [] : [...valuesOf(state.all, 'other 1')]).toEqual(['', '', '', 'M2']);
  });
});

describe('a row that is sent', () => {
  const columns = 'columns:\n  - key: specimen\n    label: Specimen\n  - key: sigma_a\n    label: Stress amplitude\n    type: quantity\n    unit: ksi\n  - key: N\n    label: Life\n    type: count\n';
  const row = new Map([['specimen', { text: 'B, "2"' }], ['S', { text: '371.776', unit: 'MPa' }], ['N', { text: '56000' }], ['place', { text: '' }]]);

  it.each([['sigma_a', '371.776 MPa'], ['sigma_a [MPa]', '371.776']])('goes in by what columns mean, with its unit where the table has another: %s', (head, stress) => {
    const document = tableSheet(`specimen,${head},N\nA1,50,1000\n`, columns);
    const { command } = proposeRowsIn(rowsIn(recordCsv(row)), tableOf(document));
    const edited = command === undefined ? undefined : applyEdit(document, command);
    expect(edited?.ok === true && tableOf(edited.value).rows).toBe(`specimen,${head},N\nA1,50,1000\n"B, ""2""",${stress},56000\n`);
  });

  it('goes only to tables that hold specimens', () => {
    const tables = ['rotating-bending', 'sn-line', 'staircase', 'materials'].flatMap((name) =>
      parseSheet(shipped(name)).blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'table' ? [block.cell] : [])));
    expect(tables.filter(holdsSpecimens).map(({ label }) => label)).toEqual(['Specimens of the class', 'Tests of the staircase']);
    expect(tables.length).toBeGreaterThan(4);
  });
});

describe('duplicates: a specimen that comes twice is told', () => {
  const text = 'specimen,group,S [MPa],N,outcome\nK02,steel K,420,222222,fracture\nX9,steel K,400,1000,fracture\n';

  it('and replaces, stays or is added as the reader says', () => {
    expect(proposalOf(text).questions).toEqual([{ about: 'again', count: 1, first: 'K02' }]);
    expect(after(proposalOf(text, [{ answer: 'again', again: 'replace' }]))).toMatchObject({ specimen: ['K01', 'K02', 'K03', 'X9'], N: [81493, 222222, 1e7, 1000] });
    expect(after(proposalOf(text, [{ answer: 'again', again: 'stay' }]))).toMatchObject({ specimen: ['K01', 'K02', 'K03', 'X9'], N: [81493, 110549, 1e7, 1000] });
    expect(after(proposalOf(text, [{ answer: 'again', again: 'add' }]))).toMatchObject({ specimen: ['K01', 'K02', 'K03', 'K02', 'X9'] });
  });

  it('twice within the text, too; another group has other specimens', () => {
    expect(abouts(proposalOf('specimen,S [MPa],N,outcome\nX1,460,1,failed\nX1,460,2,failed\n'))).toEqual(['again']);
    expect(proposalOf('specimen,S [MPa],N,outcome\nX1,460,1,failed\nX1,460,1,failed\n').counts).toMatchObject({ added: 1, same: 1 });
    expect(proposalOf('specimen,group,S [MPa],N,outcome\nK02,steel M,420,222222,fracture\n').questions).toEqual([]);
  });

  it('all rows give way only where the reader says so', () => {
    const proposal = proposalOf(text, [{ answer: 'how', how: 'replace all' }]);
    expect(proposal.questions).toEqual([]);
    expect(after(proposal)).toMatchObject({ specimen: ['K02', 'X9'], N: [222222, 1000] });
  });
});

describe('a block pasted at a field', () => {
  const at = { row: 3, column: 'specimen' };

  it('goes in as it is where nothing is guessed and nothing gives way', () => {
    expect(fitsAsItIs(proposalOf('P1\tsteel P\t350\t700000\tfracture\nP2\tsteel P\t350\t1e7\tRunout\n', [], { at }))).toBe(true);
    expect(fitsAsItIs(proposalOf('350\n340.5\n', [], { at: { row: 3, column: 'S' } }))).toBe(true);
  });

  it.each([
    ['over other texts', 'P1\tsteel P\t350\t700000\tfracture\n', { row: 2, column: 'specimen' }],
    ['with a head', 'specimen\tS [ksi]\tN\nP1\t66\t700000\n', at],
    ['as comma text', 'P1,steel P,350,700000,fracture\nP2,steel P,350,800000,fracture\n', at],
    ['with a number of two meanings', 'P1\tsteel P\t1,250\t700000\tfracture\n', at],
    ['with digits in groups', 'P1\tsteel P\t350\t700 000\tfracture\n', at],
    ['with a word that nobody knows', 'P1\tsteel P\t350\t700000\tzz\n', at],
    ['wider than the table', 'P1\tg\t350\t700000\tfracture\tyes\tnote\tmore\n', at],
  ])('and is looked at first %s', (_, text, where) => {
    expect(fitsAsItIs(proposalOf(text, [], { at: where }))).toBe(false);
  });
});
