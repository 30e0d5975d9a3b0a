import { describe, expect, it } from 'vitest';
import { createSheetGraph, leftAlone, predictionNow, readStamp, stoodStillSince, type SheetStates } from '../../src/graph/index.ts';
import { applyEdit, parseSheet, type RecordCell, type SheetDocument } from '../../src/sheet/index.ts';

const SHEET = (lines: readonly string[] = []): string => `\`\`\`given
symbol: N_f
value: 100000 ± 5000 cycles
unit: cycles
\`\`\`
\`\`\`given
symbol: n
value: 3000 rev/min
unit: rev/min
\`\`\`
\`\`\`given
symbol: N_obs
unit: cycles
optional: true
\`\`\`
\`\`\`step
symbol: r
formula: N_obs/N_p
\`\`\`
\`\`\`record
id: test
${['watches:', '  life: N_f', '  speed: n', 'symbols:', '  cycles: N_run', '  hours: t_run', '  life: N_p', 'fills:', '  cycles: N_obs', ...lines].join('\n')}
\`\`\`
`;

const RAN = [
  'started: 2026-10-25T01:30:00+02:00', 'ended: 2026-10-25T02:30:00+01:00', 'counter_start: 9990', 'counter_end: 35', 'counter_end_rolled_over: 9990 to 35', 'counter_digits: 4',
  'counter_multiplier: 100', 'outcome: fracture', 'frozen:', '  N_f: 90000 ± 4000 cycles', '  n: 3000 rev/min',
];

async function statesOf(text: string | SheetDocument): Promise<SheetStates> {
  const graph = createSheetGraph(typeof text === 'string' ? parseSheet(text) : text);
  const states = await graph.settled();
  graph.dispose();
  return states;
}

const value = (states: SheetStates, symbol: string): number => {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : Number.NaN;
};

describe('the test record in the graph', () => {
  it('before the end its cycles are open and nothing is in error; the prediction handed on is the present one', async () => {
    const states = await statesOf(SHEET());
    for (const symbol of ['N_run', 't_run', 'N_obs', 'r']) expect(states.symbol(symbol)).toMatchObject({ status: 'range', word: 'open' });
    expect(value(states, 'N_p')).toBe(1e5);
    expect(states.cell('test')?.problems).toEqual([]);
  });

  it('summer time ends during the test: two hours by the offsets, one by the clock on the wall', async () => {
    expect(value(await statesOf(SHEET(RAN)), 't_run')).toBe(7200);
  });

  it('after a fracture the counter, rolled over, fills the observed life, held against the prediction at the start', async () => {
    const states = await statesOf(SHEET(RAN));
    expect(value(states, 'N_run')).toBe(4500);
    expect(value(states, 'N_obs')).toBe(4500);
    expect(value(states, 'N_p')).toBe(90_000);
    expect(value(states, 'r')).toBeCloseTo(0.05, 12);
    expect(states.cell('N_obs')?.reading?.filledBy).toBe('test');
  });

  it('a runout has cycles and no observed life', async () => {
    const states = await statesOf(SHEET(RAN).replace('fracture', 'runout'));
    expect(value(states, 'N_run')).toBe(4500);
    expect(states.symbol('N_obs')).toMatchObject({ status: 'range', word: 'open' });
  });

  it('what is frozen reads back to the same doubles', async () => {
    const text = SHEET().replace('100000 ± 5000', `${1e6 / 7} ± ${1e4 / 3}`);
    const document = parseSheet(text);
    const states = await statesOf(document);
    const block = document.blocks.find(({ id }) => id === 'test');
    const cell = (block?.kind === 'cell' ? block.cell : undefined) as RecordCell;
    const frozen = applyEdit(document, { do: 'set entries', cellId: 'test', key: 'frozen', entries: predictionNow(cell, document, states) });
    if (!frozen.ok) throw new Error(frozen.problem.what);
    expect(value(await statesOf(frozen.value), 'N_p')).toBe(1e6 / 7);
  });

  it.each([
    ['a time without its offset', 'started: 2026-11-20T09:12:00', 'record-time'],
    ['30 February', 'started: 2026-02-30T09:12:00Z', 'record-time'],
    ['more digits than the counter has', 'counter_start: 1234567', 'record-counter'],
    ['an outcome of no test', 'outcome: exploded', 'record-outcome'],
  ])('%s is told in words', async (_what, line, code) => {
    expect((await statesOf(SHEET([line]))).cell('test')?.problems.map((problem) => problem.code)).toEqual([code]);
  });

  it('an end before the start, or a pause that ends before it begins, gives no running time', async () => {
    const states = await statesOf(SHEET(['started: 2026-11-20T09:00:00Z', 'ended: 2026-11-20T08:00:00Z', 'pauses:', '  - from: 2026-11-20T08:30:00Z', '    to: 2026-11-20T08:10:00Z']));
    expect(states.cell('test')?.problems.map((problem) => problem.code)).toEqual(['record-end-order', 'record-pause-order']);
    expect(states.symbol('t_run')?.status).toBe('problem');
  });
});

