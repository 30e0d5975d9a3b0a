import type { ChartOptions } from '../figures/charts/index.ts';
import type { FigureCell } from '../sheet/types.ts';
import { budgetTable } from './budget-table.ts';
import { html, trusted, type Markup } from './markup.ts';
import { cellAnchor, cellLine, note, problemList } from './parts.ts';
import { presentFigure } from './present/figure.ts';
import type { PresentContext } from './present/types.ts';

/** One drawing for wide pages and paper, one laid out anew for a narrow screen: the lettering keeps its size in both. */
const LAYOUTS = [
  { name: 'wide', width: 700 },
  { name: 'narrow', width: 340 },
] as const;
const TEXT_SIZE = 15;

/** A picture in each layout, of which a page shows the one that its width has room for. */
export function inLayouts(
  draw: (options: ChartOptions) => { readonly svg: string; readonly sentence: string }, anchor: string,
): readonly { readonly markup: Markup; readonly sentence: string }[] {
  const prefix = anchor.replace(/[^A-Za-z0-9-]/g, '-');
  return LAYOUTS.map(({ name, width }) => {
    const { svg, sentence } = draw({ width, idPrefix: `${prefix}-${name}`, textSize: TEXT_SIZE });
    return { markup: html`<div class="drawn ${name}">${trusted(svg)}</div>`, sentence };
  });
}

/** A drawing or chart of named values with a sentence that says what it shows. */
export function figureLine(cell: FigureCell, context: PresentContext): Markup {
  const figure = presentFigure(cell, context);
  const draw = figure.draw ?? figure.chart;
  const drawings = draw === undefined ? [] : inLayouts(draw, cellAnchor(cell.id));
  return cellLine({
    id: cell.id,
    kind: 'figure',
    line: html`<figure>${drawings.map(({ markup }) => markup)}
<figcaption>${figure.label !== '' && html`<span class="caption-label">${figure.label}.</span> `}${drawings[0]?.sentence ?? figure.instead}</figcaption></figure>
${figure.budget !== undefined && html`<div class="budget">${budgetTable(figure.budget)}</div>`}
${problemList(figure)}`,
    margin: [note(figure.note)],
  });
}
