import { arrowhead, circle, group, line, path, polygon, type Point } from './markup.ts';

/** Half thickness of the shaft and of its waist in px: a drawing of where things stand, not of how thick they are. */
export const SHAFT_HALF = 8;
const WAIST_HALF = 4.5;
const WAIST_REACH = 24;
/** From the underside of the shaft to the ground line of a support, and to the foot of the hatching. */
export const SUPPORT_HEIGHT = 18;
export const GROUND_DEPTH = 6;

/** The shaft from `from` to `to` along `y`; with a waist, an hourglass around `waist`. */
export function shaft(from: number, to: number, y: number, waist: number | undefined): string {
  const [top, bottom] = [y - SHAFT_HALF, y + SHAFT_HALF];
  if (waist === undefined || waist - WAIST_REACH < from || waist + WAIST_REACH > to) {
    return path(['M', from, top, 'H', to, 'V', bottom, 'H', from, 'Z'], 'outline');
  }
  const [left, right] = [waist - WAIST_REACH, waist + WAIST_REACH];
  // A quadratic curve reaches half way to its control point.
  const [upper, lower] = [y - 2 * WAIST_HALF + SHAFT_HALF, y + 2 * WAIST_HALF - SHAFT_HALF];
  return path(['M', from, top, 'H', left, 'Q', waist, upper, right, top, 'H', to, 'V', bottom, 'H', right,
    'Q', waist, lower, left, bottom, 'H', from, 'Z'], 'outline');
}

/** The chain-dotted line along the shaft's axis. */
export function centreLine(from: number, to: number, y: number): string {
  return line({ x: from, y }, { x: to, y }, 'centre-line');
}

/** Ground line with hatching below, around `x`. */
function ground(x: number, y: number): string[] {
  const half = 16;
  const strokes = [-12, -6, 0, 6, 12, 18].map((step) =>
    line({ x: x + step - 2, y }, { x: x + step - 2 - GROUND_DEPTH, y: y + GROUND_DEPTH }, 'ground-hatch'));
  return [line({ x: x - half, y }, { x: x + half, y }, 'ground'), ...strokes];
}

/** Pin: a triangle that holds the shaft both ways. Its apex is at `top`. */
export function pinSupport(x: number, top: number): string {
  const foot = top + SUPPORT_HEIGHT;
  return group('support', [
    polygon([{ x, y: top }, { x: x + 11, y: foot }, { x: x - 11, y: foot }], 'outline'),
    ...ground(x, foot),
  ]);
}

/** Roller: free to move along the shaft. */
export function rollerSupport(x: number, top: number): string {
  const radius = SUPPORT_HEIGHT / 2;
  return group('support', [circle({ x, y: top + radius }, radius - 0.4, 'outline'), ...ground(x, top + SUPPORT_HEIGHT)]);
}

/** Rotation about the shaft's axis: an arc seen aslant around the shaft's end at `x`, open where it passes behind. */
export function rotation(x: number, y: number): string {
  const [rx, ry] = [6, 17];
  const at = (angle: number): Point => ({ x: x + rx * Math.cos(angle), y: y + ry * Math.sin(angle) });
  const start = at(-0.6 * Math.PI);
  const end = at(0.4 * Math.PI);
  const arc = path(['M', start.x, start.y, 'A', rx, ry, 0, 0, 1, end.x, end.y], 'motion');
  const direction = { x: -0.75, y: 0.661 };
  return group('rotation', [arc, arrowhead({ x: end.x + direction.x * 6, y: end.y + direction.y * 6 }, direction, 9, 6, 'motion-head')]);
}

/** Where a cross-section is looked at: a long chain line with thick ends across the shaft. */
export function sectionMark(x: number, top: number, bottom: number): string {
  return group('section-mark', [
    line({ x, y: top }, { x, y: bottom }, 'section-line'),
    line({ x, y: top }, { x, y: top + 8 }, 'section-end'),
    line({ x, y: bottom - 8 }, { x, y: bottom }, 'section-end'),
  ]);
}

const FORCE_HEAD = { length: 11, width: 7 };

/**
 * A force along a vertical line from `tail` to `tip`, whichever is higher. Very short ones keep their length: the head shrinks.
 */
export function forceArrow(x: number, tail: number, tip: number, className: string): string {
  const length = Math.abs(tip - tail);
  if (length < 0.5) return '';
  const direction = { x: 0, y: Math.sign(tip - tail) };
  const head = Math.min(FORCE_HEAD.length, length);
  const shank = line({ x, y: tail }, { x, y: tip - direction.y * head * 0.8 }, 'force-line');
  return group(className, [shank, arrowhead({ x, y: tip }, direction, head, (FORCE_HEAD.width * head) / FORCE_HEAD.length, 'force-head')]);
}
