import { arrowhead, circle, line, polygon, type Point } from '../drawings/markup.ts';

/** What Plot asks of a symbol. */
interface Shape {
  readonly draw: (context: PathContext, area: number) => void;
  /** Corners around (0, 0) for a half width of 1; none for the circle. */
  readonly corners: readonly Point[];
}

interface PathContext {
  moveTo(x: number, y: number): void;
  lineTo(x: number, y: number): void;
  closePath(): void;
  arc(x: number, y: number, radius: number, from: number, to: number): void;
}

const CORNERS: readonly (readonly Point[])[] = [
  [],
  [{ x: 0, y: -1.25 }, { x: 1.15, y: 0.8 }, { x: -1.15, y: 0.8 }],
  [{ x: -0.92, y: -0.92 }, { x: 0.92, y: -0.92 }, { x: 0.92, y: 0.92 }, { x: -0.92, y: 0.92 }],
  [{ x: 0, y: -1.35 }, { x: 1.15, y: 0 }, { x: 0, y: 1.35 }, { x: -1.15, y: 0 }],
  [{ x: 0, y: 1.25 }, { x: 1.15, y: -0.8 }, { x: -1.15, y: -0.8 }],
];

/** Groups are told apart by these shapes in turn; the hue beside it repeats at the same pace. */
const SHAPES: readonly Shape[] = CORNERS.map((corners) => ({
  corners,
  draw: (context, area) => {
    const size = Math.sqrt(area / Math.PI);
    const [first, ...rest] = corners;
    if (first === undefined) {
      context.moveTo(size, 0);
      context.arc(0, 0, size, 0, 2 * Math.PI);
      return;
    }
    context.moveTo(first.x * size, first.y * size);
    for (const corner of rest) context.lineTo(corner.x * size, corner.y * size);
    context.closePath();
  },
}));

/** Half width of a mark, px. */
export const MARK = 4.2;

export function shapeOf(group: number): Shape {
  return SHAPES[group % SHAPES.length] ?? { corners: [], draw: () => undefined };
}

/** Class of a group's marks. */
export function groupClass(group: number): string {
  return `group-${(group % SHAPES.length) + 1}`;
}

/** One mark as markup, for keys. */
export function markAt(group: number, x: number, y: number, className: string): string {
  const { corners } = shapeOf(group);
  const classes = `${className} ${groupClass(group)}`;
  if (corners.length === 0) return circle({ x, y }, MARK, classes);
  return polygon(corners.map((corner) => ({ x: x + corner.x * MARK, y: y + corner.y * MARK })), classes);
}

/** The arrow of a test that was stopped unbroken: its life lies further to the right. */
export function runoutArrow(x: number, y: number): string {
  const tip = x + MARK + 15;
  return line({ x: x + MARK + 1, y }, { x: tip - 5, y }, 'runout-line') + arrowhead({ x: tip, y }, { x: 1, y: 0 }, 7, 5, 'runout-head');
}

/** A slanted cross, for what is kept and not counted. */
export function crossAt(x: number, y: number, half: number, className: string): string {
  return line({ x: x - half, y: y - half }, { x: x + half, y: y + half }, className)
    + line({ x: x - half, y: y + half }, { x: x + half, y: y - half }, className);
}
