import { describe, expect, test } from 'vitest';
import { STRIP_SHAPES, waistedShape, waistedWidth, waistFits, type Waist } from '../../../src/core/mechanics/index.ts';

/** Invented, in metres. */
const WAIST: Waist = { place: 0.025, narrow: 0.02, wide: 0.06, radius: 0.025 };
const LENGTH = 0.08;

describe('a waisted strip', () => {
  test('has the width of the circle through its edge', () => {
    expect(waistedWidth(WAIST, 0.025)).toBe(0.02);
    // 15 mm beside the waist a circle of 25 mm has risen by 25 − 20 = 5 mm (3, 4, 5).
    expect(waistedWidth(WAIST, 0.04)).toBeCloseTo(0.03, 15);
    expect(waistedWidth(WAIST, 0.01)).toBeCloseTo(0.03, 15);
    expect([waistedWidth(WAIST, 0), waistedWidth(WAIST, 0.06)]).toEqual([0.06, 0.06]);
  });

  test('fits where its arcs lie between clamp and drive and leave something', () => {
    expect(waistFits(WAIST, LENGTH)).toBe(true);
    for (const wrong of [{ place: 0.02 }, { place: 0.06 }, { narrow: 0.07 }, { narrow: 0 }, { radius: 0.019 }, { place: -0.01 }]) {
      expect(waistFits({ ...WAIST, ...wrong }, LENGTH), JSON.stringify(wrong)).toBe(false);
    }
  });

  test('bends by its moment over its width, starts at rest and ends at the drive', () => {
    const { deflection, moment, stress, highest, drive } = waistedShape(WAIST, LENGTH);
    expect([deflection(0), deflection(drive), moment(0.3125), moment(1), stress(1)]).toEqual([0, 1, 1, 0, 0]);
    expect(moment(0)).toBeCloseTo(80 / 55, 12);
    // Each rise of the slope is the curvature between: compared with its share at the waist, where the stress counts as one.
    const curvature = (x: number): number => (deflection(x + 0.02) - 2 * deflection(x) + deflection(x - 0.02)) / 0.02 ** 2;
    for (const x of [0.1, 0.3125, 0.5, 0.7, 0.9]) expect(curvature(x) / curvature(0.3125) / (stress(x) / stress(0.3125))).toBeCloseTo(1, 1);
    expect(stress(0.3125)).toBe(1);
    for (let x = 0; x <= 1; x += 0.01) expect(stress(x)).toBeLessThanOrEqual(stress(highest[0] ?? 0) + 1e-3);
    expect(highest[0]).toBeLessThan(0.3125);
    expect(highest[0]).toBeGreaterThan(0.2);
  });

  test('is the uniform cantilever where nothing is taken away', () => {
    const shape = waistedShape({ ...WAIST, narrow: WAIST.wide }, LENGTH);
    for (const x of [0, 0.2, 0.5, 0.8, 1]) expect(shape.deflection(x)).toBeCloseTo(STRIP_SHAPES.cantilever.deflection(x), 4);
  });
});
