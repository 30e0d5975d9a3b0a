import type { FigureCell } from '../../sheet/types.ts';
import { budgetTable } from '../budget-table.ts';
import type { Form } from '../form.ts';
import { inLayouts } from '../layouts.ts';
import { html } from '../markup.ts';
import { cellAnchor, note, type CellTemplate } from '../parts.ts';
import { presentFigure } from '../present/figure.ts';
import type { PresentContext } from '../present/types.ts';
import { budgetTex } from '../tex-budget.ts';

export const figureForm: Form<FigureCell> = { template: figureTemplate, tex: budgetTex };

/** A drawing or chart of named values with a sentence that says what it shows. */
export function figureTemplate(cell: FigureCell, context: PresentContext): CellTemplate {
  const figure = presentFigure(cell, context);
  const draw = figure.draw ?? figure.chart;
  const drawings = draw === undefined ? [] : inLayouts(draw, cellAnchor(cell.id));
  return {
    notes: figure,
    line: html`<figure>${drawings.map(({ markup }) => markup)}
<figcaption>${figure.label !== '' && html`<span class="caption-label">${figure.label}.</span> `}${drawings[0]?.sentence ?? figure.instead}</figcaption></figure>
${figure.budget !== undefined && html`<div class="budget">${budgetTable(figure.budget)}</div>`}`,
    margin: [note(figure.note)],
  };
}
