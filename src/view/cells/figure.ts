import { html, nothing } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { presentFigure } from '../../report/index.ts';
import type { FigureCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { figureAt } from '../figures/live-figure.ts';
import { note, partId, problemList, type Part } from '../parts.ts';

/** A drawing that is also a control: its places and the figures on its dimension lines change the givens behind them. */
export function figureParts(cell: FigureCell, desk: Desk): { line: Part; margin: Part } {
  const figure = presentFigure(cell, desk.context());
  const { draw } = figure;
  return {
    line: html`${draw === undefined ? nothing : html`<figure>
        <div class="drawn" ${ref((element) => element instanceof HTMLElement && figureAt(element).show(cell.id, draw, desk))}></div>
        <figcaption>${figure.label === '' ? nothing : html`<span class="caption-label">${figure.label}.</span> `}<span class="sentence"></span></figcaption>
      </figure>`}
      ${problemList(figure, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${note(figure.note)}`,
  };
}
