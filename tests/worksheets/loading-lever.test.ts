/**
 * The lever sheet held against statics. Hand-worked cases: the law of the lever and the lever safety valve as statics
 * textbooks set them (figures from memory, worked by hand beside each). Random set-ups: equilibrium of the beam solved
 * apart, with moments about the hanger instead of the fulcrum.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const text = shipped('loading-lever');

/** Weights typed in newtons, none there until said. */
const BARE = { weighed: 'newtons', P_1: '0 N', P_2: '0 N', P_3: '0 N', P_b: '0 N', P_c: '0 N', P_h: '0 N' };

describe('hand-worked levers', () => {
  it('law of the lever: 10 lbf at 12 in holds 60 lbf at 2 in', async () => {
    const states = await solved({ ...BARE, P_1: '10 lbf', x_1: '12 in', h: '2 in' }, text);
    expect(numberOf(states, 'F') / 4.4482216152605).toBeCloseTo(60, 12);
    // The fulcrum holds the beam down with what the hanger pulls more than the weight: 10 - 60 = -50 lbf.
    expect(numberOf(states, 'R_O') / 4.4482216152605).toBeCloseTo(-50, 12);
  });

  it('lever safety valve: a uniform lever of 40 N, 800 mm long, weight 150 N at 700 mm, valve at 80 mm', async () => {
    // 150·700 + 40·400 = 121 000 N·mm; /80 mm = 1512.5 N.
    const states = await solved({ ...BARE, P_1: '150 N', x_1: '700 mm', P_b: '40 N', g_b: '400 mm', h: '80 mm' }, text);
    expect(numberOf(states, 'F')).toBeCloseTo(1512.5, 9);
  });

  it('three weights, own weight, counterweight, fixture', async () => {
    // 20·400 + 5·300 + 1·100 + 8·150 - 10·120 = 9600 N·mm; /50 mm = 192 N; with 6 N of housings 198 N; empty: 0/50 + 6 N.
    const states = await solved({
      weighed: 'newtons', P_1: '20 N', x_1: '400 mm', P_2: '5 N', x_2: '300 mm', P_3: '1 N', x_3: '100 mm', P_b: '8 N', g_b: '150 mm',
      P_c: '10 N', h_c: '120 mm', h: '50 mm', P_h: '6 N',
    }, text);
    expect(numberOf(states, 'F')).toBeCloseTo(192, 9);
    expect(numberOf(states, 'W')).toBeCloseTo(198, 9);
    expect(numberOf(states, 'F_e')).toBeCloseTo(6, 9);
  });

  it('a wanted stress asks for the load W = 2M/a with M = pi d^3 sigma/32', async () => {
    // d = 8 mm, a = 100 mm, 300 MPa: M = pi·512·300/32 = 15 079.6 N·mm, W = 301.593 N.
    const states = await solved({ wanted: 'stress', sigma_t: '300 MPa', d: '8 mm', a: '100 mm' }, text);
    expect(numberOf(states, 'F_w')).toBeCloseTo(301.593, 3);
  });
});

const length = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });
const setUps = fc.record({
  P_1: length(1, 200), P_2: length(1, 80), P_3: length(0.2, 20), P_b: length(0, 40), P_c: length(0, 60), P_h: length(0, 60),
  x_1: length(0.02, 0.9), x_2: length(0.02, 0.9), x_3: length(0.02, 0.9), g_b: length(-0.2, 0.6), h_c: length(0.02, 0.4), h: length(0.02, 0.15),
});
const UNITS: Record<string, string> = { x: 'm', g: 'm', h: 'm', P: 'N' };

function settings(values: Readonly<Record<string, number>>): Record<string, string> {
  return { weighed: 'newtons', ...Object.fromEntries(Object.entries(values).map(([symbol, value]) => [symbol, `${value} ${UNITS[symbol.charAt(0)]}`])) };
}

describe('weights from masses', () => {
  it('weigh what the same weights in newtons do, and share the error of gravity', async () => {
    const masses = { m_1: '4 ± 0 kg', m_2: '1 ± 0 kg', m_3: '0.2 ± 0 kg', m_b: '0.9 ± 0 kg', m_c: '0 ± 0 kg', m_h: '1.4 ± 0 kg', g: '9.8 ± 0.0098 m/s^2' };
    const places = { x_1: '390 ± 0 mm', x_2: '250 ± 0 mm', x_3: '150 ± 0 mm', g_b: '180 ± 0 mm', h: '60 ± 0 mm' };
    const [byMass, byWeight] = await Promise.all([
      solved({ ...masses, ...places }, text),
      solved({ weighed: 'newtons', P_1: '39.2 N', P_2: '9.8 N', P_3: '1.96 N', P_b: '8.82 N', P_c: '0 N', P_h: '13.72 N', ...places }, text),
    ]);
    expect(numberOf(byMass, 'W') / numberOf(byWeight, 'W')).toBeCloseTo(1, 12);
    // Every weight is as much off as g is: 0.1 % of the whole, not the root of the squares.
    expect(uncertaintyOf(byMass, 'W') / numberOf(byMass, 'W')).toBeCloseTo(1e-3, 9);
  });

  it('the formula for gravity in the note gives what is published: 9.780 at the equator, 9.806 at 45°, 9.832 at the poles', async () => {
    // International gravity formula 1967: 9.780318 (1 + 0.0053024 sin²φ − 0.0000059 sin²2φ) m/s², from memory; three digits are in every handbook.
    const note = /9\.7803 m\/s² \(1 \+ (0\.0053) sin² of the latitude\)/.exec(text);
    const gravity = (latitude: number): number => 9.7803 * (1 + Number(note?.[1]) * Math.sin((latitude * Math.PI) / 180) ** 2);
    expect([0, 45, 90].map((latitude) => Number(gravity(latitude).toFixed(3)))).toEqual([9.78, 9.806, 9.832]);
  });
});

