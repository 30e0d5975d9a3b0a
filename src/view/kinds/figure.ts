import { ref } from 'lit-html/directives/ref.js';
import { figureTemplate, givenBehind, type Hand, type PresentedFigure } from '../../report/index.ts';
import type { FigureCell } from '../../sheet/index.ts';
import { foldingOf } from '../cells/budget-folding.ts';
import { trialsBelow } from '../cells/trial.ts';
import type { Desk } from '../desk.ts';
import { chartAt } from '../figures/live-chart.ts';
import { figureAt } from '../figures/live-figure.ts';
import { hand, templateParts, type LineParts } from '../parts.ts';
import { html } from '../template.ts';

/** A drawing that is also a control: its places and the figures on its dimension lines change the givens behind them; or a chart whose values can be read. */
export function figureParts(cell: FigureCell, desk: Desk): LineParts {
  const template = figureTemplate(cell, desk.context(), {
    drawn: (figure) => drawnPlace(cell, figure, desk),
    below: hand(trialsBelow(givensShown(cell, desk), desk)),
    folding: ({ budget }) => (budget === undefined ? undefined : foldingOf(budget, cell.id, desk)),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

function drawnPlace(cell: FigureCell, { draw, chart, label }: PresentedFigure, desk: Desk): Hand | undefined {
  if (draw !== undefined) return hand(html`<div class="drawn" ${ref((element) => element instanceof HTMLElement && figureAt(element).show(cell.id, draw, desk))}></div>`);
  if (chart === undefined) return undefined;
  return hand(html`<div class="drawn chart-drawn" ${ref((element) => element instanceof HTMLElement && chartAt(element).show(cell.id, chart, label))}></div>`);
}

/** The givens that stand behind a drawing. */
function givensShown({ values, givens }: FigureCell, desk: Desk): readonly string[] {
  return [...values.values(), ...(givens?.values() ?? [])].flatMap((symbol) => givenBehind(symbol, desk.context()) ?? []);
}
