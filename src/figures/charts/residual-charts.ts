import { dot, line, ruleY, type Markish } from '@observablehq/plot';
import type { Residual } from '../../core/fatigue/index.ts';
import { svgElement } from '../drawings/frame-markup.ts';
import { lettering } from '../drawings/lettering.ts';
import { group } from '../drawings/markup.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes } from './axes.ts';
import { binned, MOST_MARKS, type Bin } from './density.ts';
import { densityMarks } from './density-marks.ts';
import { direct } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { isOn, linearScale, logScale, powerTicks, roundTicks, type AxisScale } from './scales.ts';
import { MARK, shapeOf } from './shapes.ts';
import type { Chart, ChartOptions, ChartPoint, ResidualData } from './types.ts';
import { counted } from './words.ts';

/** Residuals as places in a plot: what both charts have in common. */
interface Scatter {
  readonly title: string;
  readonly x: { readonly title: readonly Run[]; readonly scale: AxisScale };
  readonly y: { readonly title: readonly Run[]; readonly scale: AxisScale };
  /** Place i stands for the residual of that number among `residuals`. */
  readonly places: { readonly x: Float64Array; readonly y: Float64Array };
  readonly residuals: readonly Residual[];
  readonly tell: (residual: Residual) => string;
  /** Values up whose lines are named at the right end. */
  readonly named: readonly { readonly y: number; readonly runs: readonly Run[] }[];
  /** Lines of comparison, below the marks. */
  readonly lines: readonly Markish[];
  readonly sentence: string;
  readonly description: string;
  readonly tellBin: (bin: Bin) => string;
}

/** Named in the plot; more would cover it. */
const MOST_NAMED = 8;

/** Residuals of log10 N against the fitted life, with the zero line and twice s on either side. */
export function residualChart(data: ResidualData, options: ChartOptions): Chart {
  const { residuals, s, texts } = data;
  const places = { x: Float64Array.from(residuals, ({ fitted }) => 10 ** fitted), y: Float64Array.from(residuals, ({ residual }) => residual) };
  const beyond = residuals.filter(({ residual }) => Math.abs(residual) > 2 * s).length;
  const sentence = residuals.length === 0 ? 'There are no residuals to draw.'
    : `${beyond === 0 ? 'No residual lies' : counted(beyond, 'residual lies', 'residuals lie')} beyond twice s = ${figure(s)} of the ${residuals.length} drawn; `
      + `about ${Math.round(residuals.length * 0.0455)} would by chance. A bow or a funnel would speak against a straight line with the same scatter everywhere.${influentialSentence(data)}`;
  return scatter({
    title: 'Residuals against fitted life',
    x: { title: ['Fitted life / cycles'], scale: logScale(places.x, [1.4, 1.4], [1e4, 1e7]) },
    y: { title: ['Residual of lg ', { symbol: 'N' }], scale: around(places.y, 2.3 * s) },
    places,
    residuals,
    tell: (residual) => `${data.name(residual)}: lg N ${signed(residual.residual)} ${residual.residual < 0 ? 'below' : 'above'} the line, `
      + `a life ${figure(10 ** residual.residual)} times the ${texts.life(10 ** residual.fitted)} cycles fitted. ${influence(residual)}`.trim(),
    named: s > 0 ? [{ y: 2 * s, runs: ['2 ', { symbol: 's' }] }, { y: -2 * s, runs: ['\u22122 ', { symbol: 's' }] }] : [],
    lines: [ruleY([0], { className: 'zero-line' }), ruleY([-2 * s, 2 * s].filter((value) => value !== 0), { className: 'two-s-line' })],
    sentence,
    description: `Residuals of the decimal logarithm of life against the fitted life. ${sentence}`,
    tellBin: ({ count, x, y }) => `${counted(count, 'residual', 'residuals')} near ${signed(y)} at a fitted life of ${texts.life(x)} cycles.`,
  }, data, options);
}

/** Studentised residuals against the normal scores of their ranks: on the slanted line where they are normal. */
export function normalScoreChart(data: ResidualData, options: ChartOptions): Chart {
  const residuals = data.residuals.filter(({ studentised }) => studentised !== null && Number.isFinite(studentised));
  const places = {
    x: Float64Array.from(residuals, ({ normalScore }) => normalScore), y: Float64Array.from(residuals, ({ studentised }) => studentised ?? 0),
  };
  const ends = linearScale(places.x, 0.08, [-2, 2]);
  const straightness = correlation(places.x, places.y);
  const sentence = residuals.length === 0 ? 'There are no residuals to draw.'
    : `${counted(residuals.length, 'residual', 'residuals')} in order of size against what a normal distribution would give; on the slanted line they would be normal.`
      + `${straightness === undefined ? '' : ` Their correlation with it is ${straightness.toFixed(3)}.`}${influentialSentence(data)}`;
  return scatter({
    title: 'Normal probability plot of the residuals',
    x: { title: ['Normal score'], scale: ends },
    y: { title: ['Studentised residual'], scale: around(places.y, Math.max(...ends.domain.map(Math.abs))) },
    places,
    residuals,
    tell: (residual) => `${data.name(residual)}: studentised residual ${signed(residual.studentised ?? 0, true)}, normal score ${signed(residual.normalScore, true)}. ${influence(residual)}`.trim(),
    named: [],
    lines: [line(ends.domain.map((value) => ({ value })), { x: 'value', y: 'value', className: 'mean-line' })],
    sentence,
    description: `Normal probability plot: studentised residuals up, normal scores across. ${sentence}`,
    tellBin: ({ count, x, y }) => `${counted(count, 'residual', 'residuals')} near ${signed(y, true)} at a normal score of ${signed(x, true)}.`,
  }, data, options);
}

