import { describe, expect, it } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { createRandom } from '../../src/core/numeric/index.ts';
import { createSheetGraph, sampleSheet } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';

const COLUMNS = [
  'columns:',
  '  - key: load', '    type: quantity', '    unit: N',
  '  - key: n_i', '    type: count', '    unit: cycles',
  '  - key: S_i', '    type: derived', '    formula: S_1*load/unit(kN)', '    unit: MPa',
  '  - key: D_i', '    type: derived', '    formula: n_i/10^(A - B*log10(S_i/unit(MPa)))',
].join('\n');

function sheetOf(symbols: string, rows: string, more = ''): string {
  const given = (symbol: string, value: string, unit: string) => ['```given', `symbol: ${symbol}`, `value: "${value}"`, `unit: "${unit}"`, '```', ''].join('\n');
  return [
    given('A', '31.2 ± 0.1', '1'), given('B', '10', '1'), given('S_1', '400 ± 4 MPa', 'MPa'),
    ['```table', 'id: blocks', 'symbols:', symbols, COLUMNS, 'rows: |', rows.replace(/^/gm, '  '), '```', ''].join('\n'), more,
  ].join('\n');
}

async function solvedSheet(text: string) {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  const compiled = graph.compiled();
  graph.dispose();
  return { states, compiled };
}

const valueOf = (states: Awaited<ReturnType<typeof solvedSheet>>['states'], symbol: string): number => {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') throw new Error(JSON.stringify(state));
  return state.estimate.value;
};

const ROWS = 'load,n_i\n1050,20000\n950,100000\n850,400000';

describe('symbols that a table gives', () => {
  it('sums a derived column over the rows, in SI', async () => {
    const { states } = await solvedSheet(sheetOf('  sum D_i: D_M\n  sum n_i: n_s\n  mean load: P_m\n  min S_i: S_min\n  max S_i: S_max\n  count: n_b', ROWS));
    // Miner sum of 420, 380 and 340 MPa with N = 10^(31.2 − 10 log10 S); computed with mpmath.
    expect(valueOf(states, 'D_M') / 1.1326796388522786 - 1).toBeCloseTo(0, 11);
    expect(valueOf(states, 'n_s')).toBe(520000);
    expect(valueOf(states, 'P_m')).toBeCloseTo(950, 12);
    expect([valueOf(states, 'S_min'), valueOf(states, 'S_max'), valueOf(states, 'n_b')]).toEqual([340e6, 420e6, 3]);
    expect(states.symbol('S_max')?.unit?.name).toBe('MPa');
    expect(states.cell('blocks')?.problems).toEqual([]);
  });

  it('carries the uncertainty of what its formulas read, so that what follows stays correlated', async () => {
    const step = ['```step', 'symbol: y', 'formula: D_M*10^A', '```', ''].join('\n');
    const { states, compiled } = await solvedSheet(sheetOf('  sum D_i: D_M', ROWS, step));
    const state = states.symbol('D_M');
    const u = state?.status === 'value' ? standardUncertainty(state.estimate) : Number.NaN;
    // Each share goes with S^10 and 10^-A: relative 10·1 % and ln 10·0.1, in quadrature.
    const relative = Math.hypot(10 * 0.01, Math.LN10 * 0.1);
    expect(u / valueOf(states, 'D_M') / relative - 1).toBeCloseTo(0, 10);
    // In y the intercept cancels.
    const y = states.symbol('y');
    expect(y?.status === 'value' ? standardUncertainty(y.estimate) / y.estimate.value : 0).toBeCloseTo(0.1, 10);
    const sampled = sampleSheet(compiled, states, createRandom(5), 4000).get('y');
    if (sampled === undefined || typeof sampled === 'number') throw new Error('not drawn');
    const logs = sampled.map((value) => Math.log(value));
    const mean = logs.reduce((sum, value) => sum + value, 0) / logs.length;
    expect(Math.sqrt(logs.reduce((sum, value) => sum + (value - mean) ** 2, 0) / logs.length)).toBeGreaterThan(0.09);
    expect(Math.sqrt(logs.reduce((sum, value) => sum + (value - mean) ** 2, 0) / logs.length)).toBeLessThan(0.11);
  });

  it('leaves out what the table leaves out, and rows that do not count', async () => {
    const { states } = await solvedSheet(sheetOf('  sum n_i: n_s', 'load,n_i\n1050,20000\n,7\n850,-5\n850,3'));
    expect(valueOf(states, 'n_s')).toBe(20003);
    expect(states.cell('blocks')?.warnings[0]?.what).toContain('2 of 4 rows are left out');
    const marked = sheetOf('  sum n_i: n_s', 'load,n_i,valid\n1050,20000,yes\n850,3,no').replace('columns:', 'columns:\n  - key: valid\n    type: yes-no');
    expect(valueOf((await solvedSheet(marked)).states, 'n_s')).toBe(20000);
  });

  it('is zero as a sum without rows, and open as a mean', async () => {
    const { states } = await solvedSheet(sheetOf('  sum D_i: D_M\n  mean load: P_m', 'load,n_i'));
    expect(valueOf(states, 'D_M')).toBe(0);
    expect(states.symbol('P_m')).toMatchObject({ status: 'range', word: 'open' });
  });

  it('tells a gap, a loop, a missing unit, and names that it has not', async () => {
    const gap = await solvedSheet(sheetOf('  sum load: P_s', 'load,n_i\n1,1\n,2').replace('    unit: N\n', '    unit: N\n    optional: true\n'));
    expect(gap.states.cell('blocks')?.problems[0]?.what).toContain('Row 2 has no load');
    const loop = await solvedSheet(sheetOf('  sum D_i: S_2', ROWS).replace('S_1*load', 'S_2*load'));
    expect(loop.states.cell('blocks')?.problems[0]?.code).toBe('loop');
    expect(loop.states.symbol('S_2')?.status).toBe('problem');
    const plain = await solvedSheet(sheetOf('  sum S_i: S_s', ROWS).replace('    unit: MPa\n', ''));
    expect(plain.states.cell('blocks')?.problems[0]?.mend).toContain('`unit: ');
    const unknown = await solvedSheet(sheetOf('  total D_i: D_M\n  sum x: y\n  sum D_i: 2x', ROWS));
    expect(unknown.states.cell('blocks')?.problems.map(({ code }) => code)).toEqual(['table-symbol-unknown', 'table-symbol-column', 'symbol-malformed']);
  });

  it('waits where a value that its formulas read is missing', async () => {
    const { states } = await solvedSheet(sheetOf('  sum D_i: D_M\n  count: n_b', ROWS).replace('"400 ± 4 MPa"', '""'));
    expect(states.symbol('D_M')).toMatchObject({ status: 'range', word: 'open', waitsFor: ['S_1'] });
    expect(valueOf(states, 'n_b')).toBe(3);
  });
});

