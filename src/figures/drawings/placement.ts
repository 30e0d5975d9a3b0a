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

/** A thin line that is interrupted for letters is better not, but costs less than anything else they could stand on. */
const COST_OF_THIN = 1e-3;

/**
 * The first candidate, moved into the drawing's width, that touches nothing; else the one that touches least.
 * @param thin boxes of lines that are interrupted where letters have to stand on them
 */
export function placeFree(candidates: readonly Area[], taken: readonly Area[], drawingWidth: number, thin: readonly Area[] = []): Area {
  let best: Area | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const candidate of candidates) {
    const x = Math.max(2, Math.min(candidate.x, drawingWidth - 2 - candidate.width));
    const area = { ...candidate, x };
    const touched = touchedBy(area, taken) + COST_OF_THIN * touchedBy(area, thin);
    if (touched < least) {
      best = area;
      least = touched;
    }
    if (touched === 0) break;
  }
  if (!best) throw new RangeError('placeFree needs at least one candidate');
  return best;
}

function touchedBy(area: Area, others: readonly Area[]): number {
  return others.reduce((sum, other) => sum + overlap(area, other), 0);
}

/** What is left of a vertical line at `x` once it is interrupted for letters, as stretches from top to bottom. */
export function interrupted(x: number, from: number, to: number, letters: readonly Area[]): { readonly from: number; readonly to: number }[] {
  const gaps = letters.filter((area) => x > area.x - GAP && x < area.x + area.width + GAP && area.y < to && area.y + area.height > from)
    .toSorted((a, b) => a.y - b.y);
  const stretches: { from: number; to: number }[] = [];
  let start = from;
  for (const gap of gaps) {
    stretches.push({ from: start, to: gap.y });
    start = Math.max(start, gap.y + gap.height);
  }
  return [...stretches, { from: start, to }].filter((stretch) => stretch.to - stretch.from > GAP);
}

/** Left and right of letters, and the shortest piece of a line worth drawing, px. */
const GAP = 2;
