import type { Chart, ChartOptions, ResidualData, StaircaseData } from '../../figures/charts/index.ts';
import { chartDrawers } from '../../figures/at-hand/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { FigureCell, FitCell } from '../../sheet/types.ts';
import { BUDGET_DRAWING, presentBudgetChart } from './budget-figure.ts';
import { chartTexts } from './chart-texts.ts';
import { constantLifeData } from './constant-life-data.ts';
import { cellAt } from './lookup.ts';
import { plainFigures, unitText, withUnit } from './number.ts';
import { snData } from './sn-data.ts';
import { specimenName } from './specimen-name.ts';
import { presentSweep } from './sweep.ts';
import type { PresentContext } from './types.ts';

/** A chart to be laid out at a width, or the sentence that stands in its place. */
type PresentedChart = { readonly chart: (options: ChartOptions) => Chart } | { readonly instead: string };

/** What draws is there only when it is drawn. */
type Drawer<Data> = () => (data: Data, options: ChartOptions) => Chart;

const CHARTS: ReadonlyMap<string, (cell: FigureCell, context: PresentContext) => PresentedChart> = new Map([
  ['s-n', presentSn],
  ['constant-life', (cell: FigureCell, context: PresentContext) => laidOut(() => chartDrawers().constantLifeChart, () => constantLifeData(cell, context))],
  ['residuals', (cell: FigureCell, context: PresentContext) => presentResiduals(() => chartDrawers().residualChart, cell, context)],
  ['normal-scores', (cell: FigureCell, context: PresentContext) => presentResiduals(() => chartDrawers().normalScoreChart, cell, context)],
  ['staircase', presentStaircase],
  ['sweep', presentSweep],
  [BUDGET_DRAWING, presentBudgetChart],
]);

export const CHART_NAMES: readonly string[] = [...CHARTS.keys()];

/** The chart that a figure asks for by its name; undefined where it names none. Data are read when it is first drawn. */
export function presentChart(cell: FigureCell, context: PresentContext): PresentedChart | undefined {
  return CHARTS.get(cell.drawing)?.(cell, context);
}

function presentSn(cell: FigureCell, context: PresentContext): PresentedChart {
  return laidOut(() => chartDrawers().snChart, () => snData(cell, context));
}

function presentResiduals(
  drawer: Drawer<ResidualData>, cell: FigureCell, context: PresentContext,
): PresentedChart {
  const state = context.states.cell(cell.fit ?? '')?.fit;
  if (state === undefined) return { instead: 'This chart appears once its fit has a line.' };
  if (state.taken !== undefined) return { instead: 'Residuals stand in the sheet from which the line was taken.' };
  if (state.fit.method !== 'least-squares') {
    return { instead: 'Residuals are drawn for least squares; a runout has none, because its life is not known. Choose least squares to look at those of the fractures.' };
  }
  const table = context.states.cell(fitBehind(cell, context)?.table ?? '')?.table;
  return laidOut(drawer, () => ({
    residuals: state.residuals,
    s: state.fit.s,
    name: ({ row }) => specimenName(state.rows[row] ?? row, table),
    texts: chartTexts(context.system),
  }));
}

function presentStaircase(cell: FigureCell, context: PresentContext): PresentedChart {
  const findings = context.states.cell(cell.fit ?? '')?.findings;
  if (findings?.form !== 'staircase') return { instead: 'This chart appears once its fit has a staircase.' };
  const table = context.states.cell(fitBehind(cell, context)?.table ?? '')?.table;
  const { levels, outcomes, unit, result, method, next } = findings;
  return laidOut(() => chartDrawers().staircaseChart, (): StaircaseData => {
    const mean = result === undefined ? undefined : method === 'probit' ? result.probit?.mu : result.counted.mean;
    return {
      levels, outcomes,
      name: (place) => specimenName(place, table),
      unit: unitText(unit),
      level: (value) => withUnit(plainFigures(value, 4), unitText(unit)),
      ...(mean === undefined ? {} : { mean }),
      ...(next === null ? {} : { next: next.level }),
    };
  });
}

function fitBehind(cell: FigureCell, context: PresentContext): FitCell | undefined {
  return cellIn(cellAt(cell.fit ?? '', context), 'fit');
}

function laidOut<Data>(drawer: Drawer<Data>, read: () => Data): PresentedChart {
  let data: Data | undefined;
  return { chart: (options) => drawer()((data ??= read()), options) };
}
