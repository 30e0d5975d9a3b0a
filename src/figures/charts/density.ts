import type { Layout } from './layout.ts';
import type { AxisScale } from './scales.ts';

/** More marks than these would cover each other: how densely they lie is drawn instead. */
export const MOST_MARKS = 2000;

/** Many places in the axes' own values. */
interface Cloud {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  /** Which layer a place belongs to, counted from 0. */
  readonly layer: (place: number) => number;
  readonly layers: number;
}

/** Places of one layer that lie in one small rectangle of the chart. */
export interface Bin {
  readonly xFrom: number;
  readonly xTo: number;
  readonly yFrom: number;
  readonly yTo: number;
  /** Its middle. */
  readonly x: number;
  readonly y: number;
  readonly count: number;
  readonly layer: number;
  /** Nothing lies in the rectangles around it. */
  readonly isAlone: boolean;
}

/** Side of a rectangle, px. */
const SIDE = 5;

/** Counts places by rectangles of the plot. */
export function binned(cloud: Cloud, layout: Layout, scales: { x: AxisScale; y: AxisScale }): readonly Bin[] {
  const across = Math.max(1, Math.round((layout.right - layout.left) / SIDE));
  const up = Math.max(1, Math.round((layout.bottom - layout.top) / SIDE));
  const [horizontal, vertical] = [axisBins(scales.x, across), axisBins(scales.y, up)];
  const { layers } = cloud;
  const counts = new Uint32Array(layers * across * up);
  const all = new Uint32Array(across * up);
  for (let i = 0; i < cloud.x.length; i++) {
    const column = horizontal.of(cloud.x[i] ?? 0);
    const row = vertical.of(cloud.y[i] ?? 0);
    if (column < 0 || row < 0) continue;
    const place = row * across + column;
    const at = layers * place + cloud.layer(i);
    counts[at] = (counts[at] ?? 0) + 1;
    all[place] = (all[place] ?? 0) + 1;
  }
  const around = (column: number, row: number): number => {
    let sum = 0;
    for (let y = Math.max(0, row - 1); y <= Math.min(up - 1, row + 1); y++) {
      for (let x = Math.max(0, column - 1); x <= Math.min(across - 1, column + 1); x++) sum += all[y * across + x] ?? 0;
    }
    return sum;
  };
  const bins: Bin[] = [];
  counts.forEach((count, at) => {
    if (count === 0) return;
    const place = Math.floor(at / layers);
    const [row, column] = [Math.floor(place / across), place % across];
    bins.push({
      xFrom: horizontal.edge(column), xTo: horizontal.edge(column + 1), x: horizontal.edge(column + 0.5),
      yFrom: vertical.edge(row), yTo: vertical.edge(row + 1), y: vertical.edge(row + 0.5),
      count, layer: at % layers, isAlone: around(column, row) === count,
    });
  });
  return bins;
}

/** Darkness of a rectangle, on a logarithmic scale of counts so that few are still seen beside many. */
export function opacityOf({ count }: Bin, most: number): number {
  return Math.round((0.15 + 0.85 * (Math.log1p(count) / Math.log1p(most))) * 100) / 100;
}

/** Equal steps along an axis; −1 for what lies beyond it. */
function axisBins({ type, domain }: AxisScale, count: number): { of: (value: number) => number; edge: (at: number) => number } {
  const isLog = type === 'log';
  const [low, high] = isLog ? [Math.log10(domain[0]), Math.log10(domain[1])] : domain;
  const perUnit = count / (high - low);
  return {
    of: (value) => {
      const at = Math.floor(((isLog ? Math.log10(value) : value) - low) * perUnit);
      return at >= 0 && at < count ? at : -1;
    },
    edge: (at) => {
      const value = low + at / perUnit;
      return isLog ? 10 ** value : value;
    },
  };
}
