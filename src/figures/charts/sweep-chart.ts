import { svgElement } from '../drawings/frame-markup.ts';
import { spokenSymbol } from '../drawings/lettering.ts';
import { circle, group, line, polygon, polyline, px, type Point } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes } from './axes.ts';
import { curveAreas, direct } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { linearScale, logScale, roundTicks, type AxisScale, type Tick } from './scales.ts';
import type { SweepAxis, SweepData, SweepPanel } from './sweep-types.ts';
import { sweepDescription, sweepSentence } from './sweep-words.ts';
import type { Chart, ChartOptions, ChartPoint } from './types.ts';

const RADIUS = 5;
const FLAG = 9;
/** Several results stand lower than one alone. */
const ALONE = [0.52, 0.78] as const;
const AMONG = [0.3, 0.5] as const;

/** Results against one quantity: a line each with its band of one standard uncertainty, above each other over one axis. */
export function sweepChart(data: SweepData, options: ChartOptions): Chart {
  const layout = layoutOf(options, 1, data.panels.length > 1 ? AMONG : ALONE);
  const domain: [number, number] = [data.places[0] ?? 0, data.places.at(-1) ?? 1];
  const x: AxisScale = { type: 'linear', domain };
  const ticks = roundTicks(x, layout.isNarrow ? 5 : 9);
  const pitch = layout.bottom + Math.round(layout.textSize * 0.7);
  const drawn = data.panels.map((panel, i) => panelOf(data, panel, layout, { x, ticks }, i === data.panels.length - 1));
  const size = { width: layout.width, height: layout.height + pitch * Math.max(0, data.panels.length - 1) };
  const sentence = sweepSentence(data);
  const description = sweepDescription(data, sentence);
  return {
    svg: svgElement(options.idPrefix, size, { title: `${data.panels.map(({ axis }) => axis.words).join(', ')} against ${data.against.words}`, description },
      drawn.map(({ svg }, i) => (i === 0 ? svg : `<g transform="translate(0 ${px(i * pitch)})">${svg}</g>`)), 'chart'),
    description, sentence, viewBox: size,
    points: drawn.flatMap(({ points }, i) => points.map((point) => ({ ...point, y: point.y + i * pitch }))),
  };
}

function panelOf(
  data: SweepData, panel: SweepPanel, layout: Layout, { x, ticks }: { readonly x: AxisScale; readonly ticks: readonly Tick[] }, isLowest: boolean,
): { svg: string; points: ChartPoint[] } {
  const y = scaleOf(panel);
  const places = placesIn(layout, x, y);
  const sideTicks = roundTicks(y, layout.isNarrow ? 5 : 7);
  const stretches = stretchesOf(data.places, panel);
  const curve = stretches.map((stretch) => stretch.map((i) => ({ x: places.x(data.places[i] ?? 0), y: places.y(panel.values[i] ?? 0) })));
  const taken: Area[] = [];
  const now = presentMark(data, panel, { layout, places, y }, taken, curve.flatMap(curveAreas));
  const plot = plottedSvg(layout, x, y, { x: ticks, y: sideTicks }, [own([
    group('gaps', panel.gaps.map(({ from, to }) => gapWash(places.x(from), places.x(to), layout))),
    ...stretches.map((stretch) => band(data, panel, stretch, places)),
    ...curve.map((points) => (points.length === 1 && points[0] !== undefined ? circle(points[0], 1.8, 'leader-dot') : polyline(points, 'median-line'))),
    group('turns', data.turns.map(({ at }) => turnMark(places.x(at), layout))),
    now,
  ].join(''))]);
  const lower = isLowest ? ticks : ticks.map(({ value }) => ({ value }));
  return {
    svg: plot + axes(layout, places, { ticks: lower, title: isLowest ? axisTitle(data.against, layout) : [] }, { ticks: sideTicks, title: axisTitle(panel.axis, layout) }),
    points: pointsOf(data, panel, places),
  };
}

/** Name, symbol and unit of a quantity along its axis. Where the name is too long, its symbol says enough; the description has it whole. */
export function axisTitle(axis: SweepAxis, layout: Layout): Run[] {
  const short = symbolAndUnit(axis);
  return axis.words.length * layout.textSize * 0.55 > layout.width - 90 ? short : [`${axis.words} `, ...short];
}

export function symbolAndUnit({ symbol, unit }: SweepAxis): Run[] {
  return [{ symbol }, ...(unit === '' ? [] : [` / ${unit}`])];
}

/** What no double can scale beside the others comes to the edge. */
function placesIn(layout: Layout, x: AxisScale, y: AxisScale): Places {
  const free = placesOf(layout, x, y);
  return { x: free.x, y: (value) => free.y(Math.min(Math.max(value, y.domain[0]), y.domain[1])) };
}

