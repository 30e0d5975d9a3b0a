import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { circleThrough, crossesItself, isInside, polygonArea, polygonCentroid } from '../../../src/core/mechanics/index.ts';

const around = (radius: number, x: number, y: number, angle: number) => ({ x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) });

describe('a circle through three points', () => {
  it('has the area and the centre of the circle they were taken from', () => {
    const place = fc.double({ min: -1000, max: 1000, noNaN: true });
    fc.assert(fc.property(place, place, fc.double({ min: 5, max: 900, noNaN: true }), fc.double({ min: 0, max: 6, noNaN: true }), (x, y, radius, turn) => {
      const outline = circleThrough(around(radius, x, y, turn), around(radius, x, y, turn + 1.7), around(radius, x, y, turn + 4)) ?? [];
      expect(polygonArea(outline)).toBeCloseTo(Math.PI * radius ** 2, 4);
      expect(polygonCentroid(outline).x).toBeCloseTo(x, 6);
      expect(polygonCentroid(outline).y).toBeCloseTo(y, 6);
    }));
  });

  it('does not exist on a line', () => {
    expect(circleThrough({ x: 0, y: 0 }, { x: 5, y: 5 }, { x: 9, y: 9 })).toBeUndefined();
    expect(circleThrough({ x: 1, y: 1 }, { x: 1, y: 1 }, { x: 9, y: 2 })).toBeUndefined();
  });
});

describe('an outline', () => {
  const square = [{ x: 0, y: 0 }, { x: 4, y: 0 }, { x: 4, y: 4 }, { x: 0, y: 4 }];
  it('crosses itself as a bow does', () => {
    expect(crossesItself(square)).toBe(false);
    expect(crossesItself([square[0], square[2], square[1], square[3]].flatMap((point) => point ?? []))).toBe(true);
    expect(crossesItself(square.slice(0, 3))).toBe(false);
  });
  it('holds what lies in it', () => {
    expect(isInside({ x: 2, y: 3.9 }, square)).toBe(true);
    expect(isInside({ x: 2, y: 4.1 }, square)).toBe(false);
    expect(isInside({ x: -1, y: 2 }, square)).toBe(false);
  });
});
