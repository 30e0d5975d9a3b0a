import type { Axis } from './axis.ts';
import { equation, lettering, nameRuns, runsWidth, shownText } from './lettering.ts';
import { arrowhead, circle, group, line, polyline } from './markup.ts';
import { placeOutside, type Outside } from './outside-figures.ts';
import { interrupted } from './placement.ts';
import type { Area, Dimension, Run, TypedFigure } from './types.ts';

/** Narrow filled arrowheads, three times as long as wide (ISO 129-1: 2018 leaves the proportion to the draughtsman; common practice). */
const HEAD = { length: 9, width: 3 };
/** Extension lines begin a little off the object and run a little past the dimension line (ISO 129-1). */
const GAP = 3;
const OVERSHOOT = 4;
const CLEAR = 3;

interface DimensionBlock {
  readonly svg: string;
  readonly figures: readonly TypedFigure[];
  readonly bottom: number;
}

/** Dimensions end to end on one line; the name becomes the class of its group. */
export interface DimensionRow {
  readonly name: string;
  readonly dimensions: readonly Dimension[];
}

interface Row {
  readonly name: string;
  readonly dimensions: readonly Dimension[];
  readonly stacked: boolean;
  /** The dimension line. */
  readonly y: number;
  /** Figures that found no room above their line. */
  readonly outside: readonly Outside[];
  readonly bottom: number;
}

/**
 * Dimension lines below the body, row by row from the nearest down; the dimensions of one row stand end to end.
 * @param top where the first figure may begin @param startOf from where the extension line at a place may begin
 * @param letters what else is written where extension lines pass; they are interrupted there, as ISO 129-1 allows
 */
export function dimensionLines(
  rowsDown: readonly DimensionRow[], axis: Axis, top: number, startOf: (x: number) => number, letters: readonly Area[],
): DimensionBlock {
  const rows: Row[] = [];
  let bottom = top;
  const full = rowsDown.filter(({ dimensions }) => dimensions.length > 0);
  for (const [index, inRow] of full.entries()) {
    const row = layOut(inRow, crossing(full, index, axis), crossing(full, index + 1, axis), axis, bottom);
    rows.push(row);
    bottom = row.bottom + 6;
  }
  const figures: TypedFigure[] = [];
  const drawn = rows.map((row, index) => drawRow(row, crossing(full, index, axis), axis, figures));
  const written = [...letters, ...rows.flatMap(({ outside }) => outside.map(({ area }) => area))];
  return { svg: group('dimensions', [extensionLines(rows, axis, startOf, written), ...drawn]), figures, bottom };
}

/** Places of extension lines that pass through the row at `index`: its own, and those on their way to the rows below it. */
function crossing(rows: readonly DimensionRow[], index: number, axis: Axis): number[] {
  return rows.slice(index).flatMap(({ dimensions }) => dimensions).flatMap((one) => [axis.x(one.from), axis.x(one.to)]);
}

function figureLines(dimension: Dimension, stacked: boolean): Run[][] {
  const text = shownText(dimension.value);
  return stacked && text !== '' ? [nameRuns(dimension.value), [text]] : [equation(dimension.value)];
}

function figureWidth(dimension: Dimension, stacked: boolean, size: number): number {
  return Math.max(...figureLines(dimension, stacked).map((runs) => runsWidth(runs, size)));
}

/** The widest stretch of the dimension line that no extension line crosses. */
function clearStretch(dimension: Dimension, lines: readonly number[], axis: Axis): { from: number; to: number } {
  const [a, b] = [axis.x(dimension.from), axis.x(dimension.to)];
  const [from, to] = [Math.min(a, b), Math.max(a, b)];
  const stops = [from, ...lines.filter((x) => x > from + 1 && x < to - 1), to].sort((one, other) => one - other);
  let best = { from, to: from };
  stops.slice(1).forEach((stop, index) => {
    const start = stops[index] ?? stop;
    if (stop - start > best.to - best.from + 0.5) best = { from: start, to: stop };
  });
  return best;
}

function fits(dimension: Dimension, lines: readonly number[], axis: Axis, stacked: boolean): boolean {
  const { from, to } = clearStretch(dimension, lines, axis);
  return figureWidth(dimension, stacked, axis.textSize) + 2 * CLEAR <= to - from;
}

