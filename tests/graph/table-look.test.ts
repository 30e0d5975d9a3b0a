import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { numbersOf, valuesOf } from '../../src/core/rows/index.ts';
import { readTable, rowsShown, type Look, type SheetSymbols } from '../../src/graph/table/index.ts';
import { applyEdit, parseSheet, serialiseSheet, templateCell, type EditCommand, type SheetDocument } from '../../src/sheet/index.ts';
import { COLUMNS, tableOf, tableSheet } from '../sheet/table-texts.ts';

const ROWS = 'specimen,group,S,N,outcome\nA1,K,420,61000,fracture\nA2,M,380,210000,Failed\nA3,K,300,1e7,runout\nA4,M,x,5,fracture\nA5,K,340,640000,fracture\n';
const NONE: SheetSymbols = { dimensionOf: () => undefined, value: () => Number.NaN, standardUncertainty: () => Number.NaN, names: [] };
const state = (rows = ROWS, columns = COLUMNS) => readTable(tableOf(tableSheet(rows, columns)));
const shown = (look: Look, rows = ROWS) => rowsShown(state(rows), look, NONE).rows;

describe('looking at a table', () => {
  it('shows rows that meet a condition, or in which words stand', () => {
    expect(shown({ only: '' })).toEqual([0, 1, 2, 3, 4]);
    expect(shown({ only: 'S > 350*unit(MPa)' })).toEqual([0, 1]);
    expect(shown({ only: 'S > 50 * unit(ksi) and N < 100000*unit(cycles)' })).toEqual([0]);
    expect(shown({ only: 'RUNOUT' })).toEqual([2]);
    // As typed (`Failed`) and as read.
    expect([shown({ only: 'failed' }), shown({ only: 'fracture' })]).toEqual([[1], [0, 1, 3, 4]]);
    expect(shown({ only: 'k' })).toEqual([0, 2, 4]);
  });

  it('shows them in the order of a column, those without a value last', () => {
    expect(shown({ only: '', by: { column: 'S', direction: 'rising' } })).toEqual([2, 4, 1, 0, 3]);
    expect(shown({ only: 'K', by: { column: 'N', direction: 'falling' } })).toEqual([2, 4, 0]);
  });

  it('says what is wrong with a condition and shows all', () => {
    const told = rowsShown(state(), { only: 'S > 3' }, NONE);
    expect([told.rows.length, told.problem?.code]).toEqual([5, 'dimension-clash']);
    expect(rowsShown(state(), { only: 'S >' }, NONE).problem).toBeDefined();
  });

  it('never changes a row: the same rows are shown in whatever order they lie', () => {
    const lines = ROWS.trimEnd().split('\n');
    fc.assert(
      fc.property(fc.shuffledSubarray(lines.slice(1), { minLength: lines.length - 1 }), fc.constantFrom('', 'k', 'S > 310*unit(MPa)'), (order, only) => {
        const table = state(`${lines[0] ?? ''}\n${order.join('\n')}\n`);
        const names = rowsShown(table, { only, by: { column: 'specimen', direction: 'rising' } }, NONE).rows.map((row) => valuesOf(table.all, 'specimen')[row]);
        const before = state();
        expect(names).toEqual(rowsShown(before, { only }, NONE).rows.map((row) => valuesOf(before.all, 'specimen')[row]));
        expect([...numbersOf(table.usable, 'S')].sort()).toEqual([...numbersOf(before.usable, 'S')].sort());
      }),
    );
  });
});

describe('the condition of a table', () => {
  it('leaves rows out of what is counted, and says how many', () => {
    const table = state(ROWS, `${COLUMNS}where: S > 350*unit(MPa)\n`);
    expect([valuesOf(table.usable, 'specimen'), table.notCounted, table.leftOut, table.rowCount]).toEqual([['A1', 'A2'], 2, 1, 5]);
    expect([...(table.where?.met ?? [])]).toEqual([1, 1, 0, 0, 0]);
  });

  it('that can not be read counts no row, and says why', () => {
    for (const condition of ['S > 3', 'S', 'S > T', '1 +']) {
      const table = state(ROWS, `${COLUMNS}where: ${condition}\n`);
      expect([condition, valuesOf(table.usable, 'specimen'), table.problems.length]).toEqual([condition, [], 1]);
      expect(table.problems[0]?.key).toBe('where');
    }
  });

  it('reads symbols of the sheet, and the fit follows it', async () => {
    const rows = ['420,61000', '420,94000', '380,210000', '380,178000', '340,640000', '340,905000', '300,8000000'].map((row) => `${row},fracture`).join('\n');
    const sheet = serialiseSheet(tableSheet(`S,N,outcome\n${rows}\n`, `${COLUMNS}where: S > S_low\n`));
    const text = `${sheet}\n\`\`\`given\nsymbol: S_low\nvalue: 310 MPa\nunit: MPa\n\`\`\`\n\n\`\`\`fit\nid: line\ntable: specimens\n\`\`\`\n`;
    const graph = createSheetGraph(parseSheet(text));
    expect((await graph.settled()).cell('line')?.fit?.fit.n).toBe(6);
    const lower = applyEdit(parseSheet(text), { do: 'set key', cellId: 'S_low', key: 'value', value: '200 MPa' });
    if (!lower.ok) throw new Error(lower.problem.what);
    graph.update(lower.value);
    expect((await graph.settled()).cell('line')?.fit?.fit.n).toBe(7);
    graph.dispose();
  });
});

