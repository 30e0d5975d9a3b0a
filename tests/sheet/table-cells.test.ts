import { describe, expect, it } from 'vitest';
import { applyEdit, parseSheet, rowsText, serialiseSheet } from '../../src/sheet/index.ts';
import type { Cell } from '../../src/sheet/index.ts';
import { COLUMNS, tableOf, tableSheet } from './table-texts.ts';
import { size } from '../sizes.ts';

function cell(kind: string, body: string): Cell {
  const [block] = parseSheet(`\`\`\`${kind}\n${body}\`\`\`\n`).blocks;
  if (block?.kind !== 'cell') throw new Error('no cell');
  return block.cell;
}

describe('a table cell', () => {
  it('is read with its columns and the text of its rows', () => {
    const table = tableOf(tableSheet('specimen,S [MPa],N,outcome\nA1,380,41200,fracture'));
    expect(table).toMatchObject({ kind: 'table', id: 'specimens', label: 'Specimens of the class', problems: [], unknownKeys: [] });
    expect(table.rows).toBe('specimen,S [MPa],N,outcome\nA1,380,41200,fracture\n');
    expect(table.columns.map(({ key, label, type }) => [key, label, type])).toEqual([
      ['specimen', 'Specimen', 'text'], ['group', 'Group', 'text'], ['S', 'Stress amplitude', 'quantity'], ['N', 'Life', 'count'],
      ['outcome', 'Outcome', 'option'], ['valid', 'valid', 'yes-no'], ['note', 'note', 'text'],
    ]);
    expect(table.columns[4]?.options).toEqual(['fracture', 'runout', 'suspended', 'invalid']);
  });

  it('reads its rows the same, however they stand in the text', () => {
    const rows = 'specimen,S [MPa],N\nA1,380,41200\n\nA2,"36,5",1\n';
    const plain = rows.replace(/^(?=.)/gm, '  ');
    const bodies = [
      `${COLUMNS}rows: |\n${plain}`, `${COLUMNS}rows: |\n${plain}\n\n`, `${COLUMNS}rows: | # data\n${plain}`, `rows: |\n${plain}${COLUMNS}`,
      `${COLUMNS}rows: ${JSON.stringify(rows)}\n`, `${COLUMNS}rows: |\n${plain}# end\n`, `${COLUMNS}rows: |+\n${plain}`, `${COLUMNS}rows: |2\n${plain}`,
      `${COLUMNS}rows: |\n${plain.replaceAll('  ', '      ')}`,
    ];
    for (const body of bodies) {
      for (const end of ['\n', '\r\n', '\r']) {
        const read = cell('table', body.replaceAll('\n', end));
        expect(read).toMatchObject({ kind: 'table', rows, problems: [] });
      }
    }
  });

  it('tells what its columns lack and keeps those that can be used', () => {
    const read = cell('table', 'columns:\n- key: 2x\n- key: S\n  type: quantity\n- key: S\n- key: o\n  type: option\n- key: d\n  type: derived\n- key: q\n  type: number\n  colour: red\n- text\n');
    expect(read.problems.map(({ code, line }) => [code, line])).toEqual([
      ['column-key-malformed', 3], ['key-missing', 4], ['column-twice', 6], ['key-missing', 7], ['key-missing', 9], ['column-type-unknown', 12], ['wrong-shape', 2],
    ].toSorted((a, b) => Number(a[1]) - Number(b[1])));
    expect(read.unknownKeys.map(({ key }) => key)).toEqual(['column 6: colour']);
    expect(read.kind === 'table' && read.columns.map(({ key }) => key)).toEqual(['S', 'o', 'd', 'q']);
  });

  it('reads a long table and counts brackets in them as signs like any other', () => {
    const length = size(10_000, 100_000);
    const rows = Array.from({ length }, (_, i) => `A${i},${300 + (i % 200)},${40_000 + i},see [${i}`).join('\n');
    const began = performance.now();
    const document = tableSheet(`specimen,S [MPa],N,note\n${rows}`);
    const table = tableOf(document);
    const { rows: read } = rowsText(table);
    expect(performance.now() - began).toBeLessThan(10_000);
    expect(read).toHaveLength(length);
    expect(table.problems).toEqual([]);
    const renamed = applyEdit(document, { do: 'set key', cellId: 'specimens', key: 'label', value: 'All years' });
    expect(renamed.ok && serialiseSheet(renamed.value)).toBe(serialiseSheet(document).replace('label: Specimens of the class', 'label: All years'));
  });

  it('says that a table is too long rather than cutting it', () => {
    const read = cell('table', `${COLUMNS}rows: |\n  note\n${'  x\n'.repeat(3_000_001)}`);
    expect(read).toMatchObject({ kind: 'unknown', problems: [{ code: 'body-too-long', mend: 'Keep it below 12000000 characters.' }] });
  });
});

describe('a fit cell', () => {
  it('takes fixed words or choices, symbols and a snapshot', () => {
    const read = cell('fit', 'id: line\ntable: specimens\nmethod: by method\nlife: weibull\nmodel: linear\nstress: log\ngroup: steel K\nsymbols:\n  A: A_1\n  B: B_1\n');
    expect(read).toMatchObject({
      kind: 'fit', table: 'specimens', method: { by: 'method' }, life: { word: 'weibull' }, model: { word: 'linear' }, stress: { word: 'log' },
      group: { word: 'steel K' }, symbols: new Map([['A', 'A_1'], ['B', 'B_1']]), problems: [],
    });
    expect(cell('fit', 'snapshot:\n  A: 38.1\n  n: 24\n')).toMatchObject({ table: '', snapshot: new Map([['A', '38.1'], ['n', '24']]), problems: [] });
  });

  it('tells a word that it does not take and a malformed symbol', () => {
    const { problems } = cell('fit', 'method: guess\nsymbols:\n  A: 2A\n');
    expect(problems.map(({ code }) => code)).toEqual(['fit-setting-unknown', 'symbol-malformed']);
    expect(problems[0]?.mend).toContain('least-squares, maximum-likelihood');
  });
});
