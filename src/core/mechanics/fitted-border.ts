import { leastSquares } from '../numeric/index.ts';
import type { PicturePoint } from './fracture-zones.ts';

/** An ellipse as the image of the unit circle: a symmetric matrix, which has no angle that a circle leaves open, and a centre. Lengths in the unit of the points. */
export interface FittedEllipse {
  readonly centre: PicturePoint;
  /** Matrix of the map, xx, xy and yy: positive definite, its eigenvalues the semi-axes. */
  readonly map: { readonly xx: number; readonly xy: number; readonly yy: number };
  /** Distances of the points from it along its normals, outwards positive. */
  readonly residuals: readonly number[];
}

/** Fewest points that decide a circle and an ellipse. */
export const POINTS_OF = { circle: 3, ellipse: 5 } as const;

const MOST_STEPS = 60;
/** A step smaller than this share of the size is none. */
const CLOSE = 1e-10;
/** No circle or ellipse larger than so many times the points' spread is one that they show: they lie on a line. */
const FLAT = 50;

/**
 * The circle whose points lie nearest to the given ones, by the squares of the distances from it; undefined below three points and where they lie on a line.
 * @source Gander, Golub and Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558, section 3, begun at the algebraic circle of its section 2
 */
export function fitCircle(points: readonly PicturePoint[]): FittedEllipse | undefined {
  const begun = algebraicCircle(points);
  if (begun === undefined) return undefined;
  const found = nearestBy(begun, ([x = 0, y = 0, r = 0]) => points.map((point) => Math.hypot(point.x - x, point.y - y) - r));
  if (found === undefined) return undefined;
  const [x = 0, y = 0, r = 0] = found.parameters;
  if (!(Math.abs(r) < FLAT * spreadOf(points))) return undefined;
  return Object.freeze({ centre: { x, y }, map: { xx: r, xy: 0, yy: r }, residuals: found.residuals });
}

/**
 * The ellipse whose points lie nearest to the given ones, by the squares of the distances along its normals; undefined below five points and where no ellipse lies near.
 * @source the same, section 5
 */
export function fitEllipse(points: readonly PicturePoint[]): FittedEllipse | undefined {
  if (points.length < POINTS_OF.ellipse) return undefined;
  const from = (start: readonly number[]): Nearest | undefined => nearestBy(start, ([x = 0, y = 0, xx = 0, xy = 0, yy = 0]) => distancesFrom({ x, y }, { xx, xy, yy }, points));
  const first = from(byMoments(points));
  const found = first !== undefined && isNear(first) ? first : nearer(first, fromCircle(points, from));
  if (found === undefined) return undefined;
  const [x = 0, y = 0, xx = 0, xy = 0, yy = 0] = found.parameters;
  const { long, short } = axesOf({ xx, xy, yy });
  if (!(short > 0) || long > FLAT * spreadOf(points)) return undefined;
  return Object.freeze({ centre: { x, y }, map: { xx, xy, yy }, residuals: found.residuals });
}

/** Semi-axes of an ellipse, and the direction of the long one, radians from the first axis of the picture towards the second. */
export function axesOf({ xx, xy, yy }: FittedEllipse['map']): { readonly long: number; readonly short: number; readonly angle: number } {
  const [middle, half] = [(xx + yy) / 2, Math.hypot((xx - yy) / 2, xy)];
  return { long: middle + half, short: middle - half, angle: Math.atan2(2 * xy, xx - yy) / 2 };
}

/** Points so near, as a share of the size, have found their ellipse. */
const NEAR = 0.05;

function isNear({ parameters, residuals }: Nearest): boolean {
  return Math.sqrt(sumOfSquares(residuals) / residuals.length) < NEAR * Math.max(...parameters.slice(2).map(Math.abs));
}

/** A hand seldom goes round evenly: where the points' moments lead nowhere near, the nearest circle may. */
function fromCircle(points: readonly PicturePoint[], from: (start: readonly number[]) => Nearest | undefined): Nearest | undefined {
  const round = fitCircle(points);
  return round === undefined ? undefined : from([round.centre.x, round.centre.y, round.map.xx, 0, round.map.yy]);
}

function nearer(one: Nearest | undefined, other: Nearest | undefined): Nearest | undefined {
  if (one === undefined || other === undefined) return one ?? other;
  return sumOfSquares(one.residuals) <= sumOfSquares(other.residuals) ? one : other;
}

/** The mean square of evenly spread places on an ellipse is half its map's square. */
function byMoments(points: readonly PicturePoint[]): readonly number[] {
  const middle = middleOf(points);
  const mean = (of: (dx: number, dy: number) => number): number => (2 / points.length) * points.reduce((sum, { x, y }) => sum + of(x - middle.x, y - middle.y), 0);
  const [xx, xy, yy] = [mean((dx) => dx * dx), mean((dx, dy) => dx * dy), mean((_, dy) => dy * dy)];
  // Root of a symmetric matrix of two rows: (C + √det C)/√(trace C + 2 √det C).
  const root = Math.sqrt(Math.max(0, xx * yy - xy * xy));
  const scale = Math.sqrt(xx + yy + 2 * root) || 1;
  return [middle.x, middle.y, (xx + root) / scale, xy / scale, (yy + root) / scale];
}

