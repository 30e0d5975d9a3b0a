import { fail, ok, type Result } from '../../core/problem/index.ts';

/** A place in the stored picture: dots to the right and down from its upper left corner. */
export interface MarkPoint {
  readonly x: number;
  readonly y: number;
}

/** Two points in the picture, as far as they are set, and the known length between them as typed. */
export interface ScaleMark {
  readonly points: readonly MarkPoint[];
  readonly length: string;
}

/** The marks of a picture, each the text of a key of its cell. */
export const MARK_KEYS = ['scale', 'outline', 'final', 'origins'] as const;
export type MarkKey = (typeof MARK_KEYS)[number];

const MOST_POINTS = 1000;
const POINT = /^(-?\d{1,6}(?:\.\d{1,6})?),(-?\d{1,6}(?:\.\d{1,6})?)$/;

/** Points as `102,220 911,230`. Problem: `points-malformed`. */
export function readPoints(text: string, key: string): Result<readonly MarkPoint[]> {
  const words = text.split(/\s+/).filter((word) => word !== '');
  const points: MarkPoint[] = [];
  for (const word of words) {
    const [, x, y] = POINT.exec(word) ?? [];
    if (x === undefined || y === undefined || points.length >= MOST_POINTS) {
      return fail({
        code: 'points-malformed',
        what: `\`${key}\` takes points of the picture, and “${word.slice(0, 40)}” is none.`,
        mend: 'Write each as dots to the right and down, such as `102,220`, with a blank between two of them.',
        key,
      });
    }
    points.push({ x: Number(x), y: Number(y) });
  }
  return ok(points);
}

/** To a tenth of a dot, which is finer than any border in a picture. */
export function writePoints(points: readonly MarkPoint[]): string {
  const rounded = (value: number): string => String(Math.round(value * 10) / 10 || 0);
  return points.map(({ x, y }) => `${rounded(x)},${rounded(y)}`).join(' ');
}

/** `102,220 911,230 = 8 mm`; any part may still be missing. Problems: `points-malformed`, `scale-points`. */
export function readScaleMark(text: string): Result<ScaleMark> {
  const at = text.indexOf('=');
  const points = readPoints(at < 0 ? text : text.slice(0, at), 'scale');
  if (!points.ok) return points;
  if (points.value.length > 2) {
    return fail({
      code: 'scale-points',
      what: 'The scale takes two points, the ends of a known length.',
      mend: 'Write it such as `102,220 911,230 = 8 mm`.',
      key: 'scale',
    });
  }
  return ok({ points: points.value, length: at < 0 ? '' : text.slice(at + 1).trim() });
}

export function writeScaleMark({ points, length }: ScaleMark): string {
  return length === '' ? writePoints(points) : `${writePoints(points)} = ${length}`.trim();
}

/** Marks of a picture of that width and height after a quarter turn to the right of both. */
export function turnRight(points: readonly MarkPoint[], height: number): readonly MarkPoint[] {
  return points.map(({ x, y }) => ({ x: height - y, y: x }));
}