describe('a straight line through two columns', () => {
  // Certified values of the data set Norris (National Institute of Standards and Technology, statistical reference datasets, linear regression), from memory; so are its data, which would not give them else.
  const NORRIS = '0.1,0.2 338.8,337.4 118.1,118.2 888.0,884.6 9.2,10.1 228.1,226.5 668.5,666.3 998.5,996.3 449.1,448.6 778.9,777.0 559.2,558.2 0.3,0.4 0.1,0.6 778.1,775.5 668.8,666.9 339.3,338.0 448.9,447.5 10.8,11.6 557.7,556.0 228.3,228.1 998.0,995.8 888.8,887.6 119.6,120.2 0.3,0.3 0.6,0.3 557.6,556.8 339.3,339.1 888.0,887.2 998.5,999.0 778.9,779.0 10.2,11.1 117.6,118.3 228.9,229.2 668.4,669.1 449.2,448.9 0.2,0.5';
  const lineSheet = (rows: string, symbols = '  slope y on x: b\n  intercept y on x: a\n  scatter y on x: s') => [
    '```given', 'symbol: c', 'value: 1 ± 0.01', '```', '',
    '```table', 'id: t', 'symbols:', symbols, 'columns:', '  - key: y_0', '    type: quantity', '    unit: N', '  - key: x', '    type: quantity', '    unit: mm',
    '  - key: y', '    type: derived', '    formula: c*y_0', '    unit: N', 'rows: |', '  y_0,x', ...rows.split(' ').map((row) => `  ${row}`), '```', '',
  ].join('\n');

  it('slope, intercept and scatter as certified, in the units of the columns', async () => {
    const { states } = await solvedSheet(lineSheet(NORRIS));
    expect(valueOf(states, 'b') / 1000 / 1.00211681802045).toBeCloseTo(1, 12);
    expect(valueOf(states, 'a') / -0.262323073774029).toBeCloseTo(1, 11);
    expect(valueOf(states, 's') / 0.884796396144373).toBeCloseTo(1, 12);
    expect(['b', 'a', 's'].map((symbol) => states.symbol(symbol)?.unit?.name)).toEqual(['N/mm', 'N', 'N']);
    expect(states.cell('t')?.problems).toEqual([]);
  });

  it('slope and intercept carry the uncertainty of what the column reads; the scatter is taken as known', async () => {
    const { states } = await solvedSheet(lineSheet('3,1 5,2 6,3'));
    const share = (symbol: string): number => {
      const state = states.symbol(symbol);
      return state?.status === 'value' ? standardUncertainty(state.estimate) / state.estimate.value : Number.NaN;
    };
    expect([share('b'), share('a'), share('s')].map((value) => Number(value.toFixed(12)))).toEqual([0.01, 0.01, 0]);
    // By hand: slope 1.5, intercept 5/3, residuals −1/6, 1/3, −1/6.
    expect([valueOf(states, 'b') / 1000, valueOf(states, 'a'), valueOf(states, 's')].map((value) => Number(value.toFixed(12)))).toEqual([1.5, 1.666666666667, Number(Math.sqrt(1 / 6).toFixed(12))]);
  });

  it('too few rows, rows at one place, a column that is worked out or not there', async () => {
    const two = await solvedSheet(lineSheet('3,1 5,2'));
    expect(valueOf(two.states, 'b')).toBeCloseTo(2000, 9);
    expect(two.states.symbol('s')).toMatchObject({ status: 'problem', problem: { code: 'aggregate-line' } });
    expect((await solvedSheet(lineSheet('3,1 5,1 7,1'))).states.symbol('b')).toMatchObject({ status: 'problem', problem: { code: 'aggregate-line' } });
    for (const wrong of ['  slope y on y: b', '  slope x on z: b']) {
      expect((await solvedSheet(lineSheet('3,1 5,2', wrong))).states.cell('t')?.problems[0]?.code).toBe('table-symbol-on');
    }
    expect((await solvedSheet(lineSheet('3,1 5,2', '  slope z on x: b'))).states.cell('t')?.problems[0]?.code).toBe('table-symbol-column');
  });
});
