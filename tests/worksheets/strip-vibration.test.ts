/** The strip's own frequency in the alternating-bending sheet, and what inertia adds to the stress, against beams by finite elements. */
import { describe, expect, test } from 'vitest';
import { shipped } from '../shipped.ts';
import { lowestFrequency, matrices, solveLinear, type Beam, type Element } from './beam-elements.ts';
import { holds, numberOf, solved } from './solved.ts';

const text = shipped('alternating-bending');
const COUNT = 80;
const [E, RHO, H, L, B] = [205e9, 7850, 0.003, 0.08, 0.02];
const SET = { section: 'rectangular', L_b: '80 mm', b: '20 mm', t: '3 mm', E: '205 GPa', rho_m: '7850 kg/m^3' };

function strip(width: (x: number) => number): Element[] {
  return Array.from({ length: COUNT }, (_, i) => {
    const w = width(((i + 0.5) / COUNT) * L);
    return { length: L / COUNT, EI: (E * w * H ** 3) / 12, mass: RHO * w * H };
  });
}

/** Clamped on the left; what holds the driven end or the middle besides its prescribed deflection. */
const uniform = strip(() => B);
const END = 2 * COUNT;
const CASES: readonly (readonly [support: string, beam: Beam, driven: number])[] = [
  ['cantilever', { elements: uniform, held: new Set([0, 1, END]) }, END],
  ['guided', { elements: uniform, held: new Set([0, 1, END, END + 1]) }, END],
  ['tapered', { elements: strip((x) => B * (1 - x / L)), held: new Set([0, 1, END]) }, END],
  ['centre', { elements: uniform, held: new Set([0, COUNT, END]) }, COUNT],
];

/** Bending moment at the left end of an element with the driven freedom moved by one, at an angular frequency. */
function momentAt(beam: Beam, driven: number, element: number, omega: number): number {
  const free: Beam = { ...beam, held: new Set([...beam.held].filter((freedom) => freedom !== driven)) };
  const { K, M } = matrices(free);
  const D = K.map((row, i) => row.map((value, j) => value - omega ** 2 * (M[i]?.[j] ?? 0)));
  const b = D.map((row) => -(row[driven] ?? 0));
  const held = D.map((row, i) => row.map((value, j) => (i === driven || j === driven ? Number(i === j) : value)));
  b[driven] = 1;
  const u = solveLinear(held, b);
  const { length: l, EI } = beam.elements[element] ?? { length: 1, EI: 0 };
  const [v_1 = 0, s_1 = 0, v_2 = 0, s_2 = 0] = u.slice(2 * element, 2 * element + 4);
  return (EI * (6 * (v_2 - v_1) - l * (4 * s_1 + 2 * s_2))) / l ** 2;
}

describe('the first natural frequency of the strip', () => {
  test.each(CASES)('%s, within half a per cent', async (support, beam) => {
    const states = await solved({ ...SET, support }, text);
    expect(Math.abs(numberOf(states, 'n_1') / lowestFrequency(beam) - 1)).toBeLessThan(0.005);
  });

  test('a round bar: radius of gyration d/4 in place of t/√12', async () => {
    const [flat, round] = await Promise.all([solved(SET, text), solved({ ...SET, section: 'round', d: '3 mm' }, text)]);
    expect(numberOf(round, 'n_1') / numberOf(flat, 'n_1')).toBeCloseTo(Math.sqrt(12) / 4, 9);
  });

  test('a strip waisted in its width: not above what finite elements give, and not far below', async () => {
    const states = await solved({ ...SET, support: 'waisted' }, text);
    const at = (symbol: string): number => numberOf(states, symbol);
    const [b, wide, middle, half, radius] = ['b', 'b_c', 'x_w', 'a_w', 'R_w'].map(at) as [number, number, number, number, number];
    const width = (x: number): number => (Math.abs(x - middle) < half ? b + 2 * radius - 2 * Math.sqrt(radius ** 2 - (x - middle) ** 2) : wide);
    const exact = lowestFrequency({ elements: strip(width), held: new Set([0, 1, END]) });
    expect(at('n_1') / exact).toBeLessThanOrEqual(1);
    expect(at('n_1') / exact).toBeGreaterThan(0.55);
  });
});

describe('what inertia adds', () => {
  test.each(CASES.flatMap(([support, beam, driven]) => [0.1, 0.3, 0.6].map((share) => [support, share, beam, driven] as const)))('%s at %d of its frequency: no more than the bound', async (support, share, beam, driven) => {
    const omega = share * lowestFrequency(beam) * 2 * Math.PI;
    // Where it is bent most: at the clamp, in the middle of three-point bending, along a taper.
    const places = { centre: [COUNT / 2], tapered: [0, COUNT / 4, COUNT / 2, (3 * COUNT) / 4] }[support] ?? [0];
    const added = Math.max(...places.map((place) => Math.abs(momentAt(beam, driven, place, omega) / momentAt(beam, driven, place, 0) - 1)));
    const states = await solved({ ...SET, support, n: `${share * numberOf(await solved({ ...SET, support }, text), 'n_1') * 60} cycles/min` }, text);
    expect(added).toBeLessThanOrEqual(numberOf(states, 'p_n'));
    expect(added).toBeGreaterThan(numberOf(states, 'p_n') / 3);
  });
});

test('the example is slow; a long thin strip driven fast is told', async () => {
  expect(holds(await solved({}, text), 'slow-enough')).toBe(true);
  const own = numberOf(await solved(SET, text), 'n_1') * 60;
  const at = async (share: number): Promise<boolean | undefined> => holds(await solved({ ...SET, n: `${share * own} cycles/min` }, text), 'slow-enough');
  expect(await Promise.all([0.049, 0.051, 0.79, 0.9, 1, 1.5].map(at))).toEqual([true, false, false, false, false, false]);
  const fast = await solved({ ...SET, L_b: '200 mm', t: '0.5 mm', n: '3000 cycles/min' }, text);
  expect(holds(fast, 'slow-enough')).toBe(false);
  expect(fast.symbol('p_n')?.status).not.toBe('value');
});