function scatter(what: Scatter, data: ResidualData, options: ChartOptions): Chart {
  const layout = layoutOf(options, 1, [0.42, 0.68]);
  const scales = { x: what.x.scale, y: what.y.scale };
  const places = placesOf(layout, scales.x, scales.y);
  const count = layout.isNarrow ? 5 : 8;
  const ticks = { x: scales.x.type === 'log' ? powerTicks(scales.x, count) : roundTicks(scales.x, count), y: roundTicks(scales.y, 5) };
  const { marks, labels, points } = what.residuals.length > MOST_MARKS ? dense(what, layout, places) : single(what, data, layout, places);
  const size = { width: layout.width, height: layout.height };
  return {
    svg: svgElement(options.idPrefix, size, what, [
      plottedSvg(layout, scales.x, scales.y, ticks, [...what.lines, ...marks, own(group('labels', [...labels, ...lineNames(what, layout, places)]))]),
      axes(layout, places, { ticks: ticks.x, title: what.x.title }, { ticks: ticks.y, title: what.y.title }),
    ], 'chart'),
    description: what.description, sentence: what.sentence, viewBox: size, points,
  };
}

/** Names of the lines of comparison above their right ends. */
function lineNames({ named }: Scatter, layout: Layout, { y }: Places): string[] {
  const size = layout.textSize;
  return named.map(({ y: value, runs }) => lettering(runs, { x: layout.right - 8, y: y(value) - size * 0.3, anchor: 'end', size, className: 'word soft' }));
}

interface Drawn {
  readonly marks: readonly Markish[];
  readonly labels: readonly string[];
  readonly points: readonly ChartPoint[];
}

function single(what: Scatter, data: ResidualData, layout: Layout, { x, y }: Places): Drawn {
  const places = what.residuals.map((residual, i) => ({ x: what.places.x[i] ?? 0, y: what.places.y[i] ?? 0, residual }))
    .filter((place) => isOn(what.x.scale, place.x) && isOn(what.y.scale, place.y));
  const areaOf = (place: { x: number; y: number }): Area =>
    ({ x: x(place.x) - MARK - 1, y: y(place.y) - MARK - 1, width: 2 * MARK + 2, height: 2 * MARK + 2 });
  const taken = places.map(areaOf);
  const apart = places.filter(({ residual }) => residual.influential);
  return {
    marks: [false, true].map((isApart) => dot(places.filter(({ residual }) => residual.influential === isApart), {
      x: 'x', y: 'y', r: MARK, symbol: shapeOf(isApart ? 3 : 0), className: `specimen ${isApart ? 'apart' : 'broken'}`,
    })),
    labels: apart.slice(0, MOST_NAMED).map((place) => direct({
      runs: [data.name(place.residual)], className: 'word look', sides: ['right', 'left'], isBeside: true,
      at: [0, -14, 14].map((by) => ({ x: x(place.x), y: y(place.y) + by })),
    }, layout, taken.filter((_, i) => places[i] !== place), []) ?? ''),
    points: places.toSorted((a, b) => a.x - b.x).map((place) => ({ x: x(place.x), y: y(place.y), tell: () => what.tell(place.residual) })),
  };
}

function dense(what: Scatter, layout: Layout, { x, y }: Places): Drawn {
  const bins = binned({ ...what.places, layer: () => 0, layers: 1 }, layout, { x: what.x.scale, y: what.y.scale });
  return {
    marks: densityMarks(bins, ['broken']), labels: [],
    points: bins.toSorted((a, b) => a.x - b.x || b.y - a.y).map((bin) => ({ x: x(bin.x), y: y(bin.y), tell: () => what.tellBin(bin) })),
  };
}

/** An axis with zero in its middle third at least. */
function around(values: Float64Array, least: number): AxisScale {
  const reach = values.reduce((most, value) => (Math.abs(value) < 1e300 ? Math.max(most, Math.abs(value)) : most), Math.max(least, 1e-9));
  return { type: 'linear', domain: [-1.12 * reach, 1.12 * reach] };
}

function correlation(x: Float64Array, y: Float64Array): number | undefined {
  const mean = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  const [middleX, middleY] = [mean(x), mean(y)];
  let [xx, yy, xy] = [0, 0, 0];
  x.forEach((value, i) => {
    const [a, b] = [value - middleX, (y[i] ?? 0) - middleY];
    xx += a * a;
    yy += b * b;
    xy += a * b;
  });
  const found = xy / Math.sqrt(xx * yy);
  return Number.isFinite(found) ? found : undefined;
}

function influentialSentence({ residuals, name }: ResidualData): string {
  const apart = residuals.filter(({ influential }) => influential);
  if (apart.length === 0) return '';
  const names = apart.slice(0, MOST_NAMED).map(name).join(', ');
  const more = apart.length > MOST_NAMED ? ` and ${apart.length - MOST_NAMED} more` : '';
  return ` ${names}${more} ${apart.length === 1 ? 'stands' : 'stand'} apart (diamonds).`;
}

function influence({ influential, leverage }: Residual): string {
  return influential ? `It stands apart: look at it again. Leverage ${figure(leverage)}.` : '';
}

function figure(value: number): string {
  return String(Number(value.toPrecision(2)));
}

function signed(value: number, withSign = false): string {
  const digits = Math.abs(value).toFixed(2);
  return withSign && value < 0 && Number(digits) !== 0 ? `\u2212${digits}` : digits;
}
