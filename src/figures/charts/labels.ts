import { lettering, runsWidth, wrap } from '../drawings/lettering.ts';
import { circle, line, type Point } from '../drawings/markup.ts';
import { lineArea, overlap } from '../drawings/placement.ts';
import type { Area, Run } from '../drawings/types.ts';
import type { Layout } from './layout.ts';
import type { KeyEntry } from './types.ts';

/** What is to be named, and where it may be pointed at. */
export interface Named {
  readonly runs: readonly Run[];
  readonly className: string;
  /** Places that the label may point at, the best first. */
  readonly at: readonly Point[];
  readonly sides: readonly ('left' | 'right')[];
  /** Only right beside the place: it stands off what is named already, and a leader from there would point at nothing. */
  readonly isBeside?: boolean;
}

const GAPS = [8, 22, 40, 64, 92, 124];
const LINE_HEIGHT = 1.25;

/** The boxes of a curve that no letters should touch. */
export function curveAreas(points: readonly Point[]): Area[] {
  return points.slice(1).map((to, i) => {
    const from = points[i] ?? to;
    return lineArea(from.x, from.y, to.x, to.y, 2);
  });
}

/** Places along a curve, the middle first. */
export function alongCurve(points: readonly Point[]): Point[] {
  const last = points.length - 1;
  return [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9].flatMap((share) => points[Math.round(share * last)] ?? []);
}

/**
 * Names what is named beside it, with a leader where it stands off, and adds what it covers to `taken`; undefined where
 * there is no free place for it in the plot.
 * @param taken boxes of letters and marks, which leaders may not cross either; @param lines boxes that only letters avoid
 */
export function direct(named: Named, layout: Layout, taken: Area[], lines: readonly Area[]): string | undefined {
  const { textSize: size } = layout;
  const [width, height] = [wordsWidth(named.runs, size), size * LINE_HEIGHT];
  for (const gap of named.isBeside === true ? GAPS.slice(0, 1) : GAPS) {
    for (const place of named.at) {
      for (const side of named.sides) {
        const x = side === 'right' ? place.x + gap : place.x - gap - width;
        const box = { x, y: place.y - height / 2, width, height };
        const leader = lineArea(place.x, place.y, side === 'right' ? x : x + width, place.y, 1);
        if (!fits(box, layout) || touches(box, taken) || touches(box, lines) || touches(leader, taken)) continue;
        taken.push(box, leader);
        return leaderLine(place, side === 'right' ? x - 4 : x + width + 3, gap)
          + lettering(named.runs, {
            x: side === 'right' ? x : x + width, y: place.y + size * 0.34, anchor: side === 'right' ? 'start' : 'end', size, className: named.className,
          });
      }
    }
  }
  return undefined;
}

function leaderLine(place: Point, to: number, gap: number): string {
  if (gap <= 8) return '';
  return line(place, { x: to, y: place.y }, 'leader') + circle(place, 1.6, 'leader-dot');
}

function fits(box: Area, { left, right, top, bottom }: Layout): boolean {
  return box.x >= left + 4 && box.x + box.width <= right - 4 && box.y >= top + 4 && box.y + box.height <= bottom - 4;
}

function touches(box: Area, others: readonly Area[]): boolean {
  return others.some((other) => overlap(box, other) > 0);
}

const SWATCH = 30;
/** The widths of letters are estimates, and some systems' sans is wide. */
const WIDE_SANS = 1.1;

function wordsWidth(runs: readonly Run[], size: number): number {
  return runsWidth(runs, size) * WIDE_SANS;
}

export interface Key {
  readonly svg: string;
  readonly rows: number;
}

/** Entries in rows from `left` to the right edge, broken where one is longer than a row, the first line's middle at `top`. */
export function keyRows(entries: readonly KeyEntry[], layout: Layout, left: number, top: number): Key {
  const { textSize: size } = layout;
  const parts: string[] = [];
  let [x, row] = [left, 0];
  const room = layout.width - 4 - left - SWATCH;
  for (const { runs, swatch } of entries) {
    const lines = wordsWidth(runs, size) > room ? wrap(runs, room / WIDE_SANS, size) : [runs];
    const width = SWATCH + Math.max(...lines.map((line) => wordsWidth(line, size)));
    if (x > left && x + width > layout.width - 4) {
      x = left;
      row += 1;
    }
    parts.push(swatch(x + SWATCH / 2 - 2, top + row * size * 1.45));
    for (const [index, line] of lines.entries()) {
      if (index > 0) row += 1;
      parts.push(lettering(line, { x: x + SWATCH, y: top + row * size * 1.45 + size * 0.34, anchor: 'start', size, className: 'word' }));
    }
    x += width + 16;
  }
  return { svg: parts.join(''), rows: entries.length === 0 ? 0 : row + 1 };
}
