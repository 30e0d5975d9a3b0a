import { nothing } from 'lit-html';
import { parameterTable, presentBeside, presentFit } from '../../report/index.ts';
import type { FitCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { factList, smallTable } from '../cells/small-table.ts';
import { note, part, partId, problemList, type LineParts, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { changeMarks } from '../cells/shift.ts';
import { takeLine } from '../cells/take-line.ts';
import { findingsParts } from './findings.ts';

export function fitParts(cell: FitCell, desk: Desk): LineParts {
  return cell.finds === 'line' ? lineParts(cell, desk) : findingsParts(cell, desk);
}

/** A line fitted to a table: the line, the line with its numbers, its parameters with limits, and what is to be known of it. */
function lineParts(cell: FitCell, desk: Desk): LineParts {
  const fit = presentFit(cell, desk.context());
  return {
    line: html`${fit.label === '' ? nothing : html`<p class="label">${fit.label}</p>`}
      ${fit.method === '' ? nothing : html`<p class="method">${fit.method}</p>`}
      ${fit.lineTex === undefined ? nothing : html`<div class="symbols" tabindex="0" ${setEquation(fit.lineTex)}></div>`}
      ${fit.numbersTex === undefined ? nothing : html`<div class="numbers" tabindex="0" ${setEquation(fit.numbersTex)}></div>`}
      ${fit.parameters.length === 0 ? nothing : part(parameterTable(fit, (symbol) => ({ hand: changeMarks(symbol, desk) })))}
      ${factList(fit.facts)}
      ${fit.hasBeside ? besidePart(cell, desk) : nothing}
      ${takeLine(cell, fit, desk)}
      ${problemList(fit, partId(cell.id, 'problem'), desk.ui(cell.id).refused)}`,
    margin: html`${fit.counts === '' ? nothing : html`<p class="count">${fit.counts}</p>`}
      ${fit.settings.map((setting) => html`<p class="setting">${setting}</p>`)}
      ${note(fit.note)}`,
  };
}

/** The other models are a search each, so they wait until they are asked for. */
function besidePart(cell: FitCell, desk: Desk): Part {
  const isOpen = desk.ui(cell.id).open.has('models');
  const toggle = (): void => desk.changeUi(cell.id, ({ open }) => void (open.has('models') ? open.delete('models') : open.add('models')));
  return html`<div class="take-actions"><button type="button" class="plain" aria-expanded=${String(isOpen)} @click=${toggle}>Compare with other models</button></div>
    ${isOpen ? presentBeside(cell, desk.context()).map((table) => smallTable(table, desk)) : nothing}`;
}
