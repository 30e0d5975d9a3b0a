import { svgElement } from '../drawings/frame-markup.ts';
import { finePrint, lettering, runsWidth, spokenSymbol } from '../drawings/lettering.ts';
import { circle, group, line, polygon, polyline, type Point } from '../drawings/markup.ts';
import { overlap } from '../drawings/placement.ts';
import type { Area, Run } from '../drawings/types.ts';
import { axes } from './axes.ts';
import { curveAreas, direct } from './labels.ts';
import { layoutOf, type Layout } from './layout.ts';
import { levelLines } from './level-lines.ts';
import { own, placesOf, plottedSvg, type Places } from './plotted.ts';
import { powerTicks, roundTicks, type AxisScale } from './scales.ts';
import { axisTitle, symbolAndUnit } from './sweep-chart.ts';
import type { ContourData } from './sweep-types.ts';
import type { Chart, ChartOptions, ChartPoint } from './types.ts';

const RADIUS = 5;
const [LEVELS, MOST_LEVELS] = [9, 18];
/** Places to read, across and up. */
const [ACROSS, UP] = [10, 8];

/** A result against two quantities: lines of equal value with their figures, the sheet as it is, and where there is none. */
export function contourChart(data: ContourData, options: ChartOptions): Chart {
  const layout = layoutOf(options, 1, [0.62, 0.9]);
  const [x, y] = [data.x, data.y].map(({ from, to }): AxisScale => ({ type: 'linear', domain: [from, to] })) as [AxisScale, AxisScale];
  const places = placesOf(layout, x, y);
  const ticks = { x: roundTicks(x, layout.isNarrow ? 5 : 9), y: roundTicks(y, 7) };
  const lines = linesOf(data, places);
  const taken: Area[] = [];
  const now = presentMark(data, layout, places, taken, areasOf(lines.flatMap(({ curves }) => curves)));
  const labels = levelLabels(lines, layout, taken);
  const size = { width: layout.width, height: layout.height };
  const what: Run[] = ['lines of ', ...symbolAndUnit(data.result)];
  const room = layout.width - runsWidth(what, layout.textSize) - 40;
  const [whole, short] = [axisTitle(data.y.axis, layout), symbolAndUnit(data.y.axis)];
  const side = runsWidth(whole, layout.textSize) > room ? short : whole;
  const sentence = sentenceOf(data);
  const description = `${data.x.axis.words} across, ${data.y.axis.words} up; lines of equal “${data.result.words}”. ${sentence}`;
  return {
    svg: svgElement(options.idPrefix, size, { title: `${data.result.words} against ${data.x.axis.words} and ${data.y.axis.words}`, description }, [
      plottedSvg(layout, x, y, ticks, [own([
        group('gaps', gapWashes(data, places)), ...lines.flatMap(({ curves }) => curves.map((curve) => polyline(curve, 'level-line'))), now, group('labels', labels),
      ].join(''))]),
      axes(layout, places, { ticks: ticks.x, title: axisTitle(data.x.axis, layout) }, { ticks: ticks.y, title: side }),
      lettering(what, { x: layout.right, y: layout.textSize, anchor: 'end', size: layout.textSize, className: 'axis-word' }),
    ], 'chart'),
    description, sentence, viewBox: size,
    points: pointsOf(data, places),
  };
}

interface LevelCurves {
  readonly text: string;
  readonly curves: readonly (readonly Point[])[];
}

