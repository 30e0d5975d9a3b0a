import { NARROW } from '../drawings/axis.ts';
import type { ChartOptions } from './types.ts';

/** Where the plot stands in the chart, px. */
export interface Layout {
  readonly width: number;
  readonly textSize: number;
  readonly isNarrow: boolean;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  /** Of the plot with its axes; a key may stand below. */
  readonly height: number;
}

const SMALLEST_WIDTH = 240;
const SMALLEST_TEXT = 12;

/** @param rows lines of words above the plot; @param shape height of the plot over its width, wide and narrow */
export function layoutOf(options: ChartOptions, rows: number, shape: readonly [wide: number, narrow: number]): Layout {
  const width = Math.max(SMALLEST_WIDTH, options.width);
  const isNarrow = width < NARROW;
  const textSize = Math.max(SMALLEST_TEXT, options.textSize ?? (isNarrow ? 13 : 15));
  const left = Math.round(textSize * 2.9);
  const right = width - (isNarrow ? 15 : 18);
  const top = Math.round(textSize * (1.45 * rows + 0.45));
  const bottom = top + Math.round((right - left) * shape[isNarrow ? 1 : 0]);
  return { width, textSize, isNarrow, left, right, top, bottom, height: bottom + Math.round(textSize * 3.1) };
}
