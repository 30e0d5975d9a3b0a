import { nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { givenBehind, presentFigure, type PresentedFigure } from '../../report/index.ts';
import type { FigureCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { chartAt } from '../figures/live-chart.ts';
import { figureAt } from '../figures/live-figure.ts';
import { foldableBudget } from '../cells/budget.ts';
import { trialsBelow } from '../cells/trial.ts';
import { note, partId, problemList, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** A drawing that is also a control: its places and the figures on its dimension lines change the givens behind them; or a chart whose values can be read. */
export function figureParts(cell: FigureCell, desk: Desk): { line: Part; margin: Part } {
  const figure = presentFigure(cell, desk.context());
  const { draw, chart, budget, instead } = figure;
  return {
    line: html`${draw === undefined ? nothing : html`<figure>
        <div class="drawn" ${ref((element) => element instanceof HTMLElement && figureAt(element).show(cell.id, draw, desk))}></div>
        ${caption(figure)}
      </figure>${trialsBelow(givensShown(cell, desk), desk)}`}
      ${chart === undefined ? nothing : html`<figure>
        <div class="drawn chart-drawn" ${ref((element) => element instanceof HTMLElement && chartAt(element).show(cell.id, chart, figure.label))}></div>
        ${caption(figure)}
      </figure>`}
      ${budget === undefined ? nothing : html`<div class="budget">${foldableBudget(budget, cell.id, desk)}</div>`}
      ${instead === undefined ? nothing : html`<figure>${caption(figure)}</figure>`}
      ${problemList(figure, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${note(figure.note)}`,
  };
}

/** The givens that stand behind a drawing. */
function givensShown({ values, givens }: FigureCell, desk: Desk): readonly string[] {
  return [...values.values(), ...(givens?.values() ?? [])].flatMap((symbol) => givenBehind(symbol, desk.context()) ?? []);
}

/** The sentence of a drawing or chart is put in when it has been drawn. */
function caption({ label, instead }: PresentedFigure): TemplateResult {
  return html`<figcaption>${label === '' ? nothing : html`<span class="caption-label">${label}.</span> `}${instead ?? html`<span class="sentence"></span>`}</figcaption>`;
}
