import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  SPECIMEN_ROLES, specimenFigureFrom, stressAlongAxis, type FigureValue, type SpecimenRole, type SpecimenValues,
} from '../../../src/figures/drawings/index.ts';
import { readSvg, withClass } from './svg-reading.ts';

const texts = { lengthText: (si: number) => `${(si * 1e3).toFixed(2)} mm`, stressText: (si: number) => `${(si / 1e6).toFixed(1)} MPa` };
/** Hourglass of 6 mm with ρ = 60 mm under 8 N·m: 32·8/(π·0.006³) = 377.3 MPa at the waist. */
const HOURGLASS: Partial<Record<SpecimenRole, number>> = {
  diameter: 6e-3, grip: 12e-3, radius: 60e-3, moment: 8, shear: 0, amplitude: 377.3e6, test: 10e-3, fracture: 2e-3, stress: 365e6,
};

function values(of: Partial<Record<SpecimenRole, number>>, hidden: readonly SpecimenRole[] = []): SpecimenValues {
  return Object.fromEntries(Object.entries(of).map(([role, si]): [string, FigureValue] => [role, {
    si, text: `${si}`, symbol: role, hidden: hidden.includes(role as SpecimenRole), given: role,
  }]));
}

function drawn(of: Partial<Record<SpecimenRole, number>>, hidden: readonly SpecimenRole[] = []) {
  return stressAlongAxis(specimenFigureFrom(values(of, hidden), texts), { width: 700, idPrefix: 's' });
}

describe('the stress along the specimen', () => {
  test('is greatest at the waist of an hourglass under a constant moment', () => {
    expect(drawn(HOURGLASS).sentence).toContain('greatest at the waist, 377.3 MPa');
  });

  test('is greatest off the waist where the moment grows along a long cylindrical part', () => {
    const { sentence } = drawn({ ...HOURGLASS, flat: 10e-3, shear: 100, radius: 30e-3 });
    // By hand: 100/9 = 3·2u/(R d) puts it u = 0.33 mm beyond the cylindrical part; at its end it is 32·9/(π·0.006³) = 424.4 MPa.
    expect(sentence).toMatch(/greatest 10\.3\d mm from the waist, 425\.2 MPa/);
  });

  test('the fracture is a handle that moves its given; while it is open there is none', () => {
    const { handles } = drawn(HOURGLASS);
    expect(handles.map(({ name, moves }) => ({ name, moves }))).toEqual([{ name: 'fracture', moves: [{ symbol: 'fracture', sign: 1 }] }]);
    const { fracture: _, ...open } = HOURGLASS;
    expect(drawn(open).handles).toEqual([]);
    expect(withClass(readSvg(drawn(open).svg), 'section-mark')).toEqual([]);
  });

  test('profile and length have one scale, and a tall one shows more of its grips', () => {
    const { frame, pxPerMetre } = drawn(HOURGLASS);
    expect(12e-3 * pxPerMetre).toBeLessThanOrEqual(151);
    expect((frame.to - frame.from) * pxPerMetre).toBeGreaterThan(500);
  });

  test('a moment that is still asked for shows neither curve nor value', () => {
    const { svg, sentence } = drawn(HOURGLASS, ['moment']);
    expect(svg).not.toContain('377');
    expect(withClass(readSvg(svg), 'curve')).toEqual([]);
    expect(sentence).toContain('once you have worked it out');
  });

  test('whatever the values: well-formed and finite', () => {
    const quantity = fc.oneof(
      { weight: 6, arbitrary: fc.double({ min: 1e-4, max: 0.2, noNaN: true }) },
      { weight: 2, arbitrary: fc.double() },
      { weight: 1, arbitrary: fc.constantFrom(undefined, 0, -0.01) },
    );
    const value = fc.record({ si: quantity, text: fc.string({ unit: 'binary', maxLength: 12 }), symbol: fc.constantFrom('x_f', 'd', '<b>'), hidden: fc.boolean() });
    const record = fc.record(Object.fromEntries(SPECIMEN_ROLES.map((role) => [role, value])) as Record<SpecimenRole, typeof value>, { requiredKeys: [] });
    fc.assert(fc.property(record, fc.integer({ min: 100, max: 1200 }), (given, width) => {
      const drawing = stressAlongAxis(specimenFigureFrom(given, { lengthText: () => 'length', stressText: () => 'stress' }), { width, idPrefix: 'x' });
      readSvg(drawing.svg);
      expect(drawing.svg.replace(/>[^<]*</g, '><')).not.toMatch(/NaN|Infinity|undefined|null|\de[+-]?\d/);
      expect(Number.isFinite(drawing.pxPerMetre)).toBe(true);
    }), { numRuns: 120 });
  });
});
