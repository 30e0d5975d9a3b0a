import { describe, expect, it } from 'vitest';
import { borderOf, fractureUncertainty, leftOutByChords, polygonArea, polygonCentroid, readMarks, type BorderShape, type FractureMarks, type MarkedBorder, type PicturePoint } from '../../../src/core/mechanics/index.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';
import { size } from '../../sizes.ts';

const rectangle = (width: number, height: number, at = { x: 0, y: 0 }): PicturePoint[] =>
  [[0, 0], [width, 0], [width, height], [0, height]].map(([x = 0, y = 0]) => ({ x: at.x + x, y: at.y + y }));

/** Three points a third of a turn apart. */
const three = (radius: number, move: () => number = () => 0): PicturePoint[] =>
  [0, 1, 2].map((i) => ({ x: 300 + radius * Math.cos((i * 2 * Math.PI) / 3) + move(), y: 300 + radius * Math.sin((i * 2 * Math.PI) / 3) + move() }));

const corners = (points: readonly PicturePoint[]): MarkedBorder => ({ points, shape: 'corners' });
const circle = (points: readonly PicturePoint[]): MarkedBorder => ({ points, shape: 'circle' });
const outlineOf = (border: MarkedBorder): readonly PicturePoint[] => there(borderOf(border)?.corners);

/** What has to be there. */
function there<T>(found: T | undefined): T {
  if (found === undefined) throw new Error('nothing was found');
  return found;
}

describe('uncertainty of what is marked', () => {
  it('of a rectangle’s area: each corner moves it by half a side across and half a side down', () => {
    // ∂A/∂x_i = (y_{i+1} − y_{i−1})/2, from the shoelace formula: u²(A) = 4 [(w/2)² + (h/2)²] u².
    const { sectionArea, finalArea, finalShare } = fractureUncertainty({ section: corners(rectangle(200, 160)), final: corners(rectangle(100, 80, { x: 50, y: 40 })), origins: [] }, 2);
    expect(sectionArea).toBeCloseTo(2 * 2 * Math.hypot(100, 80), 6);
    expect(finalArea).toBeCloseTo(2 * 2 * Math.hypot(50, 40), 6);
    expect(finalShare / 0.25).toBeCloseTo(Math.hypot(sectionArea / 32_000, finalArea / 8_000), 4);
  });

  it('of a circle through three points: as three points make it', () => {
    // The radius is the mean of three radial errors: u(r) = u/√3, u(A) = 2 π r u/√3.
    const final = circle(three(80).map(({ x, y }) => ({ x: x + 60, y })));
    const { sectionArea, eccentricity } = fractureUncertainty({ section: circle(three(200)), final, origins: [] }, 1.5);
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
    const sampled = Array.from({ length: 4000 }, () => outlineOf(circle(three(150, unsteady))));
    const deviation = (values: readonly number[]): number => {
      const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
      return Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1));
    };
    const { sectionArea } = fractureUncertainty({ section: circle(three(150)), final: circle(three(50)), origins: [] }, 2);
    // Four standard errors of a standard deviation from 4000 samples.
    expect(Math.abs(deviation(sampled.map(polygonArea)) / sectionArea - 1)).toBeLessThan(4 / Math.sqrt(8000));
    expect(Math.abs(deviation(sampled.map((one) => polygonCentroid(one).x)) / (2 * Math.sqrt(2 / 3)) - 1)).toBeLessThan(4 / Math.sqrt(8000));
  });

  it('the turn: an origin on the rim moves it by its own angle', () => {
    const [section, final] = [corners(rectangle(400, 400)), corners(rectangle(100, 100, { x: 290, y: 150 }))];
    const far = fractureUncertainty({ section, final, origins: [{ x: 0, y: 200 }] }, 2).rotation;
    const without = fractureUncertainty({ section, final, origins: [] }, 2).rotation;
    expect(without).toBe(0);
    expect(far).toBeGreaterThan(2 / 200);
    expect(far).toBeLessThan(0.05);
  });
});

/** A picture with a known share: a round bar of radius 250 and an ellipse of that share somewhere in it, marked by a hand that is off by `u` dots each way. */
function marked(random: () => number, { points, u, share, shape }: { readonly points: readonly [number, number]; readonly u: number; readonly share: number; readonly shape: readonly [BorderShape, BorderShape] }): FractureMarks {
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const [ratio, turn] = [0.5 + 0.5 * random(), Math.PI * random()];
  const long = 250 * Math.sqrt(share / ratio);
  const [away, way] = [Math.max(0, 0.9 * (250 - long)) * random(), 2 * Math.PI * random()];
  const along = (count: number, at: (t: number) => PicturePoint): readonly PicturePoint[] => Array.from({ length: count }, (_, i) => {
    const { x, y } = at((2 * Math.PI * (i + 0.3 * random())) / count);
    return { x: x + u * normal(), y: y + u * normal() };
  });
  const zone = (t: number): PicturePoint => {
    const [v, w] = [long * Math.cos(t), long * ratio * Math.sin(t)];
    return { x: 400 + away * Math.cos(way) + v * Math.cos(turn) - w * Math.sin(turn), y: 300 + away * Math.sin(way) + v * Math.sin(turn) + w * Math.cos(turn) };
  };
  return {
    section: { points: along(points[0], (t) => ({ x: 400 + 250 * Math.cos(t), y: 300 + 250 * Math.sin(t) })), shape: shape[0] },
    final: { points: along(points[1], zone), shape: shape[1] },
    origins: [],
  };
}

