import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beamReactions, momentAt, shearAt, shearMomentDiagram, type Beam } from '../../../src/core/mechanics/index.ts';

const place = fc.double({ min: -0.5, max: 1.5, noNaN: true });
const load = fc.record({ position: place, force: fc.double({ min: -2000, max: 2000, noNaN: true }) });
const anyBeam = fc.record({ span: fc.double({ min: 0.05, max: 1, noNaN: true }), loads: fc.array(load, { minLength: 1, maxLength: 6 }) });

/** A size that rounding may be measured against: all forces times all lengths. */
function scale(beam: Beam): number {
  const { left, right } = beamReactions(beam);
  return 1e-12 + beam.loads.reduce((sum, one) => sum + Math.abs(one.force), Math.abs(left) + Math.abs(right));
}

describe('statics of any beam', () => {
  test('forces are in equilibrium, and moments about any point', () => {
    fc.assert(fc.property(anyBeam, place, (beam, about) => {
      const { left, right } = beamReactions(beam);
      const down = beam.loads.reduce((sum, one) => sum + one.force, 0);
      const turning = beam.loads.reduce((sum, one) => sum + one.force * (one.position - about), 0);
      expect(Math.abs(left + right - down)).toBeLessThan(1e-12 * scale(beam));
      const held = left * (0 - about) + right * (beam.span - about);
      expect(Math.abs(held - turning)).toBeLessThan(1e-11 * scale(beam));
    }));
  });

  test('no shear and no moment beyond the last force', () => {
    fc.assert(fc.property(anyBeam, (beam) => {
      expect(Math.abs(shearAt(beam, 2))).toBeLessThan(1e-12 * scale(beam));
      expect(Math.abs(momentAt(beam, 2))).toBeLessThan(1e-11 * scale(beam));
    }));
  });

  test('the moment is the integral of the shear, from break point to break point', () => {
    fc.assert(fc.property(anyBeam, (beam) => {
      const { points } = shearMomentDiagram(beam);
      let area = 0;
      const steps = points.slice(1).map((point, index) => ({ point, before: points[index] ?? point }));
      for (const { point, before } of steps) {
        expect(point.shearLeft).toBe(before.shearRight);
        area += before.shearRight * (point.position - before.position);
        expect(Math.abs(point.moment - area)).toBeLessThan(1e-10 * scale(beam));
      }
    }));
  });

  test('superposition: two sets of loads together bend as the sum of each alone', () => {
    fc.assert(fc.property(anyBeam, fc.array(load, { maxLength: 4 }), place, (beam, more, at) => {
      const other = { span: beam.span, loads: more };
      const both = { span: beam.span, loads: [...beam.loads, ...more] };
      const allowed = 1e-11 * (scale(beam) + scale(other));
      expect(Math.abs(momentAt(both, at) - momentAt(beam, at) - momentAt(other, at))).toBeLessThan(allowed);
      expect(Math.abs(shearAt(both, at) - shearAt(beam, at) - shearAt(other, at))).toBeLessThan(allowed);
    }));
  });

  test('nothing on the beam exceeds the extremes, and the extremes are reached where they say', () => {
    fc.assert(fc.property(anyBeam, place, (beam, at) => {
      const { moment, shear } = shearMomentDiagram(beam);
      const allowed = 1e-11 * scale(beam);
      expect(momentAt(beam, at)).toBeLessThanOrEqual(Math.max(0, moment.greatest.value) + allowed);
      expect(momentAt(beam, at)).toBeGreaterThanOrEqual(Math.min(0, moment.least.value) - allowed);
      for (const extreme of [moment.greatest, moment.least]) {
        expect(extreme.places.length).toBeGreaterThan(0);
        for (const { from, to } of extreme.places) {
          expect(Math.abs(momentAt(beam, (from + to) / 2) - extreme.value)).toBeLessThan(allowed);
        }
      }
      for (const extreme of [shear.greatest, shear.least]) {
        for (const { from } of extreme.places) expect(Math.abs(shearAt(beam, from) - extreme.value)).toBeLessThan(allowed);
      }
    }));
  });
});

describe('stretches of constant value', () => {
  test('symmetric four-point bending: no shear and constant moment F a/2 between the loads', () => {
    // Source: beam tables (AISC Manual, beam diagrams), two equal loads symmetrically placed: M = P a.
    const diagram = shearMomentDiagram({ span: 0.45, loads: [{ position: 0.1, force: 200 }, { position: 0.35, force: 200 }] });
    expect(diagram.moment.greatest.value).toBeCloseTo(20, 12);
    expect(diagram.moment.greatest.places).toEqual([{ from: 0.1, to: 0.35 }]);
    expect(diagram.points[1]?.shearRight).toBe(0);
    expect(diagram.moment.least.places).toEqual([{ from: 0, to: 0 }, { from: 0.45, to: 0.45 }]);
  });

  test('unsymmetric: the greatest moment is at one load point only', () => {
    const diagram = shearMomentDiagram({ span: 0.45, loads: [{ position: 0.099, force: 200 }, { position: 0.352, force: 200 }] });
    expect(diagram.moment.greatest.places).toEqual([{ from: 0.099, to: 0.099 }]);
  });

  test('no load: zero everywhere, one stretch', () => {
    const diagram = shearMomentDiagram({ span: 0.3, loads: [{ position: 0.1, force: 0 }] });
    expect(diagram.shear.greatest).toEqual({ value: 0, places: [{ from: 0, to: 0.3 }] });
    expect(diagram.moment.greatest).toEqual({ value: 0, places: [{ from: 0, to: 0.3 }] });
  });

  test('reactions handed in are used: a closure shows as a moment left over at the right support', () => {
    const beam = { span: 0.45, loads: [{ position: 0.1, force: 100 }] };
    const diagram = shearMomentDiagram(beam, { left: 78, right: 22 });
    expect(diagram.points.at(-1)?.moment).toBeCloseTo(78 * 0.45 - 100 * 0.35, 12);
  });
});
