/** A strip that is waisted in its width: the sheet against the unit-load integral, taken here by summing, and against the exact beam. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { shipped } from '../shipped.ts';
import { exactBeam } from './exact-beam.ts';
import { holds, numberOf, solved } from './solved.ts';

const text = shipped('alternating-bending');

/** Measures in mm. */
interface Waisted { readonly length: number; readonly wide: number; readonly narrow: number; readonly radius: number; readonly place: number; readonly thickness: number }

const EXAMPLE: Waisted = { length: 80, wide: 60, narrow: 20, radius: 25, place: 25, thickness: 3 };

function settingsOf(one: Waisted, amplitude = 2, more: Readonly<Record<string, string>> = {}): Record<string, string> {
  return {
    support: 'waisted', L_b: `${one.length} mm`, b: `${one.narrow} mm`, b_c: `${one.wide} mm`, R_w: `${one.radius} mm`, x_w: `${one.place} mm`, t: `${one.thickness} mm`, E: '200 GPa',
    x_s: `${one.place} mm`, z_0: '0 mm', z_1: `${-amplitude} mm`, z_2: `${amplitude} mm`, ...more,
  };
}

/** Width at a place, by the circle through the edge. */
function widthAt({ wide, narrow, radius, place }: Waisted, x: number): number {
  const from = Math.abs(x - place);
  return from >= radius ? wide : Math.min(wide, narrow + 2 * (radius - Math.sqrt(radius ** 2 - from ** 2)));
}

/** Force in N for a deflection of the drive: unit-load theorem, the integral by the midpoint rule. */
function forceFor(one: Waisted, deflection: number): number {
  const PARTS = 400_000;
  let compliance = 0;
  for (let i = 0; i < PARTS; i += 1) {
    const x = ((i + 0.5) / PARTS) * one.length;
    compliance += (12 * (one.length - x) ** 2) / (200e3 * widthAt(one, x) * one.thickness ** 3);
  }
  return deflection / (compliance * (one.length / PARTS));
}

const stressAt = (one: Waisted, force: number, x: number): number => (6 * force * (one.length - x)) / (widthAt(one, x) * one.thickness ** 2);

