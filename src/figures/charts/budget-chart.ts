import { rect } from '@observablehq/plot';
import { svgElement } from '../drawings/frame-markup.ts';
import { finePrint, lettering, runsWidth, spokenSymbol } from '../drawings/lettering.ts';
import { group, line } from '../drawings/markup.ts';
import { axes } from './axes.ts';
import type { BudgetData, BudgetBar } from './budget-types.ts';
import { keyRows } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { roundTicks, type AxisScale } from './scales.ts';
import type { Chart, ChartOptions, KeyEntry } from './types.ts';

/** Height of a bar's row over that of the letters. */
const ROW = 2;
/** Part of the row that bars fill: the input's own above, by correlation below. */
const OWN = { top: 0.2, alone: 0.8, above: 0.55, bottom: 0.85 };
/** Least room behind the longest bar, over its length. */
const BEHIND = 0.05;
/** Some systems have a sans that is so much wider than what widths are reckoned with. */
const WIDEST_FACE = 1.15;

/** Shares of a result's variance as bars, the largest first; what correlation adds or takes hollow below. */
export function budgetChart({ symbol, bars, isCorrelated, sentence }: BudgetData, options: ChartOptions): Chart {
  const layout = layoutFor(bars, isCorrelated, options);
  const scales = scalesOf(bars, layout);
  const places = placesOf(layout, scales.x, scales.y);
  const ticks = roundTicks(scales.x, layout.isNarrow ? 4 : 6);
  const at = bars.map((bar, i) => ({ bar, ...rowOf(bars.length - i, isCorrelated) }));
  const size = { width: layout.width, height: layout.height };
  const description = `Shares of the variance of ${spokenSymbol(symbol)}, one bar for each input. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, { title: 'Uncertainty budget', description }, [
      plottedSvg(layout, scales.x, scales.y, { x: ticks, y: [] }, [
        rect(at, { x1: 0, x2: ({ bar }: { bar: BudgetBar }) => 100 * bar.own, y1: 'low', y2: 'high', className: 'budget-own' }),
        ...(isCorrelated
          ? [rect(at, { x1: 0, x2: ({ bar }: { bar: BudgetBar }) => 100 * bar.shared, y1: 'sharedLow', y2: 'low', className: 'budget-shared' })] : []),
        own(group('labels', [
          ...at.map(({ bar, middle }) => names(bar, places.y(middle), layout)),
          ...at.map(({ bar, middle }) => figuresBehind(bar, places, middle, layout)),
          ...(scales.x.domain[0] < 0 ? [line({ x: places.x(0), y: layout.top }, { x: places.x(0), y: layout.bottom }, 'tick')] : []),
        ])),
      ]),
      axes(layout, places, { ticks, title: ['Share of the variance / %'] }, { ticks: [], title: [] }),
      keyRows(isCorrelated ? KEY : [], layout, 8, layout.textSize * 0.68).svg,
    ], 'chart'),
    description, sentence, viewBox: size,
    points: at.map(({ bar, middle }) => ({ x: places.x(50 * bar.own), y: places.y(middle), tell: () => bar.tell })),
  };
}

function layoutFor(bars: readonly BudgetBar[], isCorrelated: boolean, options: ChartOptions): Layout {
  const layout = layoutOf(options, isCorrelated ? 1 : 0, [0, 0]);
  const widest = Math.max(0, ...bars.map(({ symbol }) => runsWidth([{ symbol }], layout.textSize)));
  const bottom = layout.top + Math.round(bars.length * ROW * layout.textSize);
  return { ...layout, left: Math.round(widest) + 18, bottom, height: bottom + Math.round(layout.textSize * 3.1) };
}

function scalesOf(bars: readonly BudgetBar[], { left, right, textSize: size }: Layout): { readonly x: AxisScale; readonly y: AxisScale } {
  const ends = bars.flatMap(({ own: alone, shared }) => [100 * alone, 100 * shared]);
  const [low, high] = [1.05 * Math.min(0, ...ends), Math.max(1, ...ends)];
  // The figures behind each bar stand inside the frame.
  const reach = bars.map((bar) => {
    const figures = WIDEST_FACE * runsWidth([figuresOf(bar)], finePrint(size, FIGURE_SIZE)) + 12;
    return low + (endOf(bar) - low) / Math.max(0.2, 1 - figures / (right - left));
  });
  return {
    x: { type: 'linear', domain: [low, Math.max(high + BEHIND * (high - low), ...reach)] },
    y: { type: 'linear', domain: [0, Math.max(1, bars.length)] },
  };
}

/** Heights of the row that ends at `top`, in rows. */
function rowOf(top: number, isCorrelated: boolean): { high: number; low: number; sharedLow: number; middle: number } {
  const low = top - (isCorrelated ? OWN.above : OWN.alone);
  return { high: top - OWN.top, low, sharedLow: top - OWN.bottom, middle: top - 0.5 };
}

function names({ symbol }: BudgetBar, y: number, { left, textSize: size }: Layout): string {
  return lettering([{ symbol }], { x: left - 8, y: y + size * 0.34, anchor: 'end', size, className: 'word' });
}

const FIGURE_SIZE = 0.95;

function figuresOf({ share, covarianceShare }: BudgetBar): string {
  return covarianceShare === undefined ? share : `${share}, ${covarianceShare}`;
}

/** Where the longer of both bars of an input ends, %. */
function endOf({ own: alone, shared }: BudgetBar): number {
  return 100 * Math.max(0, alone, shared);
}

function figuresBehind(bar: BudgetBar, { x, y }: Places, middle: number, { textSize: size }: Layout): string {
  return lettering([figuresOf(bar)], { x: x(endOf(bar)) + 6, y: y(middle) + size * 0.34, anchor: 'start', size: finePrint(size, FIGURE_SIZE), className: 'word' });
}

const KEY: readonly KeyEntry[] = [
  { runs: ['by itself'], swatch: (x, y) => swatch(x, y, 'budget-own') },
  { runs: ['by correlation'], swatch: (x, y) => swatch(x, y, 'budget-shared') },
];

function swatch(x: number, y: number, className: string): string {
  return `<rect class="${className}" x="${x - 11}" y="${y - 5}" width="22" height="10"/>`;
}
