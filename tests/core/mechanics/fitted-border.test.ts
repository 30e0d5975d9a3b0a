import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { axesOf, fitCircle, fitEllipse } from '../../../src/core/mechanics/index.ts';

const points = (xs: readonly number[], ys: readonly number[]) => xs.map((x, i) => ({ x, y: ys[i] ?? Number.NaN }));

/** What has to be there. */
function there<T>(found: T | undefined): T {
  if (found === undefined) throw new Error('nothing was found');
  return found;
}

describe('circle and ellipse nearest to marked points', () => {
  // Gander, Golub and Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558: points and results of their examples, from memory, to the four places printed.
  it('the published circle', () => {
    const { centre, map } = there(fitCircle(points([1, 2, 5, 7, 9, 3], [7, 6, 8, 7, 5, 7])));
    expect([centre.x, centre.y, map.xx].map((value) => value.toFixed(4))).toEqual(['4.7398', '2.9835', '4.7142']);
  });

  it('the published ellipse', () => {
    const { centre, map } = there(fitEllipse(points([1, 2, 5, 7, 9, 3, 6, 8], [7, 6, 8, 7, 5, 7, 2, 4])));
    const { long, short, angle } = axesOf(map);
    expect([centre.x, centre.y, long, short, angle].map((value) => value.toFixed(4))).toEqual(['2.6996', '3.8160', '6.5187', '3.0319', '0.3596']);
  });

  it('points on an ellipse give it back, wherever it lies and whichever way it is turned', () => {
    fc.assert(fc.property(
      fc.double({ min: 100, max: 3000, noNaN: true }), fc.double({ min: 20, max: 400, noNaN: true }), fc.double({ min: 0.25, max: 1, noNaN: true }), fc.double({ min: -1.5, max: 1.5, noNaN: true }), fc.integer({ min: 5, max: 14 }),
      (at, long, ratio, angle, count) => {
        const on = Array.from({ length: count }, (_, i) => {
          const t = (2 * Math.PI * i) / count + 0.3;
          const [u, v] = [long * Math.cos(t), long * ratio * Math.sin(t)];
          return { x: at + u * Math.cos(angle) - v * Math.sin(angle), y: 500 + u * Math.sin(angle) + v * Math.cos(angle) };
        });
        const { centre, map, residuals } = there(fitEllipse(on));
        const axes = axesOf(map);
        expect(Math.abs(centre.x - at) + Math.abs(centre.y - 500)).toBeLessThan(1e-6 * long);
        expect(Math.abs(axes.long / long - 1) + Math.abs(axes.short / (long * ratio) - 1)).toBeLessThan(1e-6);
        expect(Math.max(...residuals.map(Math.abs))).toBeLessThan(1e-6 * long);
        // A circle has no direction.
        expect((1 - ratio) * Math.abs(Math.sin(axes.angle - angle))).toBeLessThan(1e-6);
      },
    ), { numRuns: 200 });
  });

  it('too few points and points on a line give none', () => {
    expect(fitCircle(points([0, 10], [0, 0]))).toBeUndefined();
    expect(fitCircle(points([0, 10, 20, 30], [0, 5, 10, 15]))).toBeUndefined();
    expect(fitCircle(points([0, 10, 20, 30], [0, 5.01, 10, 15]))).toBeUndefined();
    expect(fitEllipse(points([0, 10, 10, 0], [0, 0, 5, 5]))).toBeUndefined();
    expect(fitEllipse(points([0, 10, 20, 30, 40], [0, 5, 10, 15, 20]))).toBeUndefined();
  });
});
