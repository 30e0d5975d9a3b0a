import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { beamFigureFrom, freeBody, shearMoment, type BeamRole, type FigureValue } from '../../../src/figures/drawings/index.ts';
import { readSvg } from './svg-reading.ts';
import { cases } from '../../sizes.ts';

const roles: BeamRole[] = ['span', 's1', 's2', 's3', 'F1', 'F2', 'RA', 'RB', 'section', 'shear', 'moment', 'diameter'];
const quantity = fc.oneof(
  { weight: 6, arbitrary: fc.double({ min: -0.1, max: 0.5, noNaN: true }) },
  { weight: 2, arbitrary: fc.constantFrom(0, -0, 0.1, 0.2, 0.45, 1e-9, -1e-9) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 1, arbitrary: fc.constant(undefined) },
);
const value: fc.Arbitrary<FigureValue> = fc.record({
  si: quantity, text: fc.string({ unit: 'binary', maxLength: 20 }), symbol: fc.string({ unit: 'binary', maxLength: 8 }), hidden: fc.boolean(),
});
const values = fc.record(Object.fromEntries(roles.map((role) => [role, value])) as Record<BeamRole, typeof value>, { requiredKeys: [] });
const texts = { lengthText: () => 'length', shearText: () => 'shear', momentText: () => 'moment' };

/** Numbers of the markup itself, outside what the sheet wrote. */
function attributeText(svg: string): string {
  return svg.replace(/>[^<]*</g, '><');
}

describe('whatever the values', () => {
  test('both drawings are well-formed, without a number that is none, and inside their own width', () => {
    fc.assert(fc.property(values, fc.integer({ min: 100, max: 1200 }), (given, width) => {
      const figure = beamFigureFrom(given, texts);
      for (const drawing of [freeBody(figure, { width, idPrefix: 'x' }), shearMoment(figure, { width, idPrefix: 'y' })]) {
        readSvg(drawing.svg);
        expect(attributeText(drawing.svg)).not.toMatch(/NaN|Infinity|undefined|null|\de[+-]?\d/);
        for (const area of [...drawing.handles, ...drawing.figures]) {
          expect([area.x, area.y, area.width, area.height].every(Number.isFinite)).toBe(true);
        }
        expect(Number.isFinite(drawing.pxPerMetre)).toBe(true);
        const places = [...drawing.svg.matchAll(/ (?:x|y|x1|x2|y1|y2|cx|cy)="([^"]*)"/g)].map((match) => Number(match[1]));
        expect(Math.min(...places)).toBeGreaterThanOrEqual(-80);
        expect(Math.max(...places)).toBeLessThanOrEqual(Math.max(drawing.viewBox.width, drawing.viewBox.height) + 80);
      }
    }), { numRuns: cases(400) });
  });

  test('a held frame of no length, or of none at all, does no harm', () => {
    const figure = beamFigureFrom({}, texts);
    for (const frame of [{ from: 0, to: 0 }, { from: Number.NaN, to: 1 }, { from: 0, to: Number.POSITIVE_INFINITY }, { from: 1, to: 0 }]) {
      expect(freeBody(figure, { width: 400, idPrefix: 'x', frame }).svg).not.toMatch(/NaN|Infinity/);
    }
  });
});