describe('a column added', () => {
  const add = (document: SheetDocument, key: string, formula: string) => applyEdit(document, { do: 'add column', cellId: 'specimens', key, formula } as EditCommand);

  it('is computed for each row and stands in the text as any other', () => {
    const added = add(tableSheet(ROWS), 'lg_N', 'log10(N)');
    if (!added.ok) throw new Error(added.problem.what);
    const values = numbersOf(readTable(tableOf(added.value)).all, 'lg_N');
    expect([...values.subarray(0, 3)]).toEqual([Math.log10(61000), Math.log10(210000), 7]);
    expect(serialiseSheet(added.value).replace('  - key: lg_N\n    type: derived\n    formula: log10(N)\n', '')).toBe(serialiseSheet(tableSheet(ROWS)));
    expect(parseSheet(serialiseSheet(added.value))).toEqual(added.value);
  });

  it('needs a name of its own and a formula', () => {
    const code = (key: string, formula: string) => {
      const result = add(tableSheet(ROWS), key, formula);
      return result.ok ? 'added' : result.problem.code;
    };
    expect([code('S', 'N'), code('x', ' '), code('2x', 'N') === 'added']).toEqual(['column-there', 'column-formula-empty', false]);
  });
});

describe('headers of other tables', () => {
  it('are understood where they can mean one thing only, and said', () => {
    const table = state('Sample,Stress (ksi),Cycles to failure,Result\nx,55,41200,Failure\ny,50,1e7,Run-out\n');
    // 1 ksi = 6.894757293168361 MPa: NIST SP 811 (2008), appendix B.8.
    expect([...numbersOf(table.usable, 'S')].map((value) => Number((value / 1e6).toPrecision(9)))).toEqual([379.211651, 344.737865]);
    expect([...numbersOf(table.usable, 'N')]).toEqual([41200, 1e7]);
    expect(valuesOf(table.usable, 'outcome')).toEqual(['fracture', 'runout']);
    expect(table.echoes.slice(0, 2)).toEqual(['the column “Sample” is read as specimen', 'the column “Stress (ksi)” is read as S']);
  });

  it('are left alone where they may mean something else, or the column is there already', () => {
    const range = state('Stress range [MPa],N,outcome\n380,1,fracture\n');
    expect([range.problems.map(({ code }) => code), range.warnings.map(({ code }) => code)]).toEqual([['column-missing'], ['column-unknown']]);
    const both = state('Stress,S,N,outcome\n1,380,1,fracture\n');
    expect([...numbersOf(both.usable, 'S')]).toEqual([380e6]);
  });

  it('get a hint where they miss a name by a slip, and outcomes too', () => {
    expect(state('specimn,S,N,outcome\nx,380,1,fracture\n').warnings[0]?.mend).toBe('Name “specimn” specimen if that is meant; it is kept as it is.');
    const mend = (word: string) => state(`S,N,outcome\n380,1,${word}\n`).marks[0]?.problem.mend;
    expect(mend('fractur')).toBe('Write fracture if that is meant, or else one of: fracture, runout, suspended, invalid.');
    expect(mend('runouts')).toContain('Write runout if');
    expect(mend('faild')).toContain('Write fracture if');
    expect(mend('lost')).toBe('Write one of: fracture, runout, suspended, invalid.');
  });
});

describe('a new table and a new fit', () => {
  it('meet: the fit reads the table, whose rows say that they are invented', async () => {
    let document = parseSheet('Begin.\n');
    for (const kind of ['table', 'fit'] as const) {
      const result = applyEdit(document, { do: 'insert', after: undefined, source: templateCell(kind, document) });
      if (!result.ok) throw new Error(result.problem.what);
      document = result.value;
    }
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    const fit = document.blocks.find((block) => block.kind === 'cell' && block.cell.kind === 'fit');
    expect([states.cell(fit?.id ?? '')?.fit?.fit.n, states.cell(fit?.id ?? '')?.problems]).toEqual([6, []]);
    expect(tableOf(document)).toMatchObject({ id: 'specimens', note: 'The rows are invented. Put your own in their place, or bring in a file.' });
    expect(templateCell('table', document)).toContain('id: specimens-2');
    graph.dispose();
  });

  it('give what can be asked of them: limits, a comparison, a staircase, a plan and weights with their tables', async () => {
    let document = parseSheet('Begin.\n');
    for (const what of ['table', 'fit', 'limits', 'comparison', 'staircase', 'plan', 'weights'] as const) {
      const result = applyEdit(document, { do: 'insert', after: document.blocks.at(-1)?.id, source: templateCell(what, document) });
      if (!result.ok) throw new Error(result.problem.what);
      document = result.value;
    }
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    const told = document.blocks.flatMap(({ id, ...block }) => (block.kind === 'cell' && block.cell.kind === 'fit' && block.cell.finds !== 'line'
      ? [[block.cell.finds, states.cell(id)?.problems.map(({ what }) => what)]] : []));
    expect(told).toEqual([
      ['limits', []],
      ['comparison', []],
      ['staircase', []],
      ['plan', []],
      ['weights', []],
    ]);
    graph.dispose();
  });
});