describe('random set-ups', () => {
  it('are in equilibrium: the fulcrum reaction from moments about the hanger', async () => {
    await fc.assert(fc.asyncProperty(setUps, async (v) => {
      const states = await solved(settings(v), text);
      const forces = [[v.P_1, v.x_1], [v.P_2, v.x_2], [v.P_3, v.x_3], [v.P_b, v.g_b], [v.P_c, -v.h_c]] as const;
      const reaction = forces.reduce((sum, [weight, place]) => sum + (weight * (v.h - place)) / v.h, 0);
      const size = forces.reduce((sum, [weight, place]) => sum + weight * (1 + Math.abs(place) / v.h), 0);
      expect(Math.abs(numberOf(states, 'R_O') - reaction)).toBeLessThan(1e-12 * size);
    }), { numRuns: 25 });
  });

  it.each(['first', 'second', 'third'])('forward and inverse agree: the %s weight, put where the sheet says, gives the wanted load', async (move) => {
    const wanted = length(20, 3000);
    await fc.assert(fc.asyncProperty(setUps, wanted, async (v, load) => {
      const before = await solved({ ...settings(v), move, wanted: 'load', F_t: `${load} N` }, text);
      const place = numberOf(before, 'x_w');
      fc.pre(place >= 0);
      const symbol = { first: 'x_1', second: 'x_2', third: 'x_3' }[move] ?? '';
      const after = await solved({ ...settings(v), move, F_t: `${load} N`, [symbol]: `${place} m` }, text);
      expect(Math.abs(numberOf(after, 'W') / load - 1)).toBeLessThan(1e-9);
      expect(Math.abs(numberOf(after, 'x_w') / place - 1)).toBeLessThan(1e-9);
    }), { numRuns: 15 });
  });

  it('the same for a wanted stress', async () => {
    await fc.assert(fc.asyncProperty(setUps, length(80, 600), length(5, 12), async (v, stress, d) => {
      const set = { ...settings(v), wanted: 'stress', sigma_t: `${stress} MPa`, d: `${d} mm`, a: '110 mm' };
      const place = numberOf(await solved(set, text), 'x_w');
      fc.pre(place >= 0);
      const after = await solved({ ...set, x_1: `${place} m` }, text);
      expect(Math.abs(numberOf(after, 'sigma_a') / (stress * 1e6) - 1)).toBeLessThan(1e-9);
    }), { numRuns: 15 });
  });
});

describe('what the sheet says', () => {
  it('has no cell in error as delivered, and every check holds', async () => {
    const document = parseSheet(text);
    expect(serialiseSheet(document)).toBe(text);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    graph.dispose();
    for (const { id } of document.blocks) {
      expect(states.cell(id)?.problems ?? [], id).toEqual([]);
      expect(states.cell(id)?.check?.holds ?? true, id).toBe(true);
    }
  });

  it('not within travel: says so and gives the nearest place and its load', async () => {
    const states = await solved({ ...BARE, P_1: '10 N', x_1: '200 mm', h: '50 mm', F_t: '120 N', x_min: '100 mm', x_max: '400 mm' }, text);
    // 120 N·50 mm/10 N = 600 mm; at 400 mm the load is 80 N.
    expect(holds(states, 'reachable')).toBe(false);
    expect(states.cell('reachable')?.check?.message).toContain('Not within travel');
    expect(numberOf(states, 'x_w')).toBeCloseTo(0.6, 12);
    expect(numberOf(states, 'x_n')).toBeCloseTo(0.4, 12);
    expect(numberOf(states, 'W_n')).toBeCloseTo(80, 9);
  });

  it('the ends of the travel in the wrong order', async () => {
    expect(holds(await solved({ x_min: '450 mm', x_max: '90 mm' }, text), 'travel-ends')).toBe(false);
  });

  it('weights in the wrong order: one would have to pass another', async () => {
    // Second weight at 250 mm, first at 391.5 mm: a fifth of the load asks the first to go inside the second.
    expect(holds(await solved({ F_t: '150 N' }, text), 'way-clear')).toBe(false);
    expect(holds(await solved({ F_t: '150 N', m_2: '0 kg', m_3: '0 kg' }, text), 'way-clear')).toBe(true);
  });

  it('a weight of nothing is not moved anywhere', async () => {
    const states = await solved({ move: 'third', m_3: '0 kg' }, text);
    expect(states.symbol('x_w')).toMatchObject({ status: 'problem', problem: { code: 'not-valid' } });
    expect(numberOf(states, 'W')).toBeGreaterThan(0);
  });

  it('as read against as set: tolerance and uncertainty', async () => {
    const off = await solved({ F_i: '330 N' }, text);
    expect([holds(off, 'read-tolerance'), holds(off, 'read-uncertainty')]).toEqual([false, false]);
  });

  it('sensitivity: one weight moved by 1 mm changes by W_m/h', async () => {
    const at = async (place: string) => numberOf(await solved({ x_1: place }, text), 'W');
    const change = (await at('392 mm')) - (await at('391 mm'));
    expect(change / (numberOf(await solved({}, text), 'k_x') * 1e-3)).toBeCloseTo(1, 9);
  });

  it('the uncertainty of the load is the root of the summed squares, by hand', async () => {
    const exact = { ...BARE, P_1: '10 ± 0.1 N', x_1: '300 ± 1 mm', h: '60 ± 0.3 mm' };
    // F = 50 N; relative: 1 %, 1/3 %, 1/2 %.
    expect(uncertaintyOf(await solved(exact, text), 'F') / 50).toBeCloseTo(Math.hypot(0.01, 1 / 300, 0.005), 9);
  });
});
