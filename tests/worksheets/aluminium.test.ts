/**
 * Metals without an endurance limit: the line of each sheet against one worked out here from the fatigue strength at 5·10⁸ cycles, its interval against
 * curves that other sources give for the same alloys, and that steel's factors are refused.
 */
import { describe, expect, test } from 'vitest';
import { createRandom } from '../../src/core/numeric/index.ts';
import { shipped } from '../shipped.ts';
import { numberOf, sheetText, solved, uncertaintyOf } from './solved.ts';

const alternating = shipped('alternating-bending');

/** Typical properties, rotating beam, 5·10⁸ cycles (Aluminum Association, from memory): tensile and fatigue strength, MPa. */
const ALLOYS = { '2024-T4': [476, 138], '6061-T6': [310, 97], '7075-T6': [572, 159] } as const;

/** Straight in logarithms from 0.9 of the tensile strength at 10³ cycles to the fatigue strength at 5·10⁸ (Norton, Machine Design, from memory). */
function life(stress: number, tensile: number, strength: number, fraction = 0.9): number {
  const slope = Math.log(5e5) / Math.log((fraction * tensile) / strength);
  return 5e8 * (strength / stress) ** slope;
}

/** Lives that other sources give. 6061-T6: Yahr, J. Pressure Vessel Technol. 119 (1997); the others: Dowling, 4th ed., table 9.1, and from memory; MPa. */
const OTHERS: Readonly<Record<keyof typeof ALLOYS, (stress: number) => number>> = {
  '2024-T4': (stress) => (stress / 900) ** (-1 / 0.102) / 2,
  '6061-T6': (stress) => (14479 / (stress - 96.5)) ** 2,
  '7075-T6': (stress) => (stress / 1466) ** (-1 / 0.143) / 2,
};

