import type { Area } from './types.ts';

/** Area shared by two boxes, px². */
export function overlap(a: Area, b: Area): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

/** A vertical or horizontal line as a box that letters should not touch. */
export function lineArea(x1: number, y1: number, x2: number, y2: number, margin = 2): Area {
  return {
    x: Math.min(x1, x2) - margin,
    y: Math.min(y1, y2) - margin,
    width: Math.abs(x2 - x1) + 2 * margin,
    height: Math.abs(y2 - y1) + 2 * margin,
  };
}

/** The first candidate, moved into the drawing's width, that touches nothing; else the one that touches least. */
export function placeFree(candidates: readonly Area[], taken: readonly Area[], drawingWidth: number): Area {
  let best: Area | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const x = Math.max(2, Math.min(candidate.x, drawingWidth - 2 - candidate.width));
    const area = { ...candidate, x };
    const touched = taken.reduce((sum, other) => sum + overlap(area, other), 0);
    if (touched < least) {
      best = area;
      least = touched;
    }
    if (touched === 0) break;
  }
  if (!best) throw new RangeError('placeFree needs at least one candidate');
  return best;
}
