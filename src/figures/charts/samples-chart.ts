import { line as plotLine, rectY, ruleX } from '@observablehq/plot';
import { svgElement } from '../drawings/frame-markup.ts';
import { group, line, polygon, polyline } from '../drawings/markup.ts';
import { axes, sideTitleEnd } from './axes.ts';
import { keyRows, type Key } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { linearScale, roundTicks, type AxisScale, type Tick } from './scales.ts';
import type { Chart, ChartOptions, ChartPoint, SamplesData, KeyEntry } from './types.ts';
import { percent } from './words.ts';

interface Step {
  readonly from: number;
  readonly to: number;
  readonly share: number;
}

/** Width of a figure over the height of letters. */
const FIGURE = 0.5;
/** Height of the plot over the highest step: the intervals stand in the part left free. */
const HEADROOM = 1.34;
const CURVE_PLACES = 121;
/** Where the intervals stand, of the highest step; the first one uppermost. */
const INTERVAL_HEIGHTS = [1.26, 1.18, 1.1];

const TITLE = ['Share of the draws / %'];
/** Height of the plot over its width, wide and narrow. */
const SHAPE = [0.42, 0.72] as const;

/** Histogram of the samples of a result, the curve of first order over it, and intervals above. */
export function samplesChart(data: SamplesData, options: ChartOptions): Chart {
  const layout = layoutFor(data, options);
  const steps = stepsOf(data);
  const curve = curveOf(data);
  const top = Math.max(...steps.map(({ share }) => share), ...curve.map(({ share }) => share), 1e-3);
  const ends = data.intervals.flatMap(({ low, high }) => [low, high]).filter(Number.isFinite);
  const scales: { x: AxisScale; y: AxisScale } = {
    x: linearScale([data.from, data.to, ...ends], 0.02, [0, 1]),
    y: { type: 'linear', domain: [0, top * HEADROOM] },
  };
  const places = placesOf(layout, scales.x, scales.y);
  const ticks = { x: ticksThatFit(scales.x, places, layout), y: roundTicks({ type: 'linear', domain: [0, top] }, 4) };
  const bars = data.intervals.map(({ low, high, look }, i) => intervalBar(places.x(low), places.x(high), places.y(top * (INTERVAL_HEIGHTS[i] ?? 1)), look));
  const size = { width: layout.width, height: layout.height };
  const sentence = sentenceOf(data);
  const description = `Histogram of the draws: ${data.title} across, share of the draws in each step up. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Draws', description }, [
      plottedSvg(layout, scales.x, scales.y, ticks, [
        rectY(steps, { x1: 'from', x2: 'to', y: 'share', className: 'draws-step' }),
        plotLine(curve, { x: 'value', y: 'share', className: 'first-order-line' }),
        ruleX([data.estimate], { y1: 0, y2: top, className: 'first-order-line' }),
        own(group('intervals', bars)),
      ]),
      axes(layout, places, { ticks: ticks.x, title: [{ symbol: data.symbol }, data.unit === '' ? '' : ` / ${data.unit}`] }, { ticks: ticks.y, title: TITLE }),
      keyFor(data, layout).svg,
    ], 'chart'),
    description, sentence, viewBox: size,
    points: [...intervalPoints(data, places.x, places.y(top * 1.18)), ...steps.map((step) => ({
      x: places.x((step.from + step.to) / 2), y: places.y(step.share),
      tell: () => `${data.text(step.from)} to ${data.text(step.to)}: ${percentOf(step.share)} of the draws.`,
    }))],
  };
}

/** Beside the title of the side, or below it where that leaves no room. */
function keyFor(data: SamplesData, layout: Layout): Key {
  const { isNarrow, textSize } = layout;
  return keyRows(keyOf(data), layout, isNarrow ? 8 : sideTitleEnd(TITLE, layout) + 22, textSize * (isNarrow ? 2.1 : 0.68));
}

/** With as many lines above the plot as the key takes. */
function layoutFor(data: SamplesData, options: ChartOptions): Layout {
  const first = layoutOf(options, 2, SHAPE);
  return layoutOf(options, keyFor(data, first).rows + (first.isNarrow ? 1 : 0), SHAPE);
}

/** As many figures along the axis as stand clear of each other. */
function ticksThatFit(scale: AxisScale, places: Places, { textSize }: Layout): readonly Tick[] {
  const isClear = (ticks: readonly Tick[]): boolean => ticks.every(({ value, label }, i) => {
    const next = ticks[i + 1];
    return next === undefined || label === undefined || !('text' in label) || places.x(next.value) - places.x(value) > (label.text.length + 1) * FIGURE * textSize;
  });
  return [6, 5, 4].map((count) => roundTicks(scale, count)).find(isClear) ?? roundTicks(scale, 3);
}

function stepsOf({ from, to, counts, count }: SamplesData): Step[] {
  const width = (to - from) / counts.length;
  return counts.map((inStep, i) => ({ from: from + i * width, to: from + (i + 1) * width, share: (100 * inStep) / count }));
}

/** The first-order distribution as shares of steps of the histogram's width. */
function curveOf({ from, to, counts, density }: SamplesData): { value: number; share: number }[] {
  const width = (to - from) / counts.length;
  return Array.from({ length: CURVE_PLACES }, (_, i) => {
    const value = from + ((to - from) * i) / (CURVE_PLACES - 1);
    return { value, share: 100 * width * density(value) };
  }).filter(({ share }) => Number.isFinite(share));
}

function intervalBar(low: number, high: number, y: number, look: string): string {
  return polyline([{ x: low, y }, { x: high, y }], `interval-line ${look}`)
    + [low, high].map((x) => line({ x, y: y - 4 }, { x, y: y + 4 }, `interval-line ${look}`)).join('');
}

function intervalPoints({ intervals, text }: SamplesData, x: (value: number) => number, y: number): ChartPoint[] {
  return intervals.flatMap(({ name, low, high }) => [low, high].map((end) => ({
    x: x(end), y, tell: () => `${name}: ${text(low)} to ${text(high)}.`,
  })));
}

function keyOf({ intervals }: SamplesData): KeyEntry[] {
  const dash = (look: string) => (x: number, y: number): string => polyline([{ x: x - 12, y }, { x: x + 12, y }], look);
  return [
    { runs: ['draws'], swatch: (x, y) => polygon([{ x: x - 10, y: y - 5 }, { x: x + 10, y: y - 5 }, { x: x + 10, y: y + 5 }, { x: x - 10, y: y + 5 }], 'draws-step') },
    { runs: ['first order'], swatch: dash('first-order-line') },
    ...intervals.map(({ key, look }) => ({ runs: [key], swatch: (x: number, y: number) => intervalBar(x - 12, x + 12, y, look) })),
  ];
}

function sentenceOf({ intervals, text }: SamplesData): string {
  return intervals.map(({ name, low, high }) => `${name}: ${text(low)} to ${text(high)}.`).join(' ');
}

function percentOf(share: number): string {
  return percent(Number(share.toPrecision(2)) / 100);
}