/** Round levels between the least and the greatest value; over decades at 1, 2 and 5. */
function linesOf(data: ContourData, places: Places): LevelCurves[] {
  const there = data.values.filter((value) => !Number.isNaN(value));
  const [low, high] = there.reduce(([least, most], value) => [Math.min(least, value), Math.max(most, value)], [Infinity, -Infinity]);
  if (!(high > low)) return [];
  const isLog = data.scale === 'log';
  const heights = isLog ? data.values.map((value) => Math.log(value)) : data.values;
  const grid = { columns: data.columns, rows: data.rows, values: heights };
  const across = (column: number): number => places.x(data.x.from + (column / (data.columns - 1)) * (data.x.to - data.x.from));
  const up = (row: number): number => places.y(data.y.from + (row / (data.rows - 1)) * (data.y.to - data.y.from));
  return levelsBetween(low, high, isLog).map((level) => ({
    text: data.result.number(level),
    curves: levelLines(grid, isLog ? Math.log(level) : level).map((curve) => curve.map((point) => ({ x: across(point.x), y: up(point.y) }))),
  }));
}

function levelsBetween(low: number, high: number, isLog: boolean): number[] {
  const even = roundTicks({ type: 'linear', domain: [low, high] }, LEVELS).map(({ value }) => value);
  if (!isLog || high / low < 10) return even.filter((value) => value > low && value < high);
  const ticks = powerTicks({ type: 'log', domain: [low, high] }, MOST_LEVELS).map(({ value }) => value);
  const leads = high / low > 1e6 ? [1] : high / low > 1e3 ? [1, 3] : [1, 2, 5];
  const levels = ticks.filter((value) => leads.includes(Math.round(value / 10 ** Math.floor(Math.log10(value) + 1e-9))));
  const every = Math.ceil(levels.length / MOST_LEVELS);
  return levels.filter((_, i) => i % every === 0);
}

/** More boxes than these are not avoided: lines so crowded leave no room anyway. */
const MOST_AREAS = 3000;
/** Lines of one level that bear its figure, the longest. */
const MOST_FIGURES = 2;

function areasOf(curves: readonly (readonly Point[])[]): Area[] {
  return curves.reduce((sum, { length }) => sum + length, 0) > MOST_AREAS ? [] : curves.flatMap(curveAreas);
}

function levelLabels(lines: readonly LevelCurves[], layout: Layout, taken: Area[]): string[] {
  return lines.flatMap(({ curves, text }, i) => {
    const others = areasOf(lines.flatMap((line, k) => (k === i ? [] : line.curves)));
    return curves.toSorted((a, b) => b.length - a.length).slice(0, MOST_FIGURES).flatMap((curve) => {
      const label = levelLabel(curve, text, layout, taken, others);
      return label.length > 0 ? label : levelLabel(curve, text, layout, taken, []);
    });
  });
}

/** The figure of a level on its line, where it covers none of the others; where lines lie close, it may cover those. */
function levelLabel(curve: readonly Point[], text: string, layout: Layout, taken: Area[], others: readonly Area[]): string[] {
  const size = Math.max(12, finePrint(layout.textSize, 0.87));
  const [width, height] = [runsWidth([text], size) * 1.1, size * 1.25];
  for (const share of [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9]) {
    const at = curve[Math.round(share * (curve.length - 1))];
    if (at === undefined) continue;
    const box = { x: at.x - width / 2 - 3, y: at.y - height / 2, width: width + 6, height };
    const fits = box.x > layout.left && box.x + box.width < layout.right && box.y > layout.top + 3 && box.y + height < layout.bottom - 3;
    if (!fits || [...taken, ...others].some((other) => overlap(box, other) > 0)) continue;
    taken.push(box);
    return [lettering([text], { x: at.x, y: at.y + size * 0.34, anchor: 'middle', size, className: 'level-figure' })];
  }
  return [];
}

/** Rows of cells that lack a value at a corner, each stretch as one strip. */
function gapWashes({ columns, rows, values, x, y }: ContourData, places: Places): string[] {
  const isOpen = (column: number, row: number): boolean =>
    [0, 1, columns, columns + 1].some((by) => Number.isNaN(values[row * columns + column + by]));
  const across = (column: number): number => places.x(x.from + (column / (columns - 1)) * (x.to - x.from));
  const up = (row: number): number => places.y(y.from + (row / (rows - 1)) * (y.to - y.from));
  const strips: string[] = [];
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < columns; column++) {
      if (!isOpen(column, row)) continue;
      const start = column;
      while (column + 2 < columns && isOpen(column + 1, row)) column++;
      const [left, right, low, high] = [across(start), across(column + 1), up(row), up(row + 1)];
      strips.push(polygon([{ x: left, y: low }, { x: right, y: low }, { x: right, y: high }, { x: left, y: high }], 'no-value'));
    }
  }
  return strips;
}

