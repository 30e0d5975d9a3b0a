import { nothing, type TemplateResult } from 'lit-html';
import { INSTRUMENT_CLASSES } from '../../core/estimate/index.ts';
import type { GivenCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { lightButton } from '../lighting.ts';
import { panels } from '../panels-at-hand.ts';
import type { Part } from '../parts.ts';
import { html } from '../template.ts';
import { budgetLines } from './budget.ts';

/**
 * Opens how a given was measured; stands in the margin and says the instrument, with what else can be pressed there.
 * @param isAtRest whether that is in sight when the line is not in use
 */
export function measuredButton(cell: GivenCell, desk: Desk, more: Part, isAtRest: boolean): TemplateResult {
  const open = desk.ui(cell.id).open.has('measured');
  const toggle = (): void =>
    desk.withPanels(() => desk.changeUi(cell.id, ({ open: parts }) => void (parts.has('measured') ? parts.delete('measured') : parts.add('measured'))));
  return html`<p class="instrument ${cell.instrument === undefined && !isAtRest ? 'unstated' : ''}"><button type="button" class="quiet" aria-expanded=${String(open)}
    title="How it was measured" @click=${toggle}>${cell.instrument ?? 'how it was measured'}<span class="visually-hidden">${cell.instrument === undefined ? '' : ': how it was measured'}</span></button>
    ${more}${lightButton(cell.symbol, cell.label ?? cell.symbol, desk, '1 %')}</p>`;
}

/** How a given was measured, as a part of the form that opens; `before`: what else can be done there. */
export function measuredForm(cell: GivenCell, desk: Desk, before: Part): Part {
  return desk.ui(cell.id).open.has('measured') ? html`<div class="measured">${before}${panels.use().measuredFields(cell, desk)}${budgetLines(cell.id, [cell.symbol], desk)}</div>` : nothing;
}

/** Suggestions for the instrument's blank, once for the whole sheet. */
export function instrumentList(): TemplateResult {
  return html`<datalist id="instrument-classes">${INSTRUMENT_CLASSES.map(({ name }) => html`<option value=${name}></option>`)}</datalist>`;
}
