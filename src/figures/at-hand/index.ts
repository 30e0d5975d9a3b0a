/**
 * Charts by way of what draws them when that is there: in the page it is a part by itself, unpacked when the first chart is to be drawn; in Node it is imported at once
 * (`at-once/`). Only types of `charts/` are imported here.
 */
import { broughtOnce } from '../../core/remembered/index.ts';
import type * as Charts from '../charts/index.ts';

let drawers: typeof Charts | undefined;

/** From now on charts are drawn by these. */
export function drawChartsWith(charts: typeof Charts): void {
  drawers = charts;
}

/** Whether a chart can be drawn now. */
export function canDrawCharts(): boolean {
  return drawers !== undefined;
}

/** What draws charts. Where it is not there yet (`canDrawCharts`) that is a fault of whoever calls. */
export function chartDrawers(): typeof Charts {
  if (drawers === undefined) throw new Error('charts are drawn before what draws them is there');
  return drawers;
}

/** Brings what draws charts; rejected where that part of the page is damaged. */
export const bringCharts = broughtOnce(async () => {
  drawers ??= await import('../charts/index.ts');
});