describe('the share of the final zone against pictures whose share is known', () => {
  const SHARES = [0.04, 0.08, 0.139, 0.2, 0.3];
  const deviations = (shape: readonly [BorderShape, BorderShape], points: readonly [number, number], each: number) => {
    const random = createRandom(20261129);
    return SHARES.flatMap((share) => Array.from({ length: each }, () => {
      const marks = marked(() => random.uniform(), { points, u: 2, share, shape });
      const read = there(readMarks(marks));
      return { off: (read.finalShare - share) / share, inU: (read.finalShare - share) / fractureUncertainty(marks, 2).finalShare };
    }));
  };

  it('circle and ellipse through a few points: the truth lies within two standard uncertainties as often as it should', () => {
    for (const points of [[4, 6], [8, 10]] as const) {
      const all = deviations(['circle', 'ellipse'], points, size(16, 60));
      // 80 pictures with 95 % expected: four standard deviations are 10 %.
      expect(all.filter(({ inU }) => Math.abs(inU) <= 2).length / all.length, `${points.join(' and ')} points`).toBeGreaterThan(0.85);
      expect(Math.max(...all.map(({ off }) => Math.abs(off)))).toBeLessThan(points[1] === 6 ? 0.35 : 0.2);
    }
  });

  it('straight sides leave out what lies beyond them, and the uncertainty says so', () => {
    const all = deviations(['corners', 'corners'], [8, 10], size(16, 60));
    expect(all.filter(({ inU }) => Math.abs(inU) <= 2).length / all.length).toBeGreaterThan(0.85);
  });

  it('three points on a round bar are a circle: 13.9 % is read as that, where a triangle gave 32.1 %', () => {
    const on = (radius: number, count: number): readonly PicturePoint[] => Array.from({ length: count }, (_, i) => ({ x: 400 + radius * Math.cos((2 * Math.PI * i) / count), y: 300 + radius * Math.sin((2 * Math.PI * i) / count) }));
    const final = on(250 * Math.sqrt(0.139), 8);
    const read = (shape: BorderShape): number => readMarks({ section: { points: on(250, 3), shape }, final: { points: final, shape: shape === 'circle' ? 'ellipse' : 'corners' }, origins: [] })?.finalShare ?? Number.NaN;
    expect(read('circle')).toBeCloseTo(0.139, 9);
    expect(read('corners')).toBeGreaterThan(0.28);
  });
});

describe('chords', () => {
  it('of a regular polygon leave out what lies between it and its circle', () => {
    // π r² less (n/2) r² sin(2π/n).
    for (const n of [8, 12, 24]) {
      const points = Array.from({ length: n }, (_, i) => ({ x: 100 * Math.cos((2 * Math.PI * i) / n), y: 100 * Math.sin((2 * Math.PI * i) / n) }));
      const left = 1e4 * (Math.PI - (n / 2) * Math.sin((2 * Math.PI) / n));
      expect(leftOutByChords(points) / left).toBeCloseTo(1, n > 10 ? 1 : 0);
    }
  });
  it('of a segment leave out what lies beyond its arc, up to the corners at both ends', () => {
    // A segment that turns by 2φ, its arc in n chords: n (r²/2)(2φ/n − sin(2φ/n)), any table of plane figures; the front is straight.
    const [half, n] = [1.2, 6];
    const arc = Array.from({ length: n + 1 }, (_, i) => ({ x: 100 * Math.cos(half * ((2 * i) / n - 1)), y: 100 * Math.sin(half * ((2 * i) / n - 1)) }));
    const front = [0.4, 0, -0.4].map((share) => ({ x: 100 * Math.cos(half), y: share * 100 * Math.sin(half) }));
    const left = n * (1e4 / 2) * ((2 * half) / n - Math.sin((2 * half) / n));
    expect(leftOutByChords([...arc, ...front]) / left).toBeCloseTo(1, 1);
  });
  it('of a strip leave out nothing: its corners are sharp', () => {
    expect(leftOutByChords(rectangle(200, 50))).toBe(0);
  });
});

describe('what of a round final zone lies beyond the rim', () => {
  it('is not counted: two circles of the same size, their middles one radius apart, share 2π/3 − √3/2 radii squared', () => {
    const on = (at: number): readonly PicturePoint[] => Array.from({ length: 12 }, (_, i) => ({ x: at + 100 * Math.cos((2 * Math.PI * i) / 12), y: 100 * Math.sin((2 * Math.PI * i) / 12) }));
    const { finalShare } = there(readMarks({ section: circle(on(0)), final: circle(on(100)), origins: [] }));
    expect(finalShare / ((2 * Math.PI) / 3 - Math.sqrt(3) / 2) * Math.PI).toBeCloseTo(1, 2);
  });
});
