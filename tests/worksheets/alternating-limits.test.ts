/**
 * How far the formulas of small deflections go, what a pull of blocked ends does and what shear adds: the sheet against the exact non-linear beam and
 * against shear energy, both worked out here.
 */
import { describe, expect, test } from 'vitest';
import { shipped } from '../shipped.ts';
import { exactBeam, type Ends, type Holding } from './exact-beam.ts';
import { holds, numberOf, solved } from './solved.ts';

const text = shipped('alternating-bending');

const HOLDINGS: readonly Holding[] = ['cantilever', 'guided', 'tapered', 'centre'];

/** A strip of 80 mm: thickness, deflection amplitude and offset in mm. */
function strip(thickness: number, amplitude: number, offset = 0): Record<string, string> {
  return {
    L_b: '80 mm', t: `${thickness} mm`, b: '20 mm', E: '205 GPa', x_s: '0 mm', z_0: '0 mm', z_1: `${offset - amplitude} mm`, z_2: `${offset + amplitude} mm`,
    // Strong enough that no sum of stresses is refused.
    S_ut: '2400 MPa', S_y: '2300 MPa', mean_stress: 'none',
  };
}

describe('the largest stroke', () => {
  test.each(HOLDINGS.flatMap((holding) => (['follows', 'slides'] as const).map((ends) => [holding, ends] as const)))('%s, %s: within 1 %% up to the limit, and not much less there', async (holding, ends) => {
    const limit = numberOf(await solved({ ...strip(3, 1), support: holding, along: ends }, text), 'delta_1') / 0.08;
    const beam = { holding, ends, stretch: Infinity };
    const linear = exactBeam(beam, 1e-4).moment / 1e-4;
    const off = exactBeam(beam, limit).moment / limit / linear - 1;
    expect(Math.abs(off)).toBeLessThan(0.01);
    expect(Math.abs(off)).toBeGreaterThan(0.0065);
    // Ends that follow: the true stress is more; a strip that slides: less.
    expect(Math.sign(off)).toBe(ends === 'follows' ? 1 : -1);
    const at = (share: number): Promise<boolean | undefined> =>
      solved({ ...strip(3, limit * 80 * share), support: holding, along: ends }, text).then((states) => holds(states, 'small-deflection'));
    expect(await at(0.999)).toBe(true);
    expect(await at(1.001)).toBe(false);
  });

  test('a cantilever at a tenth of its length is off by 0.4 % (exact beam), and the linear beam is the book’s', () => {
    const cantilever = { holding: 'cantilever', ends: 'follows', stretch: Infinity } as const;
    expect(exactBeam(cantilever, 0.1).moment / 0.3 - 1).toBeCloseTo(0.0043, 4);
    for (const [holding, factor] of [['cantilever', 3], ['guided', 6], ['centre', 12]] as const) {
      expect(exactBeam({ holding, ends: 'follows', stretch: Infinity }, 1e-4).moment / 1e-4 / factor).toBeCloseTo(1, 6);
    }
    // Cantilever with a load of P L²/(E I) = 1: deflection 0.30172 L (Bisshopp and Drucker, Quart. Appl. Math. 3, 1945; from memory).
    // The clamp's moment is P (L − shortening) = 1 − 0.05643, both of the same table.
    expect(exactBeam(cantilever, 0.30172).moment).toBeCloseTo(0.94357, 4);
  });
});

