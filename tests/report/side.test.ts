/** What stands in view beside the sheet: chief results, the way to them, what is open, the contents, and what can be found. */
import { describe, expect, it } from 'vitest';
import { findInSheet, openWords, presentChain, presentChief, presentContents, presentStanding, presentSymbol, tellingGiven, type WholeContext } from '../../src/report/index.ts';
import { shipped } from '../shipped.ts';
import { contextOf, fenced, given } from './sheet-at.ts';

const step = (symbol: string, formula: string, unit: string, ...more: readonly string[]): string =>
  fenced('step', `symbol: ${symbol}`, `label: Label of ${symbol}`, `formula: ${formula}`, `unit: ${unit}`, ...more);

/** sigma by hand: 32 M/(pi d^3), M = F l; q stands aside. */
const SMALL = `---
title: Small
chief_results: sigma, q
---
# Small

## Measured

${given('F', '100 N', 'N')}${given('l', '50 mm', 'mm')}${given('d', '10 mm', 'mm')}${given('z', '', 'mm')}
## Worked out

The stress {=sigma} follows from **the moment** of the load.

${step('M', 'F*l', 'N*m')}${step('sigma', '32*M/(pi*d^3)', 'MPa')}${step('q', '2*d', 'mm')}
### In order?

${fenced('check', 'id: low', 'label: Low enough?', 'condition: sigma <= 10*unit(MPa)', 'holds: Low.', 'otherwise: The stress {=sigma} is high.')}
${fenced('check', 'id: unknown', 'label: Known?', 'condition: z > 0*unit(mm)', 'holds: Yes.', 'otherwise: No.')}
${fenced('checklist', 'id: list', 'label: To do', 'items:', '  - text: Guard closed', '    done: 2026-11-20T09:00:00+01:00', '  - Drop zone padded')}
`;

const small = (): Promise<WholeContext> => contextOf(SMALL);

describe('what stays in view', () => {
  it('has the chief results as the sheet itself shows them', async () => {
    const context = await small();
    const chief = presentChief(context);
    expect(chief.map(({ symbol, label, cellId }) => [symbol, label, cellId])).toEqual([['sigma', 'Label of sigma', 'sigma'], ['q', 'Label of q', 'q']]);
    for (const { symbol, result } of chief) expect(result).toBe(presentSymbol(symbol, context));
    // 32 · 5 N·m/(π · (10 mm)³) = 50.930 MPa, by hand.
    expect(chief[0]?.result).toMatchObject({ kind: 'value', unit: 'MPa', number: expect.stringMatching(/^50\.93/) });
  });

  it('tells no result that is still asked for, on the way to it neither', async () => {
    const context = await contextOf(SMALL.replace('title: Small', 'title: Small\nown_working: true'));
    const all = [...presentChief(context), ...presentChain('F', context)];
    expect(all.map(({ symbol, withheld, result }) => [symbol, withheld, result])).toEqual(
      ['sigma', 'q', 'M', 'sigma'].map((symbol) => [symbol, 'after your own working', undefined]));
    expect(presentStanding(context)).toMatchObject({ failing: [], waiting: ['low', 'unknown'] });
    expect(JSON.stringify(findInSheet('stress', context, 10))).not.toMatch(/50\.9/);
  });

  it('goes from a blank to the chief results by every result on the way and by no other', async () => {
    const context = await small();
    const way = (from: string): readonly string[] => presentChain(from, context).map(({ symbol }) => symbol);
    expect([way('F'), way('d'), way('z')]).toEqual([['M', 'sigma'], ['sigma', 'q'], []]);
  });

  it('goes from a choice by what its options set', async () => {
    const context = await contextOf(shipped('rotating-bending'));
    const choice = context.document.blocks.flatMap((block) => (block.kind === 'cell' && block.cell.kind === 'choice' && block.cell.options.some(({ sets }) => sets.has('W')) ? [block.id] : []))[0];
    const symbols = presentChain(choice ?? '', context).map(({ symbol }) => symbol);
    expect(symbols).toContain('sigma_a');
    expect(symbols).toContain('N_f');
    expect(symbols.indexOf('sigma_a')).toBeLessThan(symbols.indexOf('N_f'));
  });

  it('has how long the test lasts, and begins a first look at the blank that moves the first result most', async () => {
    const context = await contextOf(shipped('rotating-bending'));
    expect(presentChief(context).map(({ symbol }) => symbol)).toEqual(['sigma_a', 'N_f', 't_f']);
    // sigma = 32 M/(pi d^3): the diameter counts by its third power, every other one by its first at most.
    expect(tellingGiven(context)).toBe('d');
    expect(tellingGiven(await contextOf('# Nothing here'))).toBeUndefined();
  });

  it('counts what does not hold, what waits and what is open', async () => {
    expect(presentStanding(await small())).toEqual({ failing: ['low'], waiting: ['unknown'], lists: ['list'], openItems: 1, items: 2 });
  });
});

describe('the contents', () => {
  it('are the numbered sections, with what is open in each', async () => {
    const sections = presentContents(await small());
    expect(sections.map(({ number, words, level }) => [number, words, level])).toEqual([['', 'Small', 1], ['1', 'Measured', 2], ['2', 'Worked out', 2], ['2.1', 'In order?', 3]]);
    expect(sections.map(openWords)).toEqual(['', '1 blank', '', '1 check, 1 tick']);
  });

  it('count results that are to be worked out as blanks', async () => {
    const sections = presentContents(await contextOf(SMALL.replace('title: Small', 'title: Small\nown_working: true')));
    expect(sections.map(openWords)).toEqual(['', '1 blank', '3 blanks', '1 tick']);
  });
});

describe('finding', () => {
  const found = async (query: string): Promise<readonly string[]> => findInSheet(query, await small(), 10).places.map(({ blockId, title }) => `${blockId}: ${title}`);

  it('finds a symbol by its name, in Greek letters too, before words that hold it', async () => {
    expect((await found('sigma'))[0]).toBe('sigma: Label of sigma');
    expect((await found('σ'))[0]).toBe('sigma: Label of sigma');
    expect((await found('M'))[0]).toBe('M: Label of M');
  });

  it('finds headings, labels, items of lists and words of prose with a line of what stands about them', async () => {
    expect(await found('padded')).toEqual(['list: To do']);
    expect((await found('in order'))[0]).toMatch(/: In order\?$/);
    const context = await small();
    const [place] = findInSheet('MOMENT of', context, 10).places;
    expect(place?.around?.join('|')).toMatch(/^… stress 50\.93.* follows from the \|moment of\| the load\.$/);
    expect(place?.number).toBe('2');
  });

  it('finds in every block of a long sheet, and counts what it does not list', async () => {
    const many = Array.from({ length: 3000 }, (_, i) => `Line ${i} about copper.\n`).join('\n');
    const context = await contextOf(`${many}\n${step('last_one', '1', '1')}`);
    expect(findInSheet('last', context, 5).places.map(({ blockId }) => blockId)).toEqual(['last_one']);
    expect(findInSheet('nothing of the kind', context, 5)).toEqual({ places: [], count: 0 });
    expect(findInSheet('   ', context, 5)).toEqual({ places: [], count: 0 });
  });
});
