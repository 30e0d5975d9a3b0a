/** A trial value counts in place of what was measured, which stays and is told beside it. */
import { describe, expect, test } from 'vitest';
import { standardUncertainty } from '../../src/core/estimate/index.ts';
import { createSheetGraph } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';

async function states(text: string) {
  const graph = createSheetGraph(parseSheet(text));
  const settled = await graph.settled();
  graph.dispose();
  return settled;
}

const given = (lines: string, symbol = 's'): string => `\`\`\`given\nid: ${symbol}\nsymbol: ${symbol}\nunit: mm\n${lines}\n\`\`\`\n`;
const STEP = '```step\nid: twice\nsymbol: t\nformula: 2*s\nunit: mm\n```\n';
const READ = 'readings: 101.0, 101.5, 101.5, 101.0 mm\ninstrument: steel rule, 0.5 mm';

describe('a trial value', () => {
  test('is read as one value with the instrument’s uncertainty; what reads the symbol goes on with it', async () => {
    const [tried, alone, read] = await Promise.all([given(`${READ}\ntrial: 105 mm`), given('value: 105 mm\ninstrument: steel rule, 0.5 mm'), given(READ)]
      .map((text) => states(text + STEP)));
    const [a, b] = [tried?.symbol('t'), alone?.symbol('t')];
    if (a?.status !== 'value' || b?.status !== 'value') throw new Error('no value');
    expect(a.estimate.value).toBeCloseTo(0.21, 15);
    expect(standardUncertainty(a.estimate)).toBe(standardUncertainty(b.estimate));
    const reading = tried?.cell('s')?.reading;
    expect(reading?.readings).toEqual(read?.cell('s')?.reading?.readings);
    expect(reading?.aside).toEqual(read?.symbol('s'));
  });

  test('empty it is none', async () => {
    const [one, other] = await Promise.all([given(`${READ}\ntrial:`), given(READ)].map(states));
    expect(one?.symbol('s')).toEqual(other?.symbol('s'));
  });

  test('what can’t be read or can’t be is a problem of that key', async () => {
    for (const text of ['trial: a hand', 'trial: -1 mm', 'trial: 3 kg']) {
      const state = (await states(given(`${READ}\n${text}`))).cell('s');
      expect(state?.result?.status).toBe('problem');
      expect(state?.problems.map(({ key }) => key)).toEqual(['trial']);
    }
  });

  test('trouble with the readings themselves is told all the same', async () => {
    const state = (await states(given('readings: 101.0, about mm\ntrial: 105 mm'))).cell('s');
    expect(state?.result?.status).toBe('value');
    expect(state?.problems.map(({ key }) => key)).toEqual(['readings']);
  });

  test('of readings in pairs it leaves the pair: its scatter is none of the other’s', async () => {
    const pair = (trial: string): string => given(`readings: 1, 2, 3 mm\ntogether: run${trial}`) + given('readings: 2, 3, 4 mm\ntogether: run', 'r');
    const [both, tried] = await Promise.all([pair(''), pair('\ntrial: 5 mm')].map(states));
    expect(both?.cell('s')?.problems).toEqual([]);
    expect([...(tried?.cell('s')?.problems ?? []), ...(tried?.cell('r')?.problems ?? [])]).toEqual([]);
  });
});
