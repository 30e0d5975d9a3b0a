import { circle, group, line, polyline } from '../drawings/markup.ts';
import type { Area } from '../drawings/types.ts';
import { within } from './clip.ts';
import { alongCurve, type Named } from './labels.ts';
import type { Layout } from './layout.ts';
import type { Places } from './plotted.ts';
import { isOn, type AxisScale } from './scales.ts';
import { curvesOf } from './sn-curves.ts';
import { currentTold, heldTold } from './sn-words.ts';
import type { ChartPoint, SnData } from './types.ts';

interface CurrentMark {
  readonly markup: string;
  readonly named?: Named;
  readonly areas: readonly Area[];
  readonly point?: ChartPoint;
}

const RADIUS = 5;
const CAP = 5;

/** The specimen that the sheet is about: its place, the interval of its life, thin lines to both axes. */
export function currentMark(data: SnData, layout: Layout, places: Places, scales: { x: AxisScale; y: AxisScale }): CurrentMark {
  const { current, texts } = data;
  if (current === undefined || !isOn(scales.y, current.stressMpa * texts.stressPerMpa)) return { markup: '', areas: [] };
  const y = places.y(current.stressMpa * texts.stressPerMpa);
  const tell = (): string => currentTold(data);
  const { life } = current;
  if (life === undefined || !isOn(scales.x, life.median)) {
    const middle = (layout.left + layout.right) / 2;
    return {
      markup: line({ x: layout.left, y }, { x: layout.right, y }, 'current-guide'),
      named: {
        runs: [`this specimen${current.without === undefined ? '' : `, ${current.without}`}`], className: 'word look', sides: ['right'], isBeside: true,
        at: [1, -1].flatMap((way) => [0, 0.2, 0.4].map((share) => ({ x: layout.left + share * (layout.right - layout.left), y: y + way * 13 }))),
      },
      areas: [{ x: layout.left, y: y - 2, width: layout.right - layout.left, height: 4 }],
      point: { x: middle, y, tell },
    };
  }
  const at = (cycles: number): number => places.x(Math.min(Math.max(cycles, scales.x.domain[0]), scales.x.domain[1]));
  const x = at(life.median);
  const ends = [life.low, life.high].flatMap((cycles) => (cycles === undefined || !(cycles > 0) ? [] : [at(cycles)]));
  const [low = x, high = x] = ends;
  return {
    markup: group('current', [
      line({ x: layout.left, y }, { x: low, y }, 'current-guide'),
      line({ x, y }, { x, y: layout.bottom }, 'current-guide'),
      line({ x: low, y }, { x: high, y }, 'current-interval'),
      ...ends.map((end) => line({ x: end, y: y - CAP }, { x: end, y: y + CAP }, 'current-interval')),
      circle({ x, y }, RADIUS, 'current-mark'),
    ]),
    named: {
      runs: ['this specimen'], className: 'word look', sides: ['right', 'left'], isBeside: true,
      at: [{ x: high, y }, ...[-14, 14, -30, 30].flatMap((by) => [high, x, low].map((place) => ({ x: place, y: y + by })))],
    },
    areas: [
      { x: low - 2, y: y - 3, width: high - low + 4, height: 6 },
      { x: x - RADIUS - 2, y: y - RADIUS - 2, width: 2 * RADIUS + 4, height: 2 * RADIUS + 4 },
      { x: x - 2, y, width: 4, height: layout.bottom - y },
    ],
    point: { x, y, tell },
  };
}

/** Where it stands in a held state: an open mark, dashed and light. Nothing where it has no life there. */
export function heldMark(data: SnData, places: Places, scales: { x: AxisScale; y: AxisScale }): CurrentMark {
  const { held, texts } = data;
  const life = held?.specimen?.life?.median;
  if (held?.specimen === undefined || life === undefined) return { markup: '', areas: [] };
  const stress = held.specimen.stressMpa * texts.stressPerMpa;
  if (!isOn(scales.y, stress) || !isOn(scales.x, life)) return { markup: '', areas: [] };
  const [x, y] = [places.x(life), places.y(stress)];
  return {
    markup: circle({ x, y }, RADIUS + 1, 'held-mark'),
    named: { runs: [held.name], className: 'word soft', sides: ['right', 'left'], isBeside: true, at: [0, 14, -14, 30, -30].map((by) => ({ x, y: y + by })) },
    areas: [{ x: x - RADIUS - 2, y: y - RADIUS - 2, width: 2 * RADIUS + 4, height: 2 * RADIUS + 4 }],
    point: { x, y, tell: () => heldTold(data) },
  };
}

/** The median line of a held state behind the one of now, with its name. */
export function heldLine(data: SnData, places: Places, scales: { x: AxisScale; y: AxisScale }): Pick<CurrentMark, 'markup' | 'named'> {
  const { held, texts } = data;
  if (held?.line === undefined) return { markup: '' };
  const median = curvesOf({ ...data, line: held.line })?.median ?? [];
  const pieces = within(median, scales.x, texts.stressPerMpa).map((piece) => piece.filter(({ stress }) => isOn(scales.y, stress)))
    .filter((piece) => piece.length > 1).map((piece) => piece.map(({ life, stress }) => ({ x: places.x(life), y: places.y(stress) })));
  const [longest] = pieces.toSorted((a, b) => b.length - a.length);
  if (longest === undefined) return { markup: '' };
  return {
    markup: pieces.map((piece) => polyline(piece, 'held-line')).join(''),
    named: { runs: [`line in “${held.name}”`], className: 'word soft', at: alongCurve(longest), sides: ['left', 'right'] },
  };
}