/** x² + y² = 2 x₀ x + 2 y₀ y + c by least squares, about the points' middle. */
function algebraicCircle(points: readonly PicturePoint[]): readonly [number, number, number] | undefined {
  if (points.length < POINTS_OF.circle) return undefined;
  const middle = middleOf(points);
  const [xs, ys] = [points.map(({ x }) => x - middle.x), points.map(({ y }) => y - middle.y)];
  const fit = leastSquares([points.map(() => 1), xs, ys], xs.map((x, i) => x * x + (ys[i] ?? 0) ** 2));
  if (fit === undefined) return undefined;
  const [c = 0, x2 = 0, y2 = 0] = fit.coefficients;
  return [middle.x + x2 / 2, middle.y + y2 / 2, Math.sqrt(Math.max(0, c + (x2 * x2 + y2 * y2) / 4))];
}

interface Nearest {
  readonly parameters: readonly number[];
  readonly residuals: readonly number[];
}

/** Gauss and Newton's steps, each shortened until it helps. @returns undefined where the numbers run away */
function nearestBy(begun: readonly number[], residualsOf: (parameters: readonly number[]) => readonly number[]): Nearest | undefined {
  let now: Nearest = { parameters: begun, residuals: residualsOf(begun) };
  for (let count = 0; count < MOST_STEPS; count++) {
    const size = Math.max(...now.parameters.slice(2).map(Math.abs));
    const step = stepFrom(now, residualsOf, size);
    if (step === undefined) return undefined;
    if (Math.max(...step.map(Math.abs)) <= CLOSE * size) return now;
    const better = shortened(now, step, residualsOf);
    if (better === undefined) return now;
    now = better;
  }
  return Number.isFinite(sumOfSquares(now.residuals)) ? now : undefined;
}

function stepFrom({ parameters, residuals }: Nearest, residualsOf: (parameters: readonly number[]) => readonly number[], size: number): readonly number[] | undefined {
  const width = 1e-5 * size;
  const columns = parameters.map((value, j) => {
    const [after, before] = [residualsOf(parameters.with(j, value + width)), residualsOf(parameters.with(j, value - width))];
    return after.map((one, i) => (one - (before[i] ?? 0)) / (2 * width));
  });
  return leastSquares(columns, residuals.map((one) => -one))?.coefficients;
}

function shortened({ parameters, residuals }: Nearest, step: readonly number[], residualsOf: (parameters: readonly number[]) => readonly number[]): Nearest | undefined {
  const before = sumOfSquares(residuals);
  for (let share = 1; share > 1e-6; share /= 2) {
    const tried = parameters.map((value, j) => value + share * (step[j] ?? 0));
    const next = residualsOf(tried);
    if (sumOfSquares(next) < before) return { parameters: tried, residuals: next };
  }
  return undefined;
}

function distancesFrom(centre: PicturePoint, map: FittedEllipse['map'], points: readonly PicturePoint[]): readonly number[] {
  const { long, short, angle } = axesOf(map);
  // Past a flat one there is nothing to find.
  if (!(short > 1e-6 * long)) return points.map(() => Number.NaN);
  const [cosine, sine] = [Math.cos(angle), Math.sin(angle)];
  return points.map((point) => {
    const [dx, dy] = [point.x - centre.x, point.y - centre.y];
    return distanceFrom(long, short, Math.abs(dx * cosine + dy * sine), Math.abs(dy * cosine - dx * sine));
  });
}

/**
 * Distance of a place (x, y ≥ 0) from an ellipse in its own axes: the foot of the normal is (a² x/(t + a²), b² y/(t + b²)) with t the greatest root of
 * (a x/(t + a²))² + (b y/(t + b²))² = 1. The function falls and bends upwards beyond −b², so that Newton's steps from below the root come to it from one side.
 */
function distanceFrom(a: number, b: number, x: number, y: number): number {
  let t = Math.max(b * y - b * b, a * x - a * a);
  if (t <= -b * b) {
    // On the long axis between the centres of curvature: the nearest places lie on both sides of it.
    const cosine = (a * x) / (a * a - b * b);
    return -Math.hypot(a * cosine - x, b * Math.sqrt(Math.max(0, 1 - cosine * cosine)));
  }
  for (let count = 0; count < 80; count++) {
    const [p, q] = [(a * x) / (t + a * a), (b * y) / (t + b * b)];
    const over = p * p + q * q - 1;
    const next = t + over / (2 * ((p * p) / (t + a * a) + (q * q) / (t + b * b)));
    if (!(next > t)) break;
    t = next;
  }
  return Math.sign(t) * Math.hypot((x * t) / (t + a * a), (y * t) / (t + b * b));
}

function spreadOf(points: readonly PicturePoint[]): number {
  const middle = middleOf(points);
  return Math.max(...points.map(({ x, y }) => Math.hypot(x - middle.x, y - middle.y)));
}

function middleOf(points: readonly PicturePoint[]): PicturePoint {
  const n = Math.max(1, points.length);
  return { x: points.reduce((sum, { x }) => sum + x, 0) / n, y: points.reduce((sum, { y }) => sum + y, 0) / n };
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value * value, 0);
}