describe('stamps', () => {
  it('are read with their offset, and nothing else is read', () => {
    expect(readStamp('2026-11-20T09:12:00+01:00')).toBe(Date.UTC(2026, 10, 20, 8, 12));
    expect(readStamp('2026-11-20T09:12Z')).toBe(Date.UTC(2026, 10, 20, 9, 12));
    for (const text of ['', '2026-11-20', 'now', '2026-13-20T09:12:00Z', '2026-11-20T25:12:00Z', '20.11.2026 09:12']) expect(readStamp(text)).toBeUndefined();
  });
});

describe('a machine that is left to itself', () => {
  const alone = (...readings: readonly string[]): ReturnType<typeof leftAlone> => {
    const [block] = parseSheet(`\`\`\`record\nid: test\nstarted: 2026-11-20T09:00:00Z\nreadings:\n${readings.join('\n')}\n\`\`\`\n`).blocks;
    if (block?.kind !== 'cell' || block.cell.kind !== 'record') throw new Error('no record');
    return leftAlone(block.cell);
  };
  const [left, read, back] = [
    '  - at: 2026-11-20T18:00:00Z\n    left: 2 of 6', '  - at: 2026-11-20T19:00:00Z\n    counter: 300', '  - at: 2026-11-21T08:00:00Z\n    back: yes\n    counter: 900',
  ] as const;

  it('is alone from the entry that says so until one that says that somebody is back, whatever is noted between', () => {
    expect(alone(read)).toBeUndefined();
    expect(alone(left, read)).toEqual({ since: Date.parse('2026-11-20T18:00:00Z'), open: '2 of 6' });
    expect(alone(left, read, back)).toBeUndefined();
    expect(alone(left, back, left)).toBeDefined();
  });
});

describe('a machine that was found standing', () => {
  // 600 000 revolutions at 3000 rev/min take 200 min: from 18:00 to 21:20.
  const found = (...more: readonly string[]): number | undefined => {
    const lines = ['started: 2026-11-20T18:00:00Z', 'ended: 2026-11-21T08:00:00Z', 'counter_start: 0', 'counter_end: 6000', 'counter_multiplier: 100', ...more, 'frozen:', '  N_f: 90000 cycles', '  n: 3000 rev/min'];
    const block = parseSheet(SHEET(lines)).blocks.at(-1);
    if (block?.kind !== 'cell' || block.cell.kind !== 'record') throw new Error('no record');
    return stoodStillSince(block.cell);
  };
  const LEFT = ['readings:', '  - at: 2026-11-20T18:10:00Z', '    left: 0 of 6'];

  it('stood since when counter and speed say', () => {
    expect(found(...LEFT)).toBe(Date.parse('2026-11-20T21:20:00Z'));
    // The counter as it was read on coming back says the same.
    expect(found(...LEFT, '  - at: 2026-11-21T07:50:00Z', '    back: yes', '    counter: 6000')).toBe(Date.parse('2026-11-20T21:20:00Z'));
  });

  it('is said of none that somebody was with, that ran on, or that was paused meanwhile', () => {
    expect(found()).toBeUndefined();
    expect(found(...LEFT, '  - at: 2026-11-21T07:50:00Z', '    back: yes', '    counter: 5900')).toBeUndefined();
    expect(found(...LEFT, 'pauses:', '  - from: 2026-11-20T22:00:00Z', '    to: 2026-11-21T07:00:00Z')).toBeUndefined();
  });
});
