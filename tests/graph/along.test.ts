import { describe, expect, it } from 'vitest';
import { chainOf, createSheetGraph, evaluateAlong, type Chain, type SheetStates } from '../../src/graph/index.ts';
import { withTexts } from '../worksheets/solved.ts';
import { shipped } from '../shipped.ts';

const ROTATING = shipped('rotating-bending');

async function chainAt(text: string, settings: Readonly<Record<string, string>> = {}): Promise<{ chain: Chain; states: SheetStates }> {
  const graph = createSheetGraph(withTexts(text, settings));
  const states = await graph.settled();
  const chain = chainOf(graph.compiled(), states);
  graph.dispose();
  return { chain, states };
}

const valueOf = (states: SheetStates, symbol: string): number => {
  const state = states.symbol(symbol);
  return state?.status === 'value' ? state.estimate.value : Number.NaN;
};

describe('the sheet along other values of its inputs', () => {
  it('gives at each place what the sheet itself gives with that value typed in', async () => {
    const { chain } = await chainAt(ROTATING);
    const diameters = [7, 7.4, 8];
    const found = evaluateAlong(structuredClone(chain), new Map([['d', Float64Array.from(diameters, (d) => d / 1000)]]), 3);
    for (const [place, d] of diameters.entries()) {
      const { states } = await chainAt(ROTATING, { d: `${d} mm` });
      for (const symbol of ['I', 'sigma_a', 'k_b', 'S_e', 'B', 'A', 'K_f']) {
        const column = found.get(symbol);
        const there = typeof column === 'number' ? column : column?.[place] ?? Number.NaN;
        expect(there / valueOf(states, symbol) - 1, `${symbol} at ${d} mm`).toBeCloseTo(0, 11);
      }
    }
    // What does not hang on the diameter stays one number.
    expect(typeof found.get('R_A')).toBe('number');
    expect(typeof found.get('M_s')).toBe('number');
  });

  it('asks ranges and validity only where it is told to', async () => {
    const { chain } = await chainAt(ROTATING);
    const thick = new Map([['d', Float64Array.of(0.0074, 0.03)]]);
    const along = (within: boolean) => evaluateAlong(chain, thick, 2, { wanted: ['N_f'], within }).get('N_f') as Float64Array;
    expect(along(false).every(Number.isFinite)).toBe(true);
    // At 30 mm the stress is far below the endurance limit, where the sheet shows no life.
    expect([...along(true)].map(Number.isFinite)).toEqual([true, false]);
    expect((await chainAt(ROTATING, { d: '30 mm' })).states.symbol('N_f')?.status).toBe('range');
  });

  it('has values elsewhere for what has none at present', async () => {
    const { chain } = await chainAt(ROTATING, { d: '30 mm' });
    const life = evaluateAlong(chain, new Map([['d', Float64Array.of(0.0074, 0.03)]]), 2, { wanted: ['N_f'], within: true }).get('N_f');
    expect(typeof life === 'object' && life[0]).toBeCloseTo(valueOf((await chainAt(ROTATING, { d: '7.4 mm' })).states, 'N_f'), 2);
    expect(typeof life === 'object' && life[1]).toBeNaN();
  });

  it('works out no more than what is wanted, and takes a step from a column that is handed in for it', async () => {
    const { chain } = await chainAt(ROTATING);
    const stress = Float64Array.of(300e6, 400e6, 500e6);
    const found = evaluateAlong(chain, new Map([['sigma_a', stress]]), 3, { wanted: ['N_f', 'no_such_symbol'] });
    expect([...found.keys()]).toEqual(['N_f']);
    const { states } = await chainAt(ROTATING);
    const [A, B, K] = ['A', 'B', 'K_f'].map((symbol) => valueOf(states, symbol));
    for (const [i, life] of (found.get('N_f') as Float64Array).entries()) {
      expect(life / 10 ** ((A as number) + (B as number) * Math.log10(((K as number) * (stress[i] as number)) / 1e6)) - 1).toBeCloseTo(0, 10);
    }
    expect([...stress]).toEqual([300e6, 400e6, 500e6]);
  });

  it('goes past the length of one block, and moves a result whose derivative happens to be zero', async () => {
    const text = ['```given', 'symbol: x', 'value: 0 ± 0.1', 'unit: "1"', 'possible: any', '```', '', '```step', 'symbol: y', 'formula: x^2', '```', ''].join('\n');
    const { chain } = await chainAt(text);
    const x = Float64Array.from({ length: 5000 }, (_, i) => i);
    const y = evaluateAlong(chain, new Map([['x', x]]), 5000).get('y');
    expect(typeof y === 'object' && [y[0], y[1], y[2047], y[2048], y[4999]]).toEqual([0, 1, 2047 ** 2, 2048 ** 2, 4999 ** 2]);
  });
});

it('what has no formula may hang on as many inputs as a sheet can have', () => {
  const count = 9_998;
  const inputs = Array.from({ length: count }, (_, i) => ({ symbol: `x_${i}`, value: 1, uncertainty: 0 }));
  const slopes = inputs.map(({ symbol }) => ({ symbol, at: 1, derivative: 0.5 }));
  const chain: Chain = { links: [...inputs, { symbol: 'y', value: 7, uncertainty: 0, rule: { kind: 'tangent', slopes } }] };
  const moved = new Map(inputs.map(({ symbol }) => [symbol, Float64Array.of(1, 3)]));
  expect(evaluateAlong(chain, moved, 2, { wanted: ['y'] }).get('y')).toEqual(Float64Array.of(7, 7 + count));
});