function layOut({ name, dimensions: row }: DimensionRow, lines: readonly number[], below: readonly number[], axis: Axis, top: number): Row {
  const stacked = row.some((one) => !fits(one, lines, axis, false) && fits(one, lines, axis, true));
  const y = top + axis.textSize * 1.2 * (stacked ? 2 : 1) + 6;
  const tooLong = row.filter((one) => !fits(one, lines, axis, stacked)).map((dimension) => ({
    dimension, middle: (axis.x(dimension.from) + axis.x(dimension.to)) / 2, width: figureWidth(dimension, false, axis.textSize) + 4,
  }));
  const outside = placeOutside(tooLong, axis, y, below);
  return { name, dimensions: row, stacked, y, outside, bottom: Math.max(y, ...outside.map(({ shoulder }) => shoulder)) };
}

function extensionLines(rows: readonly Row[], axis: Axis, startOf: (x: number) => number, written: readonly Area[]): string {
  const ends = new Map<number, number>();
  for (const row of rows) {
    for (const place of row.dimensions.flatMap((one) => [one.from, one.to])) {
      const x = Math.round(axis.x(place) * 2) / 2;
      ends.set(x, Math.max(ends.get(x) ?? 0, row.y + OVERSHOOT));
    }
  }
  return [...ends].flatMap(([x, end]) => interrupted(x, Math.min(startOf(x) + GAP, end - OVERSHOOT), end, written)
    .map((piece) => line({ x, y: piece.from }, { x, y: piece.to }, 'extension-line'))).join('');
}

/** Too short for two arrowheads between its ends. */
function isShort(dimension: Dimension, axis: Axis): boolean {
  return Math.abs(axis.x(dimension.to) - axis.x(dimension.from)) < 2 * HEAD.length + 6;
}

function drawRow(row: Row, lines: readonly number[], axis: Axis, figures: TypedFigure[]): string {
  const parts: string[] = [];
  const short = row.dimensions.filter((one) => isShort(one, axis));
  const dots = new Set(short.flatMap((one) => [axis.x(one.from), axis.x(one.to)]));
  for (const dimension of row.dimensions) parts.push(dimensionLine(dimension, row, axis, dots));
  for (const x of dots) parts.push(circle({ x, y: row.y }, 1.8, 'dimension-dot'));
  for (const dimension of row.dimensions) {
    const outside = row.outside.find((one) => one.dimension === dimension);
    if (outside !== undefined) {
      parts.push(polyline(outside.leader, 'leader'), figureText(dimension, false, { x: outside.area.x + outside.area.width / 2, lineY: outside.shoulder }, axis, figures));
    } else {
      const { from, to } = clearStretch(dimension, lines, axis);
      parts.push(figureText(dimension, row.stacked, { x: (from + to) / 2, lineY: row.y }, axis, figures));
    }
  }
  return group(row.name, parts);
}

/** The line with its ends: arrowheads, or a dot where the next span is too short for them (ISO 129-1 allows it). */
function dimensionLine(dimension: Dimension, row: Row, axis: Axis, dots: ReadonlySet<number>): string {
  const [a, b] = [axis.x(dimension.from), axis.x(dimension.to)];
  const [from, to] = [Math.min(a, b), Math.max(a, b)];
  const heads = [[from, -1], [to, 1]] as const;
  return line({ x: from, y: row.y }, { x: to, y: row.y }, 'dimension-line')
    + heads.filter(([x]) => !dots.has(x))
      .map(([x, direction]) => arrowhead({ x, y: row.y }, { x: direction, y: 0 }, HEAD.length, HEAD.width, 'dimension-head')).join('');
}

/** The figure standing on its dimension line (or on the shoulder of its leader), centred at `x`. */
function figureText(dimension: Dimension, stacked: boolean, { x, lineY }: { readonly x: number; readonly lineY: number }, axis: Axis, figures: TypedFigure[]): string {
  const size = axis.textSize;
  const lines = figureLines(dimension, stacked);
  const width = figureWidth(dimension, stacked, size);
  const height = lines.length * size * 1.2;
  const { given } = dimension.value;
  if (given !== undefined) figures.push({ given, x: x - width / 2 - 2, y: lineY - 4 - height, width: width + 4, height: height + 2 });
  const className = given === undefined ? 'dimension-figure' : 'dimension-figure yours';
  return lines.map((runs, index) => lettering(runs, {
    x, y: lineY - size * 0.4 - (lines.length - 1 - index) * size * 1.2, anchor: 'middle', size, className,
  })).join('');
}
