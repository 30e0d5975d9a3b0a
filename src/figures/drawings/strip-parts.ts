import type { StripShape } from '../../core/mechanics/index.ts';
import type { Axis } from './axis.ts';
import { arrowhead, circle, group, line, path } from './markup.ts';
import { pinSupport, rollerSupport } from './parts.ts';
import type { StripForm } from './strip-figure.ts';

/** Vertical scale and level of a strip's drawing. */
export interface StripLevels {
  /** The centre line of the unloaded strip, px. */
  readonly middle: number;
  /** Half the strip's height, px. */
  readonly half: number;
}

/** From the strip to the outer edge of a clamp's jaw, and how far the jaw reaches beside the strip, px. */
export const JAW = 24;
const JAW_WIDTH = 30;
const PIECES = 48;

/** The strip from clamp or left support to its end, with its driven point raised by `raised` px. */
export function stripOutline(
  { shape, length }: { readonly shape: StripShape; readonly length: number }, raised: number, axis: Axis, { middle, half }: StripLevels, className: string,
): string {
  const { deflection } = shape;
  const count = raised === 0 ? 1 : PIECES;
  const centres = Array.from({ length: count + 1 }, (_, i) => ({ x: axis.x((i / count) * length), y: middle - raised * deflection(i / count) }));
  const upper = centres.flatMap(({ x, y }, i) => [i === 0 ? 'M' : 'L', x, y - half]);
  const lower = centres.toReversed().flatMap(({ x, y }) => ['L', x, y + half]);
  return path([...upper, ...lower, 'Z'], className);
}

/** What supports the strip: jaws at the left end, a guide at the right one, or two supports below. */
export function stripSupport(support: StripForm, length: number, axis: Axis, levels: StripLevels): string {
  const { middle, half } = levels;
  if (support === 'centre') {
    return group('body', [pinSupport(axis.x(0), middle + half), rollerSupport(axis.x(length), middle + half)]);
  }
  const x = axis.x(0);
  return group('body', [
    line({ x: x - JAW_WIDTH, y: middle - half }, { x, y: middle - half }, 'ground'),
    line({ x: x - JAW_WIDTH, y: middle + half }, { x, y: middle + half }, 'ground'),
    jaw(x, middle - half - JAW, middle - half),
    jaw(x, middle + half, middle + half + JAW),
  ]);
}

/** One jaw of the clamp, its cut face hatched. */
function jaw(right: number, top: number, bottom: number): string {
  const left = right - JAW_WIDTH;
  const strokes = [0.2, 0.5, 0.8].map((share) => {
    const at = left + share * JAW_WIDTH;
    return line({ x: at - 7, y: bottom - 5 }, { x: at + 7, y: top + 5 }, 'ground-hatch');
  });
  return group('clamp', [path(['M', left, top, 'H', right, 'V', bottom, 'H', left, 'Z'], 'outline'), ...strokes]);
}

/** A guided end: the strip's end sits square in a block that slides up and down between two lines. */
export function slidingGuide(length: number, reach: number, axis: Axis, { middle, half }: StripLevels): string {
  const x = axis.x(length);
  const [top, bottom] = [middle - reach - half - 14, middle + reach + half + 14];
  return group('guide-block', [
    path(['M', x, middle - half - 8, 'h', 9, 'V', middle + half + 8, 'h', -9, 'Z'], 'outline'),
    line({ x: x + 13, y: top }, { x: x + 13, y: bottom }, 'ground'),
    ...[0.1, 0.35, 0.6, 0.85].map((share) => {
      const y = top + share * (bottom - top);
      return line({ x: x + 13, y: y + 6 }, { x: x + 19, y }, 'ground-hatch');
    }),
  ]);
}

/** The driven point with the stroke as an arrow both ways. */
export function driveMark(x: number, middle: number, low: number, high: number): string {
  const long = Math.abs(high - low) > 14;
  const head = long ? 8 : 4;
  return group('drive', [
    line({ x, y: high }, { x, y: low }, 'motion'),
    arrowhead({ x, y: high }, { x: 0, y: -1 }, head, head * 0.75, 'motion-head'),
    arrowhead({ x, y: low }, { x: 0, y: 1 }, head, head * 0.75, 'motion-head'),
    circle({ x, y: middle }, 3, 'outline'),
  ]);
}

/** Narrow arrows that close in on the strip's height at `x` from outside. */
export function heightArrows(x: number, { middle, half }: StripLevels): string {
  const arm = 18;
  const arrow = (edge: number, way: 1 | -1): string =>
    line({ x, y: edge - way * arm }, { x, y: edge - way * 8 }, 'dimension-line') + arrowhead({ x, y: edge }, { x: 0, y: way }, 9, 3, 'dimension-head');
  return arrow(middle - half, 1) + arrow(middle + half, -1);
}