describe('blocked ends', () => {
  const CASES = (['cantilever', 'guided', 'centre'] as const).flatMap((holding) => [[holding, 3, 2.92, 0, 1.05], [holding, 3, 2.92, 0.12, 1.06], [holding, 1.5, 3, 1.5, 1.25], [holding, 6, 3.2, 0.3, 1.03]] as const);

  /** Stress in MPa of the surface that the offset stretches, at both ends of the stroke. */
  function exact(holding: Holding, thickness: number, amplitude: number, offset: number): { amplitude: number; mean: number } {
    const beam = { holding, ends: 'blocked' as Ends, stretch: 12 * (80 / thickness) ** 2 };
    const bending = (205e3 * thickness) / 160; // E t/(2 L), for a moment over E I/L
    const pulling = 205e3 / beam.stretch;
    const [up, down] = [exactBeam(beam, (amplitude + offset) / 80), exactBeam(beam, (amplitude - offset) / 80)];
    const [most, least] = [bending * up.moment + pulling * up.pull, -bending * down.moment + pulling * down.pull];
    return { amplitude: (most - least) / 2, mean: (most + least) / 2 };
  }

  test.each(CASES)('%s, %f mm thick, %f mm about %f mm: bounds of the exact beam, amplitude within a factor of %f', async (holding, thickness, amplitude, offset, factor) => {
    const states = await solved({ ...strip(thickness, amplitude, offset), support: holding, along: 'blocked' }, text);
    const beam = exact(holding, thickness, amplitude, offset);
    const [a, m] = [numberOf(states, 'sigma_a') / 1e6, numberOf(states, 'sigma_m') / 1e6];
    expect(a).toBeGreaterThan(beam.amplitude);
    expect(m).toBeGreaterThan(beam.mean);
    expect(a / beam.amplitude).toBeLessThan(factor);
    expect((m - beam.mean) / beam.amplitude).toBeLessThan(5 * (factor - 1));
    expect(holds(states, 'ends-give-way')).toBe(false);
    // The surface that it compresses has no more than the other one.
    const other = await solved({ ...strip(thickness, amplitude, offset), support: holding, along: 'blocked', face: 'compressed' }, text);
    const below = exact(holding, thickness, amplitude, -offset);
    expect(numberOf(other, 'sigma_a') / 1e6).toBeGreaterThan(below.amplitude);
    expect(numberOf(other, 'sigma_m') / 1e6).toBeGreaterThan(below.mean);
  });

  test('the example’s strip: a pull of 156.5 MPa beside the bending of 420, bounded by 164', async () => {
    const pull = (205e3 / (12 * (80 / 3) ** 2)) * exactBeam({ holding: 'cantilever', ends: 'blocked', stretch: 12 * (80 / 3) ** 2 }, 2.92 / 80).pull;
    expect(pull).toBeCloseTo(156.5, 1);
    const states = await solved({ ...strip(3, 2.92), along: 'blocked' }, text);
    expect(numberOf(states, 'sigma_N') / 1e6).toBeCloseTo(0.6 * 205e3 * (2.92 / 80) ** 2, 6);
  });

  test('nothing is added where ends give way; a taper can’t be pulled, and says so', async () => {
    for (const along of ['follows', 'slides']) {
      const states = await solved({ along }, text);
      expect([numberOf(states, 'sigma_V'), numberOf(states, 'sigma_N')]).toEqual([0, 0]);
      expect(holds(states, 'ends-give-way')).toBe(true);
    }
    const tapered = await solved({ support: 'tapered', along: 'blocked' }, text);
    expect(tapered.cell('g_N')?.problems[0]?.what).toContain('can\'t hold a pull');
    expect(tapered.symbol('N_f')?.status).not.toBe('value');
  });

  test('the stiffening of a small pull goes over into its series without a step', async () => {
    const at = async (mm: number): Promise<number> => numberOf(await solved({ ...strip(3, mm), along: 'blocked' }, text), 'g_N') - 1;
    // λ = 0.03 at 0.0335 mm.
    const [below, above] = [await at(0.0334), await at(0.0336)];
    expect(above / below / (0.0336 / 0.0334) ** 2).toBeCloseTo(1, 3);
  });
});

describe('shear', () => {
  /** Deflection by shear over that by bending, by the energies of a unit load; ν = 0.3, κ = 5/6 (Timoshenko, Strength of Materials). */
  function share(holding: Holding, slenderness: number): number {
    const lever = { cantilever: (x: number) => 1 - x, tapered: (x: number) => 1 - x, guided: (x: number) => 0.5 - x, centre: (x: number) => Math.min(x, 1 - x) / 2 }[holding];
    const force = holding === 'centre' ? 0.5 : 1;
    const width = (x: number): number => (holding === 'tapered' ? Math.max(0.1, 1 - x) : 1);
    let [bent, sheared] = [0, 0];
    const PARTS = 20_000;
    for (let i = 0; i < PARTS; i += 1) {
      const x = (i + 0.5) / PARTS;
      // Up to where a tapered strip is a tenth as wide.
      const counted = holding === 'tapered' && x > 0.9 ? 0 : 1;
      bent += lever(x) ** 2 / (holding === 'tapered' ? 1 - x : 1) / PARTS;
      sheared += (counted * force ** 2) / width(x) / PARTS;
    }
    // E I/(κ G A L²) = (1/12)(h/L)²·2(1 + ν)/κ
    return ((sheared / bent) * 2.6 * 1.2) / 12 / slenderness ** 2;
  }

  test.each([['cantilever', 0.0078], ['guided', 0.0312], ['tapered', 0.012], ['centre', 0.0312]] as const)('%s: %f at ten times the height', async (holding, known) => {
    const states = await solved({ support: holding, L_b: '80 mm', t: '8 mm' }, text);
    expect(numberOf(states, 'q_V') / share(holding, 10)).toBeGreaterThan(0.98);
    expect(numberOf(states, 'q_V') / share(holding, 10)).toBeLessThan(1.06);
    expect(numberOf(states, 'q_V')).toBeCloseTo(known, 3);
    expect(holds(states, 'slender')).toBe(holding === 'cantilever');
  });
});
