import { html, nothing, type TemplateResult } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { inputsOf, resultsWith, sweepView, type SweepView } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { chartAt } from '../figures/live-chart.ts';
import { problemLine, type Part } from '../parts.ts';
import { choiceField, chosenInput, namedCells, textField } from './fields.ts';
import type { SweepUi } from './sweep-ui.ts';

/** A result against one of its inputs, as something to look at; it can be kept as a drawing of the sheet. */
export function againstPart(cell: StepCell, desk: Desk): Part {
  const context = desk.context();
  const ui = desk.ui(cell.id).sweep;
  const input = chosenInput(cell, ui.against, context);
  if (input === undefined) return html`<p class="help">No given has a part in this result.</p>`;
  const set = (change: Partial<SweepUi>): void => desk.changeUi(cell.id, ({ sweep }) => void Object.assign(sweep, change));
  const also = resultsWith(input, cell.symbol, context);
  const of = [cell.symbol, ...(also.some(({ symbol }) => symbol === ui.also) ? [ui.also] : [])];
  const view = sweepView({ of, against: input, from: ui.from, to: ui.to }, context);
  return html`<div class="sweep" role="group" aria-label=${`${cell.label ?? cell.symbol} against an input`}><p class="heading">Against an input</p>
    <div class="sweep-form">
      ${choiceField('against', input.symbol, namedCells(inputsOf(cell.symbol, context)), (against) => set({ against, from: '', to: '' }))}
      ${textField('from', ui.from === '' ? view.from : ui.from, (from) => set({ from }))}
      ${textField('to', ui.to === '' ? view.to : ui.to, (to) => set({ to }))}
      ${also.length === 0 ? nothing : choiceField('show also', of[1] ?? '', [{ value: '', words: 'nothing else' }, ...namedCells(also)], (chosen) => set({ also: chosen }))}
    </div>
    ${chartOf(cell, view, desk)}</div>`;
}

function chartOf(cell: StepCell, view: SweepView, desk: Desk): TemplateResult {
  if (view.problem !== undefined) return problemLine(view.problem);
  const { chart, figureSource } = view;
  const keep = (): void => {
    if (!desk.apply({ do: 'insert', after: cell.id, source: figureSource }, cell.id)) return;
    desk.settle();
    desk.announce('The drawing stands below this line now and belongs to the sheet.');
  };
  return html`<figure><div class="drawn chart-drawn" ${ref((element) => element instanceof HTMLElement && chartAt(element).show(`${cell.id}-against`, chart, view.label))}></div>
    <figcaption><span class="sentence"></span></figcaption></figure>
    <div class="sweep-actions"><button type="button" class="quiet" @click=${keep}>keep as a drawing of the sheet</button></div>`;
}
