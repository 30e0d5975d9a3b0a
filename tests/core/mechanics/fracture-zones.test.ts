import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { polygonArea, polygonCentroid, readFracture, type PicturePoint } from '../../../src/core/mechanics/index.ts';

const circle = (radius: number, centre: PicturePoint = { x: 0, y: 0 }, n = 2000): PicturePoint[] =>
  Array.from({ length: n }, (_, i) => ({
    x: centre.x + radius * Math.cos((2 * Math.PI * i) / n),
    y: centre.y + radius * Math.sin((2 * Math.PI * i) / n),
  }));

/** The part of a circle of diameter d about the origin that lies within h of its lowest point (down is positive). */
function segment(d: number, h: number, n = 4000): PicturePoint[] {
  const r = d / 2;
  const half = Math.acos((r - h) / r);
  return Array.from({ length: n + 1 }, (_, i) => {
    const angle = Math.PI / 2 - half + (2 * half * i) / n;
    return { x: r * Math.cos(angle), y: r * Math.sin(angle) };
  });
}

describe('zones of a fracture surface', () => {
  // Segments of a circle d = 8 mm by adaptive quadrature of the chord (scipy), independent of the shoelace formula.
  it.each([
    [1.0, 3.6264940318208785, 0.07214680640719374],
    [2.5, 13.420243971466375, 0.2669872706947603],
    [4.0, 25.132741228718345, 0.5],
    [6.0, 40.43852486856664, 0.8044988905221148],
  ])('a straight-fronted final zone %f mm high of 8 mm', (h, area, share) => {
    const reading = readFracture(circle(4), segment(8, h), [{ x: 0, y: -4 }]);
    expect(reading?.finalArea).toBeCloseTo(area, 4);
    expect(reading?.finalShare).toBeCloseTo(share, 5);
    expect(reading?.rotation).toBeCloseTo(0, 9);
  });

  it('a half circle has its centroid 4/(3π) of the radius from the middle (any table of centroids)', () => {
    expect(polygonCentroid(segment(2, 1)).y).toBeCloseTo(4 / (3 * Math.PI), 6);
    expect(readFracture(circle(1), segment(2, 1), [])?.eccentricity).toBeCloseTo(4 / (3 * Math.PI), 5);
  });

  it('turned clockwise from the place opposite the origin counts positive', () => {
    const zone = circle(0.3, { x: -0.5 * Math.sin(0.4), y: 0.5 * Math.cos(0.4) });
    expect(readFracture(circle(1), zone, [{ x: 0, y: -1 }])?.rotation).toBeCloseTo(0.4, 9);
    expect(readFracture(circle(1), zone, [{ x: 0.2, y: -0.9 }, { x: -0.2, y: -0.9 }])?.rotation).toBeCloseTo(0.4, 9);
  });

  it('is not told without origins, with origins all round, or for a central zone', () => {
    const off = circle(0.3, { x: 0.5, y: 0 });
    expect(readFracture(circle(1), off, [])?.rotation).toBeNull();
    expect(readFracture(circle(1), off, circle(1, { x: 0, y: 0 }, 6))?.rotation).toBeNull();
    expect(readFracture(circle(1), circle(0.3), [{ x: 0, y: 1 }])?.rotation).toBeNull();
    expect(readFracture([{ x: 0, y: 0 }, { x: 1, y: 1 }], off, [])).toBeUndefined();
  });

  it('moving, turning and scaling the picture changes no share and no eccentricity', () => {
    const number = fc.double({ min: -2000, max: 2000, noNaN: true });
    fc.assert(fc.property(number, number, fc.double({ min: 0.01, max: 500, noNaN: true }), fc.double({ min: 0, max: 6.28, noNaN: true }), (x, y, scale, angle) => {
      const moved = ({ x: a, y: b }: PicturePoint): PicturePoint => ({
        x: x + scale * (a * Math.cos(angle) - b * Math.sin(angle)),
        y: y + scale * (a * Math.sin(angle) + b * Math.cos(angle)),
      });
      const [section, zone] = [circle(1, undefined, 60), circle(0.4, { x: 0.2, y: 0.35 }, 40)];
      const [before, after] = [readFracture(section, zone, []), readFracture(section.map(moved), zone.map(moved), [])];
      expect(after?.finalShare).toBeCloseTo(before?.finalShare ?? NaN, 8);
      expect(after?.eccentricity).toBeCloseTo(before?.eccentricity ?? NaN, 8);
      expect(polygonArea(zone.map(moved).reverse()) / (scale * scale)).toBeCloseTo(polygonArea(zone), 6);
    }), { numRuns: 60 });
  });
});
