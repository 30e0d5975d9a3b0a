import type { FigureCell } from '../../sheet/types.ts';
import { budgetTable, type Folding } from '../budget-table.ts';
import type { Form } from '../form.ts';
import { inLayouts } from '../layouts.ts';
import { html, type Hand, type Insertion } from '../markup.ts';
import { cellAnchor, note, notesBeside, problemList, type CellTemplate } from '../parts.ts';
import { presentFigure, type PresentedFigure } from '../present/figure.ts';
import type { PresentContext } from '../present/types.ts';
import { budgetTex } from '../tex-budget.ts';

export const figureForm: Form<FigureCell> = {
  template: (cell, context) => figureTemplate(cell, context),
  report: (cell, context) => {
    const figure = presentFigure(cell, context);
    const { label, budget } = figure;
    const draw = figure.draw ?? figure.chart;
    const drawings = draw === undefined ? [] : inLayouts(draw, cellAnchor(cell.id), ['wide', 'paper', 'narrow']);
    const shown = html`<section class="cell cell-figure" id="${cellAnchor(cell.id)}"><figure>${drawings.map(({ markup }) => markup)}
<figcaption>${label !== '' && html`<span class="caption-label">${label}.</span> `}${figure.instead ?? bound(drawings[0]?.sentence)}</figcaption></figure>${problemList(figure)}</section>
`;
    return {
      ...(budget === undefined ? { here: shown } : { budget: html`${shown}<div class="budget">${budgetTable(budget)}</div>` }),
      notes: { name: label, texts: [figure.note] },
    };
  },
  tex: budgetTex,
};

/** No line ends between a number and its unit. */
function bound(sentence: string | undefined): string | undefined {
  return sentence?.replace(/(?<=\d) (?=[%°µA-Za-z])/gu, '\u00a0');
}

/** What the page has of a figure: it draws for the width that there is, and puts the sentence in when it has. */
interface FigureHands {
  readonly drawn: (figure: PresentedFigure) => Hand | undefined;
  readonly below: Hand | undefined;
  readonly folding: (figure: PresentedFigure) => Folding | undefined;
}

/** A drawing or chart of named values with a sentence that says what it shows. */
export function figureTemplate(cell: FigureCell, context: PresentContext, hands?: FigureHands): CellTemplate {
  const figure = presentFigure(cell, context);
  const { label, instead, budget } = figure;
  const draw = figure.draw ?? figure.chart;
  const drawings = draw === undefined || hands !== undefined ? [] : inLayouts(draw, cellAnchor(cell.id));
  const sentence: Insertion = instead ?? bound(drawings[0]?.sentence) ?? html`<span class="sentence"></span>`;
  return {
    notes: figure,
    line: html`<figure>${hands === undefined ? drawings.map(({ markup }) => markup) : hands.drawn(figure)}
<figcaption>${label !== '' && html`<span class="caption-label">${label}.</span> `}${sentence}</figcaption></figure>${hands?.below}
${budget !== undefined && html`<div class="budget">${budgetTable(budget, hands?.folding(figure))}</div>`}`,
    margin: [notesBeside(note(figure.note))],
  };
}
