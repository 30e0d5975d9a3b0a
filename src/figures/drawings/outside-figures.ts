import type { Axis } from './axis.ts';
import type { Point } from './markup.ts';
import { lineArea, overlap } from './placement.ts';
import type { Area, Dimension } from './types.ts';

/** A figure that its span has no room for. */
interface TooLong {
  readonly dimension: Dimension;
  /** Middle of the span, and width of the letters, px. */
  readonly middle: number;
  readonly width: number;
}

/** The same below its dimension line, with a leader from the middle of the span to the shoulder that it stands on. */
export interface Outside {
  readonly dimension: Dimension;
  readonly area: Area;
  readonly shoulder: number;
  readonly leader: readonly Point[];
}

const OFFSETS = [10, 30, 60, 110, 0];
const MOST_LEVELS = 4;

/**
 * Places figures below the dimension line at `y`, each clear of the others and of their leaders; on as few levels as that takes.
 * @param below where extension lines pass on their way down; they are avoided where that is possible
 */
export function placeOutside(figures: readonly TooLong[], axis: Axis, y: number, below: readonly number[]): Outside[] {
  const placed: Outside[] = [];
  for (const figure of figures) {
    const choices = Array.from({ length: MOST_LEVELS }, (_, level) => choicesAt(figure, axis, y, level)).flat();
    const clear = choices.filter((choice) => placed.every((other) => !meets(choice, other)));
    const uncrossed = clear.find((choice) => !below.some((x) => overlap(choice.area, lineArea(x, y, x, choice.shoulder)) > 0));
    const chosen = uncrossed ?? clear[0] ?? choices.at(-1);
    if (chosen !== undefined) placed.push(chosen);
  }
  return placed;
}

function choicesAt({ dimension, middle, width }: TooLong, axis: Axis, y: number, level: number): Outside[] {
  const height = axis.textSize * 1.2 + 2;
  const shoulder = y + (level + 1) * (height + 8);
  return OFFSETS.flatMap((offset) => [middle + offset, middle - offset - width]).flatMap((wanted): Outside[] => {
    const x = Math.max(2, Math.min(wanted, axis.width - 2 - width));
    const [near, far] = x + width / 2 > middle ? [x, x + width] : [x + width, x];
    const area = { x, y: shoulder - height, width, height };
    const leader = [{ x: middle, y }, { x: near, y: shoulder }, { x: far, y: shoulder }];
    // A leader through its own figure: the figure was moved into the drawing from beyond its edge.
    const inner = { x: x + 2, y: area.y, width: width - 4, height: height - 2 };
    return strokeAreas(leader.slice(0, 2)).some((piece) => overlap(piece, inner) > 0) ? [] : [{ dimension, area, shoulder, leader }];
  });
}

function meets(a: Outside, b: Outside): boolean {
  const [strokesA, strokesB] = [strokeAreas(a.leader), strokeAreas(b.leader)];
  return overlap(a.area, b.area) > 0
    || strokesA.some((piece) => overlap(piece, b.area) > 0) || strokesB.some((piece) => overlap(piece, a.area) > 0)
    || strokesA.some((piece) => strokesB.some((other) => overlap(piece, other) > 0));
}

/** A leader in short pieces, each as a box. */
function strokeAreas(points: readonly Point[]): Area[] {
  return points.slice(1).flatMap((to, index) => {
    const from = points[index] ?? to;
    const pieces = Math.max(1, Math.ceil(Math.abs(to.y - from.y) / 3));
    const at = (share: number): Point => ({ x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share });
    return Array.from({ length: pieces }, (_, piece) => {
      const [a, b] = [at(piece / pieces), at((piece + 1) / pieces)];
      return lineArea(a.x, a.y, b.x, b.y, 0.5);
    });
  });
}
