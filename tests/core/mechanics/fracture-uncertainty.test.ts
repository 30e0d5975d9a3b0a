import { describe, expect, it } from 'vitest';
import { circleThrough, fractureUncertainty, polygonArea, polygonCentroid, type PicturePoint } from '../../../src/core/mechanics/index.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';

const rectangle = (width: number, height: number, at = { x: 0, y: 0 }): PicturePoint[] =>
  [[0, 0], [width, 0], [width, height], [0, height]].map(([x = 0, y = 0]) => ({ x: at.x + x, y: at.y + y }));

/** Three points a third of a turn apart. */
const three = (radius: number, move: () => number = () => 0): PicturePoint[] =>
  [0, 1, 2].map((i) => ({ x: 300 + radius * Math.cos((i * 2 * Math.PI) / 3) + move(), y: 300 + radius * Math.sin((i * 2 * Math.PI) / 3) + move() }));

function circle([a, b, c]: readonly PicturePoint[]): readonly PicturePoint[] {
  const found = a === undefined || b === undefined || c === undefined ? undefined : circleThrough(a, b, c);
  if (found === undefined) throw new Error('no circle');
  return found;
}

describe('uncertainty of what is marked', () => {
  it('of a rectangle’s area: each corner moves it by half a side across and half a side down', () => {
    // ∂A/∂x_i = (y_{i+1} − y_{i−1})/2, from the shoelace formula: u²(A) = 4 [(w/2)² + (h/2)²] u².
    const { sectionArea, finalArea, finalShare } = fractureUncertainty(rectangle(200, 160), rectangle(100, 80, { x: 50, y: 40 }), [], 2);
    expect(sectionArea).toBeCloseTo(2 * 2 * Math.hypot(100, 80), 6);
    expect(finalArea).toBeCloseTo(2 * 2 * Math.hypot(50, 40), 6);
    expect(finalShare / 0.25).toBeCloseTo(Math.hypot(sectionArea / 32_000, finalArea / 8_000), 4);
  });

  it('of a circle through three points: as three points make it, not seventy-two corners', () => {
    // The radius is the mean of three radial errors: u(r) = u/√3, u(A) = 2 π r u/√3.
    const section = circle(three(200));
    const { sectionArea, eccentricity } = fractureUncertainty(section, circle(three(80).map(({ x, y }) => ({ x: x + 60, y }))), [], 1.5);
    expect(sectionArea / ((2 * Math.PI * 200 * 1.5) / Math.sqrt(3))).toBeCloseTo(1, 2);
    // Both middles move by √(2/3) u in every direction, as a circle through three points does.
    expect(eccentricity / ((1.5 * Math.sqrt(4 / 3)) / 200)).toBeCloseTo(1, 1);
  });

  it('agrees with circles drawn many times with an unsteady hand', () => {
    const random = createRandom(20261125);
    const unsteady = (): number => {
      const [a, b] = [random.uniform(), random.uniform()];
      return 2 * Math.sqrt(-2 * Math.log(1 - a)) * Math.cos(2 * Math.PI * b);
    };
    const sampled = Array.from({ length: 4000 }, () => circle(three(150, unsteady)));
    const deviation = (values: readonly number[]): number => {
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    };
    const { sectionArea } = fractureUncertainty(circle(three(150)), circle(three(50)), [], 2);
    // Four standard errors of a standard deviation from 4000 samples.
    expect(Math.abs(deviation(sampled.map(polygonArea)) / sectionArea - 1)).toBeLessThan(4 / Math.sqrt(8000));
    expect(Math.abs(deviation(sampled.map((one) => polygonCentroid(one).x)) / (2 * Math.sqrt(2 / 3)) - 1)).toBeLessThan(4 / Math.sqrt(8000));
  });

  it('the turn: an origin on the rim moves it by its own angle', () => {
    const [section, final] = [rectangle(400, 400), rectangle(100, 100, { x: 290, y: 150 })];
    const far = fractureUncertainty(section, final, [{ x: 0, y: 200 }], 2).rotation;
    const without = fractureUncertainty(section, final, [], 2).rotation;
    expect(without).toBe(0);
    expect(far).toBeGreaterThan(2 / 200);
    expect(far).toBeLessThan(0.05);
  });
});
