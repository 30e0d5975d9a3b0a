import { nothing } from 'lit-html';
import { ref } from 'lit-html/directives/ref.js';
import { composed } from '../../core/problem/index.ts';
import { inputsOf, resultsWith, sweepView, type SweepView } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { chartAt } from '../figures/live-chart.ts';
import { problemLine, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { choiceField, chosenInput, namedCells, textField } from './fields.ts';
import type { SweepUi } from './sweep-ui.ts';

/** A result against one of its inputs, as something to look at; it can be kept as a drawing of the sheet. */
export function againstPart(cell: StepCell, desk: Desk): Part {
  const context = desk.context();
  const ui = desk.ui(cell.id).sweep;
  const input = chosenInput(cell, ui.against, context);
  if (input === undefined) return html`<p class="help">No given has a part in this result.</p>`;
  const set = (change: Partial<SweepUi>): void => desk.changeUi(cell.id, ({ sweep }) => void Object.assign(sweep, change));
  const inputs = inputsOf(cell.symbol, context);
  const others = inputs.filter(({ symbol }) => symbol !== input.symbol);
  const second = others.find(({ symbol }) => symbol === ui.second);
  const also = second === undefined ? resultsWith(input, cell.symbol, context) : [];
  const of = [cell.symbol, ...(also.some(({ symbol }) => symbol === ui.also) ? [ui.also] : [])];
  const sides = [{ given: input, from: ui.from, to: ui.to }, ...(second === undefined ? [] : [{ given: second, from: ui.secondFrom, to: ui.secondTo }])];
  const view = sweepView(of, sides, context);
  const [first, other] = view.ends;
  const none = { value: '', words: 'nothing else' };
  return html`<div class="sweep" role="group" aria-label=${composed`${cell.label ?? cell.symbol} against an input`}><p class="heading">Against an input</p>
    <div class="sweep-form">
      ${choiceField('against', input.symbol, namedCells(inputs), (against) => set({ against, from: '', to: '' }))}
      ${textField('from', first?.from ?? '', (from) => set({ from }))}
      ${textField('to', first?.to ?? '', (to) => set({ to }))}
      ${others.length === 0 ? nothing : choiceField('and against', second?.symbol ?? '', [none, ...namedCells(others)], (chosen) => set({ second: chosen, secondFrom: '', secondTo: '' }))}
      ${second === undefined ? nothing : html`${textField(`from, ${second.symbol}`, other?.from ?? '', (secondFrom) => set({ secondFrom }))}
        ${textField(`to, ${second.symbol}`, other?.to ?? '', (secondTo) => set({ secondTo }))}`}
      ${also.length === 0 ? nothing : choiceField('show also', of[1] ?? '', [none, ...namedCells(also)], (chosen) => set({ also: chosen }))}
    </div>
    ${chartOf(cell, view, desk)}</div>`;
}

function chartOf(cell: StepCell, view: SweepView, desk: Desk): Part {
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
