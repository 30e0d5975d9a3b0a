import { remembered } from '../remembered/index.ts';
import { fitCircle, fitEllipse, POINTS_OF, type FittedEllipse } from './fitted-border.ts';
import type { PicturePoint } from './fracture-zones.ts';

/** How a border goes between marked points: on the nearest circle or ellipse, or straight from one to the next. */
export const BORDER_SHAPES = ['circle', 'ellipse', 'corners'] as const;
export type BorderShape = (typeof BORDER_SHAPES)[number];

export interface MarkedBorder {
  readonly points: readonly PicturePoint[];
  readonly shape: BorderShape;
}

export interface Border {
  /** Corners of a polygon; of a circle or an ellipse so many, and so far out, that its area is theirs. */
  readonly corners: readonly PicturePoint[];
  /** What it was laid as: through fewer than five points goes a circle where an ellipse was asked for. */
  readonly shape: BorderShape;
  /** How far the points lie off it, standard deviation with the freedom that the fit has left; 0 where it has none, and of corners. */
  readonly misfit: number;
}

/** Corners of a circle or an ellipse as a polygon. */
const ROUND_CORNERS = 90;

/** The border that marked points show; undefined below three points and where no circle or ellipse lies near them. Worked out once for each marked border. */
export const borderOf = remembered(({ points, shape }: MarkedBorder): Border | undefined => {
  if (points.length < 3) return undefined;
  if (shape === 'corners') return { corners: points, shape, misfit: 0 };
  const laid = shape === 'ellipse' && points.length < POINTS_OF.ellipse ? 'circle' : shape;
  const fitted = laid === 'circle' ? fitCircle(points) : fitEllipse(points);
  return fitted === undefined ? undefined : { corners: cornersOf(fitted), shape: laid, misfit: misfitOf(fitted, POINTS_OF[laid]) };
});

function cornersOf({ centre, map: { xx, xy, yy } }: FittedEllipse): readonly PicturePoint[] {
  const step = (2 * Math.PI) / ROUND_CORNERS;
  const out = Math.sqrt(step / Math.sin(step));
  return Array.from({ length: ROUND_CORNERS }, (_, i) => {
    const [u, v] = [out * Math.cos(i * step), out * Math.sin(i * step)];
    return { x: centre.x + xx * u + xy * v, y: centre.y + xy * u + yy * v };
  });
}

function misfitOf({ residuals }: FittedEllipse, parameters: number): number {
  const free = residuals.length - parameters;
  return free <= 0 ? 0 : Math.sqrt(residuals.reduce((sum, one) => sum + one * one, 0) / free);
}

/**
 * The part of a polygon that lies inside a convex one.
 * @source Sutherland and Hodgman, Reentrant polygon clipping, Communications of the ACM 17 (1974) 32
 */
export function partInside(polygon: readonly PicturePoint[], convex: readonly PicturePoint[]): readonly PicturePoint[] {
  const turn = Math.sign(convex.reduce((sum, a, i) => sum + cross(a, convex[(i + 1) % convex.length] ?? a, convex[0] ?? a), 0));
  return convex.reduce<readonly PicturePoint[]>((left, a, i) => cutAt(left, a, convex[(i + 1) % convex.length] ?? a, turn), polygon);
}

/** What lies on the inner side of the line from a to b. */
function cutAt(polygon: readonly PicturePoint[], a: PicturePoint, b: PicturePoint, turn: number): readonly PicturePoint[] {
  return polygon.flatMap((p, i) => {
    const q = polygon[(i + 1) % polygon.length] ?? p;
    const [at, next] = [turn * cross(a, b, p), turn * cross(a, b, q)];
    const kept = at >= 0 ? [p] : [];
    if (at >= 0 === next >= 0) return kept;
    const share = at / (at - next);
    return [...kept, { x: p.x + share * (q.x - p.x), y: p.y + share * (q.y - p.y) }];
  });
}

function cross(a: PicturePoint, b: PicturePoint, c: PicturePoint): number {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/** A corner that turns by more than this is a strip's, or one where two borders meet, and no place along something round. */
const SHARP = Math.PI / 3;

/**
 * What the straight sides between points along a round border leave out of its area, by arcs that turn as the sides do: an arc over a chord c that turns by θ has
 * c² θ/12 beyond it. A side between two sharp corners counts as straight; one with a sharp corner at one end turns as it does at the other.
 */
export function leftOutByChords(points: readonly PicturePoint[]): number {
  const n = points.length;
  const at = (i: number): PicturePoint => points[(i + n) % n] ?? { x: 0, y: 0 };
  const turns = points.map((_, i) => {
    const [a, b, c] = [at(i - 1), at(i), at(i + 1)];
    return Math.abs(Math.atan2(cross(a, b, c), (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y)));
  });
  return points.reduce((sum, point, i) => {
    const along = [turns[i] ?? 0, turns[(i + 1) % n] ?? 0].filter((turn) => turn <= SHARP);
    if (along.length === 0) return sum;
    const next = at(i + 1);
    return sum + (Math.hypot(next.x - point.x, next.y - point.y) ** 2 * (along.reduce((all, turn) => all + turn, 0) / along.length)) / 12;
  }, 0);
}
