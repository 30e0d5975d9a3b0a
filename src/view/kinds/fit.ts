import { besideValues, fitTemplate, presentBeside, presentFit, smallTable, type Insertion } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { hand, movedMark, templateParts, type LineParts } from '../parts.ts';
import { html } from '../template.ts';
import { takeLine } from '../cells/take-line.ts';
import { findingsParts } from './findings.ts';

export function fitParts(cell: FitCell, desk: Desk): LineParts {
  return cell.finds === 'line' ? lineParts(cell, desk) : findingsParts(cell, desk);
}

/** A line fitted to a table. */
function lineParts(cell: FitCell, desk: Desk): LineParts {
  const context = desk.context();
  const fit = presentFit(cell, context);
  const template = fitTemplate(cell, fit, context, {
    moved: (symbol) => hand(movedMark(desk.moved(symbol))),
    models: fit.hasBeside && modelsBeside(cell, desk),
    taking: hand(takeLine(cell, fit, desk)),
  });
  return templateParts(cell.id, template, desk.ui(cell.id).refused);
}

/** The other models are a search each, so they wait until they are asked for. */
function modelsBeside(cell: FitCell, desk: Desk): readonly Insertion[] {
  const isOpen = desk.ui(cell.id).open.has('models');
  const toggle = (): void => desk.changeUi(cell.id, ({ open }) => void (open.has('models') ? open.delete('models') : open.add('models')));
  const opener = html`<div class="take-actions"><button type="button" class="plain" aria-expanded=${String(isOpen)} @click=${toggle}>Compare with other models</button></div>`;
  return [hand(opener), isOpen && presentBeside(cell, desk.context()).map((table) => smallTable(table, besideValues(desk.context())))];
}
