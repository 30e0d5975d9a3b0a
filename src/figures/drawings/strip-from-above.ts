import { waistedWidth } from '../../core/mechanics/index.ts';
import type { Axis } from './axis.ts';
import { equation, lettering } from './lettering.ts';
import { group, line, path } from './markup.ts';
import { centreLine } from './parts.ts';
import type { StripFigure } from './strip-figure.ts';
import type { Run } from './types.ts';

/** A strip is drawn no wider than this from above, px. */
const WIDEST = 84;
const PIECES = 96;

interface FromAbove {
  readonly svg: string;
  readonly bottom: number;
  readonly notes: readonly (readonly Run[])[];
}

/** A strip whose width changes, from above and below its side view, in the scale of its length where there is room; nothing for the others. */
export function stripFromAbove(figure: StripFigure, axis: Axis, top: number): FromAbove {
  const { support, length, width, waist, toScale } = figure;
  if (!toScale || width === undefined || width <= 0 || (support !== 'tapered' && waist === undefined)) return { svg: '', bottom: top, notes: [] };
  const across = Math.min(axis.pxPerMetre, WIDEST / width);
  const [size, half] = [axis.textSize, (width * across) / 2];
  const middle = top + size * 1.9 + half;
  const widthAt = (place: number): number => (waist === undefined ? width * (1 - place / length) : waistedWidth(waist, place));
  const edge = Array.from({ length: PIECES + 1 }, (_, i) => ({ x: axis.x((i / PIECES) * length), y: (widthAt((i / PIECES) * length) * across) / 2 }));
  const outline = [...edge.map(({ x, y }) => ({ x, y: middle - y })), ...edge.toReversed().map(({ x, y }) => ({ x, y: middle + y }))];
  const value = figure.values[waist === undefined ? 'width' : 'wide'];
  const narrow = figure.values.width;
  const words = [
    lettering(['seen from above'], { x: axis.x(length), y: top + size * 1.3, anchor: 'end', size, className: 'word' }),
    value === undefined ? '' : lettering(equation(value), { x: axis.x(0) + 6, y: top + size * 1.3, anchor: 'start', size, className: 'value' }),
    waist === undefined || narrow === undefined ? '' : lettering(equation(narrow), { x: axis.x(waist.place), y: middle + half + size, anchor: 'middle', size, className: 'value' }),
  ];
  const svg = group('plan', [
    path(outline.flatMap(({ x, y }, i) => [i === 0 ? 'M' : 'L', x, y]).concat('Z'), 'outline'),
    centreLine(axis.x(0) - 12, axis.x(length) + 12, middle),
    line({ x: axis.x(0), y: middle - half - 8 }, { x: axis.x(0), y: middle + half + 8 }, 'ground'),
    ...words,
  ]);
  return { svg, bottom: middle + half + size * (waist === undefined ? 0.9 : 1.6), notes: across < axis.pxPerMetre ? [['From above, widths are drawn smaller than lengths.']] : [] };
}
