/**
 * Charts by way of what draws them when that is there: in the page it is a part by itself, unpacked when the first chart is to be drawn; in Node it is imported at once
 * (`at-once/`). Only types of `charts/` are imported here.
 */
import { atHand } from '../../core/remembered/index.ts';
import type * as Charts from '../charts/index.ts';

const charts = atHand<typeof Charts>('charts', () => import('../charts/index.ts'));

/** From now on charts are drawn by these. */
export const drawChartsWith = charts.give;
/** Whether a chart can be drawn now. */
export const canDrawCharts = charts.isThere;
/** What draws charts. Where it is not there yet (`canDrawCharts`) that is a fault of whoever calls. */
export const chartDrawers = charts.use;
/** Brings what draws charts; rejected where that part of the page is damaged. */
export const bringCharts = charts.bring;
