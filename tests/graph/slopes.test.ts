import { describe, expect, it } from 'vitest';
import { createSheetGraph, elasticityBetween, evaluateAlong, chainOf, slopesAround, type SheetStates } from '../../src/graph/index.ts';
import { parseSheet } from '../../src/sheet/index.ts';
import { given, step } from '../report/sheet-at.ts';
import { shipped } from '../shipped.ts';

async function statesOf(text: string): Promise<SheetStates> {
  const graph = createSheetGraph(parseSheet(text));
  const states = await graph.settled();
  graph.dispose();
  return states;
}

/** d ln y / d ln x both ways round, which have to be the same. */
function elasticity(x: string, y: string, states: SheetStates): number | undefined {
  const down = slopesAround(x, states).downstream.get(y);
  const up = slopesAround(y, states).upstream.get(x);
  if (down === undefined || up === undefined) return undefined;
  expect(Math.abs(down - up)).toBeLessThanOrEqual(1e-12 * Math.abs(down));
  return elasticityBetween(down, x, y, states);
}

describe('elasticities along the chain', () => {
  it('32 M/(π d³) moves by −3 % per 1 % of d and 1 % per 1 % of M', async () => {
    const states = await statesOf(given('M', '12 N*m', 'N*m') + given('d', '7.52 mm', 'mm') + step('sigma', '32*M/(pi*d^3)', 'MPa'));
    expect(elasticity('d', 'sigma', states)).toBeCloseTo(-3, 12);
    expect(elasticity('M', 'sigma', states)).toBeCloseTo(1, 12);
  });

  it('a life of (σ/a)^(1/b) moves by 1/b % per 1 % of σ, and by −3/b per 1 % of d by way of it', async () => {
    const states = await statesOf(
      given('M', '12 N*m', 'N*m') + given('d', '7.52 mm', 'mm') + given('a', '1500 MPa', 'MPa') + given('b', '-0.085', '1')
      + step('Z', 'pi*d^3/32', 'mm^3') + step('sigma', 'M/Z', 'MPa') + step('N', '(sigma/a)^(1/b)', '1'));
    expect(elasticity('sigma', 'N', states)).toBeCloseTo(1 / -0.085, 10);
    expect(elasticity('d', 'N', states)).toBeCloseTo(-3 / -0.085, 9);
    expect(elasticity('Z', 'N', states)).toBeCloseTo(-1 / -0.085, 10);
  });

  it('goes by every way there is, and adds them up', async () => {
    // y = p − q with p = 2x, q = 2x: nothing is left; z = p q = 4x² : 2.
    const states = await statesOf(given('x', '3 mm', 'mm') + step('p', '2*x', 'mm') + step('q', 'x+x', 'mm') + step('y', '10*unit(mm) + p - q', 'mm') + step('z', 'p*q', 'mm^2'));
    expect(elasticity('x', 'y', states)).toBe(0);
    expect(elasticity('x', 'z', states)).toBeCloseTo(2, 12);
    expect(elasticity('p', 'z', states)).toBeCloseTo(1, 12);
  });

  it('is no connection through u(x), and none through what has no value', async () => {
    const states = await statesOf(given('x', '3 ± 0.1 mm', 'mm') + step('y', 'u(x)', 'mm') + step('z', 'x/(x - x)', '1') + step('w', 'z + x/unit(mm)', '1'));
    expect([...slopesAround('x', states).downstream.keys()]).toEqual([]);
    expect([...slopesAround('w', states).upstream.keys()]).toEqual([]);
  });

  it('is none for a loop, and ends', async () => {
    const states = await statesOf(given('x', '3 mm', 'mm') + step('p', 'q + x', 'mm') + step('q', 'p', 'mm'));
    expect(slopesAround('x', states).downstream.size).toBe(0);
  });

  it('there is no percentage of zero', async () => {
    const states = await statesOf(given('x', '0 mm', 'mm') + given('a', '1 mm', 'mm') + step('y', 'a + x', 'mm') + step('z', 'x*a', 'mm^2'));
    expect(slopesAround('x', states).downstream.get('y')).toBe(1);
    expect(elasticity('x', 'y', states)).toBeUndefined();
    expect(elasticity('a', 'z', states)).toBeUndefined();
  });
});

it('agrees with differences over the whole rotating-bending sheet, from each input and from results on the way', async () => {
  const document = parseSheet(shipped('rotating-bending'));
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  const chain = chainOf(graph.compiled(), states);
  let compared = 0;
  for (const x of ['d', 's_1', 's_2', 's_3', 'L', 'F', 'F_0', 'x_s', 'S_ut', 'R_A', 'M_s', 'sigma_a', 'A', 'B']) {
    const state = states.symbol(x);
    const at = state?.status === 'value' ? state.estimate.value : Number.NaN;
    const h = 1e-5 * Math.abs(at);
    // Central differences of fourth order, off by about 1e-12 relative plus rounding over h.
    const columns = evaluateAlong(chain, new Map([[x, Float64Array.of(at - 2 * h, at - h, at + h, at + 2 * h)]]), 4);
    const { downstream } = slopesAround(x, states);
    for (const y of states.symbols) {
      const column = columns.get(y);
      if (y === x || typeof column !== 'object' || states.symbol(y)?.status !== 'value') continue;
      const [a = 0, b = 0, c = 0, d = 0] = column;
      const difference = (a - 8 * b + 8 * c - d) / (12 * h);
      const scale = Math.max(Math.abs(difference), Math.abs(b / h) * 1e-8);
      expect(Math.abs((downstream.get(y) ?? 0) - difference), `d ${y} / d ${x}`).toBeLessThanOrEqual(1e-4 * scale);
      compared++;
    }
  }
  graph.dispose();
  expect(compared).toBeGreaterThan(150);
});
