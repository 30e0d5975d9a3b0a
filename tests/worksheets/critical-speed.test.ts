/** Eccentricity and critical speed of the rotating-bending sheet, against beams by finite elements and handbook cases. */
import { describe, expect, test } from 'vitest';
import { lowestFrequency, matrices, solveLinear, times, type Beam, type Element } from './beam-elements.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const E = 205e9;
const STEEL = 7850; // kg/m³
const round = (d: number): number => (Math.PI * d ** 4) / 64;

/** The shaft in millimetre-long pieces: its waist a circle of radius ρ, its mass where asked. */
function shaft(length: number, { d, D, rho, middle, heavy }: { readonly d: number; readonly D: number; readonly rho: number; readonly middle: number; readonly heavy: boolean }): Element[] {
  const count = 80;
  const l = length / count;
  return Array.from({ length: count }, (_, i) => {
    // Mean flexibility within the element, from 20 slices.
    let give = 0;
    for (let j = 0; j < 20; j += 1) {
      const x = Math.abs((i + (j + 0.5) / 20) * l - middle);
      const diameter = x < rho ? Math.min(D, d + 2 * (rho - Math.sqrt(rho ** 2 - x ** 2))) : D;
      give += 1 / (20 * E * round(diameter));
    }
    return { length: l, EI: 1 / give, mass: heavy ? (STEEL * Math.PI * D ** 2) / 4 : 0 };
  });
}

const simply = (elements: readonly Element[], lumped: ReadonlyMap<number, number>): Beam => ({ elements, lumped, held: new Set([0, 2 * elements.length]) });

/** Settings of the sheet for a shaft of 400 mm with E as above. */
const SET = {
  L: '400 mm', s_1: '100 mm', s_2: '200 mm', s_3: '100 mm', x_s: '200 mm', d: '7.5 mm', D: '12 mm', D_s: '12 mm', rho: '60 mm', E: '205 GPa', F: '300 N', F_0: '0 N', k_F: '0.5', g: '9.81 m/s^2',
};

describe('finite elements themselves', () => {
  // Clamped–free 1.8751², pinned–pinned π²: frequency factors of any table of beam vibrations.
  test.each([['clamped and free', [0, 1], 3.516015], ['on two supports', [0, 160], Math.PI ** 2]] as const)('%s', (_what, held, factor) => {
    const elements = Array.from({ length: 80 }, () => ({ length: 1 / 80, EI: 3, mass: 2 }));
    expect((lowestFrequency({ elements, held: new Set(held) }) * 2 * Math.PI) / Math.sqrt(3 / 2) / factor).toBeCloseTo(1, 5);
  });
});

describe('first critical speed', () => {
  test('a plain 12 mm shaft with rigid weights: about 940 rev/min by √(g/y), y = F a²(3L − 4a)/(6EI)', async () => {
    const states = await solved({ ...SET, d: '11.999999 mm', gear: 'rigid', F: '308.5 N' });
    const y = (154.25 * 0.1 ** 2 * (3 * 0.4 - 4 * 0.1)) / (6 * E * round(0.012));
    const byHand = (Math.sqrt(9.81 / y) / (2 * Math.PI)) * 60;
    expect(numberOf(states, 'n_c') * 60).toBeCloseTo(byHand, 1);
    expect(byHand).toBeGreaterThan(930);
    expect(byHand).toBeLessThan(970);
  });

  test.each([
    ['as in the example', {}, 0.015],
    ['a deep waist', { d: '5 mm' }, 0.015],
    ['a sharp waist in a thick shaft', { d: '7.5 mm', D: '20 mm', D_s: '20 mm', rho: '40 mm' }, 0.02],
    ['spans that differ by a tenth and weights that are not shared equally', { s_1: '105 mm', s_3: '95 mm', k_F: '0.45', x_s: '210 mm' }, 0.02],
    ['load points near the middle', { s_1: '150 mm', s_2: '100 mm', s_3: '150 mm' }, 0.015],
  ])('of weights that move along, by finite elements: %s', async (_what, changed, tolerance) => {
    const set = { ...SET, ...changed };
    const mm = (text: string): number => Number.parseFloat(text) / 1000;
    const states = await solved({ ...set, gear: 'rigid' });
    const elements = shaft(0.4, { d: mm(set.d), D: mm(set.D), rho: mm(set.rho), middle: mm(set.x_s), heavy: false });
    const total = 300 / 9.81;
    const share = Number(set.k_F);
    const lumped = new Map([[Math.round(mm(set.s_1) / 0.005), share * total], [80 - Math.round(mm(set.s_3) / 0.005), (1 - share) * total]]);
    expect(Math.abs(numberOf(states, 'n_c') / lowestFrequency(simply(elements, lumped)) - 1)).toBeLessThan(tolerance);
  });

  test('of housings on a spring, the shaft’s own mass among what moves along', async () => {
    const own = (STEEL * Math.PI * 0.012 ** 2 * 0.4) / 4;
    const states = await solved({ ...SET, gear: 'soft', m_h: `${0.5 + own} kg` });
    const elements = shaft(0.4, { d: 0.0075, D: 0.012, rho: 0.06, middle: 0.2, heavy: true });
    const exact = lowestFrequency(simply(elements, new Map([[20, 0.25], [60, 0.25]])));
    expect(Math.abs(numberOf(states, 'n_c') / exact - 1)).toBeLessThan(0.03);
  });
});

