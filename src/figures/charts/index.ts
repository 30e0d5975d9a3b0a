/**
 * Charts as SVG text, drawn by Plot into a stand-in for a document: the same on the page, in the report and without a browser.
 * Nouns: data (what to draw, plain), chart (the SVG with its words and the places whose values can be read), key (what marks and
 * lines mean, where they are not named beside themselves).
 * Invariants: one unit of the viewBox is one px of the width asked for; the same data give the same text; no number in it is
 * NaN or infinite; letters neither touch each other nor marks; what comes from a reader is escaped.
 *
 * Looks come from `../charts.css` by class names alone, below `svg.drawing.chart`; letters as in the drawings.
 */
export { constantLifeChart } from './constant-life-chart.ts';
export { samplesChart } from './samples-chart.ts';
export { budgetChart } from './budget-chart.ts';
export type { BudgetBar, BudgetData } from './budget-types.ts';
export { normalScoreChart, residualChart } from './residual-charts.ts';
export { snChart } from './sn-chart.ts';
export { staircaseChart } from './staircase-chart.ts';
export { sweepChart } from './sweep-chart.ts';
export { contourChart } from './contour-chart.ts';
export type { ContourData, SweepAxis, SweepData, SweepPanel, SweptGap } from './sweep-types.ts';
export type {
  Chart, ChartOptions, ChartPoint, ChartSpecimens, ChartTexts, ConstantLifeData, CurrentSpecimen, SamplesData, ResidualData, SnData, StaircaseData, StatedLine,
} from './types.ts';