function presentMark({ present }: ContourData, layout: Layout, places: Places, taken: Area[], lines: readonly Area[]): string {
  if (present === undefined) return '';
  const at = { x: places.x(present.x), y: places.y(present.y) };
  taken.push({ x: at.x - RADIUS - 2, y: at.y - RADIUS - 2, width: 2 * RADIUS + 4, height: 2 * RADIUS + 4 });
  const near = [0, -14, 14, -26, 26].map((by) => ({ x: at.x, y: at.y + by }));
  const label = direct({ runs: ['now'], className: 'word look', sides: ['right', 'left'], isBeside: true, at: near }, layout, taken, lines)
    ?? direct({ runs: ['now'], className: 'word look', sides: ['right', 'left'], isBeside: true, at: near }, layout, taken, []);
  return group('current', [
    line({ x: at.x, y: layout.bottom }, at, 'current-guide'), line({ x: layout.left, y: at.y }, at, 'current-guide'), circle(at, RADIUS, 'current-mark'),
  ]) + (label ?? '');
}

/** The present place first, then row by row from below. */
function pointsOf(data: ContourData, places: Places): ChartPoint[] {
  const { x, y, result, present, columns, rows, values } = data;
  const tell = (atX: number, atY: number, value: number, now: boolean): string =>
    `${spokenSymbol(x.axis.symbol)} = ${x.axis.text(atX)}, ${spokenSymbol(y.axis.symbol)} = ${y.axis.text(atY)}${now ? ', as it is now' : ''}: `
    + (Number.isNaN(value) ? `${spokenSymbol(result.symbol)} has no value.` : `${spokenSymbol(result.symbol)} = ${result.text(value)}.`);
  const points: ChartPoint[] = present === undefined ? []
    : [{ x: places.x(present.x), y: places.y(present.y), tell: () => tell(present.x, present.y, present.value, true) }];
  for (let up = 0; up <= UP; up++) {
    for (let across = 0; across <= ACROSS; across++) {
      const [column, row] = [Math.round((across / ACROSS) * (columns - 1)), Math.round((up / UP) * (rows - 1))];
      const [atX, atY] = [x.from + (column / (columns - 1)) * (x.to - x.from), y.from + (row / (rows - 1)) * (y.to - y.from)];
      points.push({ x: places.x(atX), y: places.y(atY), tell: () => tell(atX, atY, values[row * columns + column] ?? Number.NaN, false) });
    }
  }
  return points;
}

function sentenceOf({ x, y, result, values, present, gaps, note }: ContourData): string {
  const there = values.filter((value) => !Number.isNaN(value));
  const over = `“${x.axis.words}” from ${x.axis.text(x.from)} to ${x.axis.text(x.to)} and “${y.axis.words}” from ${y.axis.text(y.from)} to ${y.axis.text(y.to)}`;
  if (there.length === 0) return `${result.words} has no value over ${over}.`;
  const [low, high] = there.reduce(([least, most], value) => [Math.min(least, value), Math.max(most, value)], [Infinity, -Infinity]);
  return [
    `Over ${over}, ${result.words} lies between ${result.text(low)} and ${result.text(high)}.`,
    ...(present === undefined ? [] : ['The dot marks the sheet as it is.']),
    ...(gaps.length === 0 ? [] : [`Shaded, it has no value: ${gaps.join('; ')}.`]),
    ...(note === undefined ? [] : [note]),
  ].join(' ');
}