function scaleOf({ scale, values, lower, upper, present }: SweepPanel): AxisScale {
  const all = [...values, ...lower, ...upper, ...(present === undefined ? [] : [present])].filter(Number.isFinite);
  return scale === 'log' ? logScale(all, [1.05, 1.05], [1e3, 1e6]) : linearScale(all, 0.06, [0, 1]);
}

/** Neighbouring places that have a value, cut where a gap lies between two of them. */
function stretchesOf(places: Float64Array, { values, gaps }: SweepPanel): number[][] {
  const stretches: number[][] = [];
  values.forEach((value, i) => {
    if (Number.isNaN(value)) return;
    const last = stretches.at(-1);
    const before = last?.at(-1);
    const [from, to] = [places[before ?? 0] ?? 0, places[i] ?? 0];
    if (last === undefined || before === undefined || gaps.some((gap) => gap.from >= from && gap.to <= to)) stretches.push([i]);
    else last.push(i);
  });
  return stretches;
}

function band({ places: xs }: SweepData, { lower, upper }: SweepPanel, stretch: readonly number[], places: Places): string {
  if (stretch.length < 2 || stretch.every((i) => lower[i] === upper[i])) return '';
  const side = (ends: Float64Array): Point[] => stretch.map((i) => ({ x: places.x(xs[i] ?? 0), y: places.y(ends[i] ?? 0) }));
  return polygon([...side(upper), ...side(lower).toReversed()], 'wash band-wash');
}

function gapWash(from: number, to: number, { top, bottom }: Layout): string {
  const corners = [{ x: from, y: top }, { x: to, y: top }, { x: to, y: bottom }, { x: from, y: bottom }];
  return polygon(corners, 'wash next-wash') + [from, to].map((x) => line({ x, y: top }, { x, y: bottom }, 'next-line')).join('');
}

/** A flag on the lower axis where a check turns. */
function turnMark(x: number, { bottom }: Layout): string {
  return line({ x, y: bottom }, { x, y: bottom - 2 * FLAG }, 'turn-mast')
    + polygon([{ x, y: bottom - 2 * FLAG }, { x: x + FLAG, y: bottom - 1.5 * FLAG }, { x, y: bottom - FLAG }], 'turn-flag');
}

function presentMark(
  { present }: SweepData, panel: SweepPanel, { layout, places, y }: { readonly layout: Layout; readonly places: Places; readonly y: AxisScale }, taken: Area[],
  lines: readonly Area[],
): string {
  if (present === undefined) return '';
  const x = places.x(present);
  const value = panel.present;
  if (value === undefined || value < y.domain[0] || value > y.domain[1]) {
    return line({ x, y: layout.top }, { x, y: layout.bottom }, 'current-guide');
  }
  const at = { x, y: places.y(value) };
  taken.push({ x: at.x - RADIUS - 2, y: at.y - RADIUS - 2, width: 2 * RADIUS + 4, height: 2 * RADIUS + 4 });
  const near = [-14, 14, -26, 26, -40, 40].map((by) => ({ x: at.x, y: at.y + by }));
  const label = direct({ runs: ['now'], className: 'word look', sides: ['right', 'left'], isBeside: true, at: [at, ...near] }, layout, taken, lines);
  return group('current', [
    line({ x, y: layout.bottom }, at, 'current-guide'), line({ x: layout.left, y: at.y }, at, 'current-guide'), circle(at, RADIUS, 'current-mark'),
  ]) + (label ?? '');
}

function pointsOf(data: SweepData, panel: SweepPanel, places: Places): ChartPoint[] {
  const { against } = data;
  const [across, up] = [spokenSymbol(against.symbol), spokenSymbol(panel.axis.symbol)];
  const own = [...data.places].flatMap((at, i): { at: number; point: ChartPoint }[] => {
    const value = panel.values[i] ?? Number.NaN;
    if (Number.isNaN(value) || data.isTold[i] !== true) return [];
    const tell = (): string => `${across} = ${against.text(at)}${at === data.present ? ', as it is now' : ''}: ${up} = ${panel.told(i)}.`;
    return [{ at, point: { x: places.x(at), y: places.y(value), tell } }];
  });
  const gaps = panel.gaps.map(({ from, to, words }) => {
    const tell = (): string => `${across} from ${against.text(from)} to ${against.text(to)}: ${up} has no value; ${words}.`;
    return { at: (from + to) / 2, point: { x: places.x((from + to) / 2), y: places.y(middleOf(scaleOf(panel))), tell } };
  });
  const floor = scaleOf(panel).domain[0];
  const turns = data.turns.map(({ at, words }) => ({ at, point: { x: places.x(at), y: places.y(floor), tell: () => words } }));
  return [...own, ...gaps, ...turns].toSorted((a, b) => a.at - b.at).map(({ point }) => point);
}

function middleOf({ type, domain: [low, high] }: AxisScale): number {
  return type === 'log' ? Math.sqrt(low * high) : (low + high) / 2;
}