describe('a line for aluminium', () => {
  test('6061-T6 at 120 N lasts about 4·10⁶ cycles, where rules for steel gave 5·10⁷', async () => {
    const states = await solved({ material: '6061-T6', F: '120 N' });
    const stress = numberOf(states, 'sigma_a') / 1e6;
    const strength = 97 * numberOf(states, 'k_b');
    expect(numberOf(states, 'N_f') / life(stress, 310, strength)).toBeCloseTo(1, 9);
    expect(numberOf(states, 'N_f') / 4e6).toBeGreaterThan(0.9);
    expect(numberOf(states, 'N_f') / 4e6).toBeLessThan(1.1);
  });

  test.each(Object.entries(ALLOYS))('%s: its interval holds the life by another published curve', async (material, [tensile, strength]) => {
    for (const share of [1.4, 1.6, 1.9, 2.2]) {
      const stress = share * strength;
      // Force for this stress in a cantilever of 100 by 4 mm, whose stroke gives 120 MPa a millimetre at 200 GPa.
      const stroke = stress / 120;
      const states = await solved({
        material, E: '200 GPa', L_b: '100 mm', t: '4 mm', b: '10 mm', z_0: '0 mm', z_1: `${-stroke} mm`, z_2: `${stroke} mm`,
      }, alternating);
      expect(numberOf(states, 'sigma_ar') / 1e6 / stress).toBeCloseTo(1, 9);
      expect(numberOf(states, 'N_f') / life(stress, tensile, strength * numberOf(states, 'k_b'))).toBeCloseTo(1, 8);
      const other = OTHERS[material as keyof typeof ALLOYS](stress);
      expect(other / numberOf(states, 'N_lo'), `${stress} MPa`).toBeGreaterThan(1);
      expect(other / numberOf(states, 'N_hi'), `${stress} MPa`).toBeLessThan(1);
    }
  });

  test('the interval holds 93 to 97 % of lives drawn from what is stated as uncertain', async () => {
    const states = await solved({ material: '6061-T6', F: '140 N' });
    const at = (symbol: string): number => numberOf(states, symbol);
    const [low, high] = [Math.log10(at('N_lo')), Math.log10(at('N_hi'))];
    const random = createRandom(11);
    const normals = new Float64Array(6);
    let held = 0;
    for (let i = 0; i < 40_000; i += 1) {
      random.fillNormal(normals);
      const [a = 0, b = 0, c = 0, d = 0, e = 0, g = 0] = normals;
      const stress = (at('sigma_a') + a * uncertaintyOf(states, 'sigma_a')) / 1e6;
      const sampled = life(stress, 310 * (1 + 0.05 * b), 97 * at('k_b') * (1 + 0.1 * c), 0.9 * (1 + 0.1 * d));
      const lgN = Math.log10(sampled) + 0.8 * e + 0.2 * g;
      if (lgN >= low && lgN <= high) held += 1;
    }
    expect(held / 40_000).toBeGreaterThan(0.93);
    expect(held / 40_000).toBeLessThan(0.97);
  });

  test.each([['rotating', sheetText], ['alternating', alternating]])('factors of steel are refused, with the reason, and steel keeps them: %s', async (_name, text) => {
    for (const settings of [{ surface: 'machined' }, { surface: 'ground' }, { reliability: '99' }]) {
      const states = await solved({ material: '6061-T6', ...settings }, text);
      expect(states.cell('S_e')?.problems[0]?.what).toContain('fitted to tests of steels');
      expect(states.symbol('N_f')?.status).not.toBe('value');
      expect((await solved(settings, text)).cell('S_e')?.problems).toEqual([]);
    }
    // A weak alloy, of which steel's formula would give a factor of 1.
    const weak = await solved({ material: '6061-T6', S_ut: '250 MPa', surface: 'machined' }, text);
    expect(weak.cell('S_e')?.problems[0]?.what).toContain('fitted to tests of steels');
    const own = await solved({ material: 'other-aluminium', S_ut: '290 MPa', S_y: '240 MPa', E: '70 GPa' }, text);
    expect(own.symbol('S_e')?.status).not.toBe('value');
    const typed = await solved({ material: 'other-aluminium', S_ut: '290 MPa', S_y: '240 MPa', E: '70 GPa', S_n: '90 ± 9 MPa' }, text);
    expect(numberOf(typed, 'S_e0')).toBeCloseTo(90e6, 3);
  });

  test('the fraction of steel is not used: 0.9 at 10³ cycles whatever the strength', async () => {
    for (const material of Object.keys(ALLOYS)) expect(numberOf(await solved({ material }), 'f_u')).toBeCloseTo(0.9, 12);
    expect(numberOf(await solved({ material: '7075-T6', S_ut: '700 MPa' }), 'f_u')).toBeCloseTo(0.9, 12);
  });

  test('has no endurance limit: below the fatigue strength no life is told, and all blocks count', async () => {
    const low = await solved({ material: '6061-T6', F: '60 N' });
    expect(low.symbol('N_f')).toMatchObject({ status: 'range', word: 'beyond data' });
    const settings = { material: '6061-T6', F: '120 N' };
    const [counted, ignored] = [await solved(settings), await solved({ ...settings, small_blocks: 'ignored' })];
    expect(numberOf(ignored, 'S_c')).toBe(0);
    expect(numberOf(ignored, 'D_M')).toBe(numberOf(counted, 'D_M'));
  });

  test('strain-life constants that are estimated follow the metal (uniform material law, from memory)', async () => {
    const steel = await solved({}, alternating);
    expect(numberOf(steel, 'sigma_f') / numberOf(steel, 'S_ut')).toBeCloseTo(1.5, 12);
    const aluminium = await solved({ material: '7075-T6' }, alternating);
    expect(numberOf(aluminium, 'sigma_f') / 572e6).toBeCloseTo(1.67, 12);
    expect([numberOf(aluminium, 'b_f'), numberOf(aluminium, 'epsilon_f'), numberOf(aluminium, 'c_f')]).toEqual([-0.095, 0.35, -0.69]);
  });
});
