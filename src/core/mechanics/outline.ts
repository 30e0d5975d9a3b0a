import type { PicturePoint } from './fracture-zones.ts';

/** Whether two sides of a polygon cross each other; sides that share a corner do not count. */
export function crossesItself(points: readonly PicturePoint[]): boolean {
  const n = points.length;
  for (let i = 0; i < n; i++) {
    for (let j = i + 2; j < n; j++) {
      if (i === 0 && j === n - 1) continue;
      const [a, b, c, d] = [points[i], points[i + 1], points[j], points[(j + 1) % n]];
      if (a && b && c && d && side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) return true;
    }
  }
  return false;
}

function side(a: PicturePoint, b: PicturePoint, c: PicturePoint): number {
  return Math.sign((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x));
}

/** Whether a point lies inside a polygon, counted by the sides that a ray to the right meets. */
export function isInside(point: PicturePoint, polygon: readonly PicturePoint[]): boolean {
  let inside = false;
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length] ?? a;
    if (a.y > point.y === b.y > point.y) return;
    if (point.x < a.x + ((b.x - a.x) * (point.y - a.y)) / (b.y - a.y)) inside = !inside;
  });
  return inside;
}