describe('inertia of what is not true', () => {
  test.each([[1000, 1.1], [3000, 9.9], [10000, 110]])('m e ω² of 5 kg and 0.02 mm at %d rev/min is %d N', async (speed, force) => {
    const states = await solved({ ...SET, gear: 'rigid', i_v: '1', F: `${5 * 9.81} N`, e: '0.02 mm', n: `${speed} rev/min` });
    // Worked by hand: 5 · 2·10⁻⁵ · (2π n/60)².
    expect(numberOf(states, 'F_i')).toBeCloseTo(5 * 2e-5 * ((2 * Math.PI * speed) / 60) ** 2, 9);
    expect(Math.abs(numberOf(states, 'F_i') / force - 1)).toBeLessThan(0.02);
  });

  test.each([['soft', 2000], ['soft', 3600], ['rigid', 400], ['rigid', 2800]])('the bound holds the force by finite elements: %s, %d rev/min', async (gear, speed) => {
    const states = await solved({ ...SET, gear, k_h: '0.1 N/mm', zeta: '0.001', n: `${speed} rev/min`, e: '0.02 mm' });
    const elements = shaft(0.4, { d: 0.0075, D: 0.012, rho: 0.06, middle: 0.2, heavy: false });
    const half = gear === 'soft' ? 0.45 : 150 / 9.81;
    const { K, M } = matrices(simply(elements, new Map([[20, half], [60, half]])));
    // Load points lifted by e in step with the turning shaft: (K − ω²M) y = ω²M e; the force is ω² m (y + e), both together.
    const square = ((2 * Math.PI * speed) / 60) ** 2;
    const lift = K.map((_row, i) => (i === 40 || i === 120 ? 2e-5 : 0));
    const y = solveLinear(K.map((row, i) => row.map((value, j) => value - square * (M[i]?.[j] ?? 0))), times(M, lift).map((value) => square * value));
    const force = Math.abs(square * half * ((y[40] ?? 0) + (y[120] ?? 0) + 4e-5));
    expect(Math.abs(numberOf(states, 'F_b') / force - 1)).toBeLessThan(0.04);
  });

  test('a dashpot takes the peak down to 1/(2ζ)', async () => {
    const speed = numberOf(await solved(SET), 'n_c') * 60;
    const states = await solved({ ...SET, n: `${speed} rev/min`, zeta: '0.2' });
    expect(numberOf(states, 'F_b') / numberOf(states, 'F_i')).toBeCloseTo(2.5, 9);
  });

  test('its bound stands in the budget of the stress as a rectangular share, and only there', async () => {
    const [with_, without] = [await solved({}), await solved({ inertia: 'left-out' })];
    expect(numberOf(with_, 'sigma_a')).toBe(numberOf(without, 'sigma_a'));
    const added = Math.sqrt(uncertaintyOf(with_, 'sigma_a') ** 2 - uncertaintyOf(without, 'sigma_a') ** 2);
    expect(added / (numberOf(with_, 'sigma_b') / Math.sqrt(3))).toBeCloseTo(1, 6);
  });
});

describe('what the sheet says of it', () => {
  test('the example runs clear, and would not with rigid weights', async () => {
    const states = await solved({});
    expect([holds(states, 'clear-of-critical'), holds(states, 'weights-still')]).toEqual([true, true]);
    expect(numberOf(states, 'n_r')).toBeLessThan(numberOf(states, 'n'));
    const rigid = await solved({ gear: 'rigid' });
    expect(holds(rigid, 'clear-of-critical')).toBe(false);
    expect(rigid.cell('clear-of-critical')?.check?.message).toContain('every start and stop goes through the resonance');
  });

  test.each([[0.79, true], [0.81, false], [1.1, false], [3, false]])('%d of the critical speed is clear: %s', async (share, clear) => {
    const speed = share * numberOf(await solved({}), 'n_c') * 60;
    expect(holds(await solved({ n: `${speed} rev/min` }), 'clear-of-critical')).toBe(clear);
  });

  test('weights on a stiff spring follow', async () => {
    expect(holds(await solved({ k_h: '200 N/mm', n: '1500 rev/min' }), 'weights-still')).toBe(false);
  });
});

describe('the load from masses', () => {
  test('m g, as by hand: 2.000 kg and five of 0.500 kg at standard gravity are 44.129925 N', async () => {
    const states = await solved({ load: 'masses', m_W: '4.5 ± 0 kg', g: '9.80665 ± 0 m/s^2', F_h: '0 N' });
    expect(numberOf(states, 'W')).toBeCloseTo(44.129925, 12);
  });

  test('the uncertainty of gravity comes on top: 0.01 in 9.81 is 0.1 %', async () => {
    const states = await solved({ load: 'masses', m_W: '30 ± 0 kg', g: '9.81 ± 0.00981 m/s^2', F_h: '0 N' });
    expect(uncertaintyOf(states, 'W') / numberOf(states, 'W')).toBeCloseTo(1e-3, 12);
  });

  test('three ways to say one load agree in the example', async () => {
    const loads = await Promise.all([{}, { load: 'masses' }, { load: 'weights', F: '294.5 N' }].map(async (set) => numberOf(await solved(set), 'W')));
    for (const load of loads) expect(Math.abs(load / 308.5 - 1)).toBeLessThan(1e-3);
  });

  test('a verified load is what is read less its zero, times the factor', async () => {
    const states = await solved({ load: 'verified', F: '310 ± 0 N', F_0: '2 ± 0 N', c_v: '0.99 ± 0.005' });
    expect(numberOf(states, 'W')).toBeCloseTo(0.99 * 308, 12);
    expect(uncertaintyOf(states, 'W')).toBeCloseTo(0.005 * 308, 9);
  });
});