describe('a waisted strip', () => {
  test('has force and stress of the unit-load integral, at the waist, beside it and at the clamp', async () => {
    const shapes = fc.record({
      length: fc.double({ min: 70, max: 150, noNaN: true }), narrow: fc.double({ min: 6, max: 25, noNaN: true }), deeper: fc.double({ min: 1, max: 20, noNaN: true }),
      steep: fc.double({ min: 0.05, max: 0.95, noNaN: true }), thickness: fc.double({ min: 1, max: 5, noNaN: true }), beside: fc.double({ min: 0.001, max: 1, noNaN: true }),
    });
    await fc.assert(fc.asyncProperty(shapes, async ({ length, narrow, deeper, steep, thickness, beside }) => {
      const radius = deeper / steep;
      const half = Math.sqrt(radius ** 2 - (radius - deeper) ** 2);
      const place = half + 1;
      if (place >= length / 2) return; // refused, tested below
      const one = { length, narrow, wide: narrow + 2 * deeper, radius, thickness, place };
      const x = beside * length * 0.98;
      const states = await solved(settingsOf(one, 2, { x_s: `${x} mm` }), text);
      const force = forceFor(one, 2);
      expect(numberOf(states, 'P_a') / force).toBeCloseTo(1, 6);
      expect(numberOf(states, 'sigma_a') / 1e6 / stressAt(one, force, place)).toBeCloseTo(1, 6);
      expect(numberOf(states, 'sigma_0') / 1e6 / stressAt(one, force, 0)).toBeCloseTo(1, 6);
      expect(numberOf(states, 'sigma_x') / 1e6 / stressAt(one, force, x)).toBeCloseTo(1, 6);
      expect((numberOf(states, 'A_x') * 1e6) / (widthAt(one, x) * thickness)).toBeCloseTo(1, 6);
      expect(holds(states, 'formulas-agree')).toBe(true);
    }), { seed: 20261127, numRuns: 12 });
  }, 60_000);

  test('without a waist worth the name it is the uniform cantilever', async () => {
    const states = await solved(settingsOf({ ...EXAMPLE, narrow: 59.999, radius: 200, place: 12 }, 2), text);
    const uniform = await solved(settingsOf({ ...EXAMPLE, narrow: 60 }, 2, { support: 'cantilever' }), text);
    expect(numberOf(states, 'k_P') / numberOf(uniform, 'k_P')).toBeCloseTo(1, 4);
    expect(numberOf(states, 'sigma_0') / numberOf(uniform, 'sigma_a')).toBeCloseTo(1, 4);
  });

  test('its highest stress lies as far before the waist, and is as much more, as the note says', async () => {
    const force = forceFor(EXAMPLE, 2);
    let [best, most] = [0, 0];
    for (let x = 1; x < 50; x += 0.01) if (stressAt(EXAMPLE, force, x) > most) [best, most] = [x, stressAt(EXAMPLE, force, x)];
    const arm = EXAMPLE.length - EXAMPLE.place;
    expect(EXAMPLE.place - best).toBeCloseTo((EXAMPLE.narrow * EXAMPLE.radius) / (2 * arm), 0);
    expect(most / stressAt(EXAMPLE, force, EXAMPLE.place) - 1).toBeCloseTo((EXAMPLE.narrow * EXAMPLE.radius) / (4 * arm ** 2), 2);
  });

  test.each(['follows', 'slides'] as const)('keeps within 1 %% of the exact beam up to its limit: %s', async (ends) => {
    const limit = numberOf(await solved(settingsOf(EXAMPLE, 2, { along: ends }), text), 'delta_1') * 1e3 / EXAMPLE.length;
    const beam = { holding: 'cantilever', ends, stretch: Infinity, width: (s: number) => widthAt(EXAMPLE, s * EXAMPLE.length) / EXAMPLE.wide, at: EXAMPLE.place / EXAMPLE.length } as const;
    const off = exactBeam(beam, limit).moment / limit / (exactBeam(beam, 1e-4).moment / 1e-4) - 1;
    expect(Math.abs(off)).toBeLessThan(0.01);
    expect(Math.sign(off)).toBe(ends === 'follows' ? 1 : -1);
  });

  test('refuses a waist that does not fit, blocked ends and a round bar, each with a sentence', async () => {
    for (const wrong of [{ b_c: '15 mm' }, { R_w: '19 mm' }, { x_w: '20 mm' }, { x_w: '45 mm' }]) {
      const states = await solved(settingsOf(EXAMPLE, 2, wrong), text);
      expect(states.cell('theta_w')?.problems[0]?.what, JSON.stringify(wrong)).toContain('The waist has to be');
      expect(states.symbol('sigma_a')?.status).not.toBe('value');
      // What a strip without a waist does not use stops nothing there.
      expect((await solved(wrong, text)).symbol('sigma_a')?.status).toBe('value');
    }
    expect((await solved(settingsOf(EXAMPLE, 2, { along: 'blocked' }), text)).cell('g_N')?.problems[0]?.what).toContain('uniform width alone');
    expect(holds(await solved(settingsOf(EXAMPLE, 2, { section: 'round' }), text), 'flat-taper')).toBe(false);
  });

  test('is one of the forms whose section is known where it broke: whole, or as wide as the taper is there', async () => {
    const at = { L_b: '100 mm', b: '20 mm', t: '3 mm', d: '8 mm', x_s: '25 mm' };
    for (const [settings, area] of [
      [{ support: 'cantilever' }, 60], [{ support: 'guided' }, 60], [{ support: 'centre' }, 60], [{ support: 'tapered' }, 45], [{ support: 'cantilever', section: 'round' }, 16 * Math.PI],
    ] as const) expect(numberOf(await solved({ ...at, ...settings }, text), 'A_x') * 1e6, JSON.stringify(settings)).toBeCloseTo(area, 9);
  });

  test('says what usually breaks a uniform strip at the clamp, and when the waist is narrow enough', async () => {
    for (const support of ['cantilever', 'guided', 'tapered', 'centre']) {
      const states = await solved({ support }, text);
      expect(holds(states, 'clamp-edge'), support).toBe(false);
    }
    expect(holds(await solved(settingsOf(EXAMPLE), text), 'clamp-edge')).toBe(true);
    expect(holds(await solved(settingsOf({ ...EXAMPLE, wide: 40, radius: 30 }), text), 'clamp-edge')).toBe(false);
  });
});
