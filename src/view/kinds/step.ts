import { nothing, type TemplateResult } from 'lit-html';
import { equationLine, presentStep, stepTemplate, type PresentedStep } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import { endAfter } from '../clock.ts';
import type { CellUi, Desk, OpenPart } from '../desk.ts';
import { lightButton } from '../lighting.ts';
import { panels } from '../panels-at-hand.ts';
import { hand, movedMark, part, templateParts, type LineParts, type Part } from '../parts.ts';
import { againButton, answerBlank } from '../cells/answer.ts';
import { html } from '../template.ts';
import { budgetOpener, openedBudgets } from '../cells/budget.ts';
import { derivation, readsList } from '../cells/derivation.ts';
import { canBeSampled } from '../sampling/can-be-sampled.ts';
import { offButton } from '../cells/slip.ts';

const OPENED: readonly OpenPart[] = ['cases', 'derivation', 'budget', 'draws', 'against', 'work back'];

/** What of that is brought when it is asked for. */
const IN_PANELS: ReadonlySet<OpenPart> = new Set(['draws', 'against', 'work back']);

/** A derivation step with all that can be opened at its result. */
export function stepParts(cell: StepCell, desk: Desk): LineParts {
  const context = desk.context();
  const step = presentStep(cell, context);
  const ui = desk.ui(cell.id);
  const template = stepTemplate(cell, step, context, {
    isFolded: ui.folded,
    withoutNumbers: ui.numbersHidden,
    answerBlank: step.hidden && step.asked ? hand(answerBlank(cell, step, desk)) : undefined,
    again: hand(againButton(cell, desk)),
    actions: hand(buttons(cell, step, ui, desk)),
    slipOff: (slip) => hand(offButton(slip, desk)),
    moved: hand(movedMark(desk.moved(cell.symbol))),
    clock: hand(expectedEnd(cell, desk)),
    opened: hand(opened(cell, step, ui, desk)),
  });
  return templateParts(cell.id, template, ui.refused);
}

function opened(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): Part {
  if (step.hidden || !OPENED.some((part) => ui.open.has(part))) return nothing;
  return html`<div class="opened">
    ${ui.open.has('cases') && step.wholeTex !== undefined ? part(equationLine('symbols', step.wholeTex)) : nothing}
    ${ui.open.has('derivation') ? derivation(cell, desk) : nothing}
    ${openedBudgets(cell.id, [cell.symbol], desk)}
    ${ui.open.has('draws') ? panels.use().samplesPart(cell, desk) : nothing}
    ${ui.open.has('against') ? panels.use().againstPart(cell, desk) : nothing}${ui.open.has('work back') ? panels.use().workBackPart(cell, desk) : nothing}</div>`;
}

/** What a result can show, while its line has the focus or the pointer. */
function buttons(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): TemplateResult {
  const toggle = (part: OpenPart): void =>
    desk.changeUi(cell.id, (one) => void (one.open.has(part) ? one.open.delete(part) : one.open.add(part)));
  const opener = (part: OpenPart, words: string): TemplateResult => {
    const press = (): void => (IN_PANELS.has(part) ? desk.withPanels(() => toggle(part)) : toggle(part));
    return html`<button type="button" class="quiet" aria-expanded=${String(ui.open.has(part))} @click=${press}>${words}</button>`;
  };
  return html`<div class="line-actions">
    ${readsList(cell, desk)}
    ${step.hidden ? nothing : html`
      ${step.wholeTex === undefined ? nothing : opener('cases', 'all cases')}${opener('derivation', 'back to the inputs')}${budgetOpener(cell.id, [cell.symbol], desk)}${canBeSampled(cell.symbol, desk) ? opener('draws', 'draws') : nothing}${lightButton(cell.symbol, step.label, desk)}
      ${opener('against', 'against an input')}${opener('work back', 'work back')}
      ${step.numbersTex === undefined || ui.folded ? nothing : html`<button type="button" class="quiet" aria-pressed=${String(!ui.numbersHidden)}
        @click=${() => desk.changeUi(cell.id, (one) => void (one.numbersHidden = !one.numbersHidden))}>numbers</button>`}`}
    <button type="button" class="quiet" aria-pressed=${String(ui.folded)} @click=${() => desk.changeUi(cell.id, (one) => void (one.folded = !one.folded))}>fold</button>
  </div>`;
}

/** The clock time at which a test begun now would be expected to end, with the earliest and the latest. */
function expectedEnd(cell: StepCell, desk: Desk): Part {
  if (cell.clock === undefined) return nothing;
  const { states } = desk.context();
  const now = desk.session.now();
  const end = (symbol: string): string | undefined => {
    const state = states.symbol(symbol);
    return state?.status === 'value' ? endAfter(now, state.estimate.value) : undefined;
  };
  const [expected, earliest, latest] = [end(cell.symbol), end(cell.clock[0]), end(cell.clock[1])];
  if (expected === undefined) return nothing;
  return html`<p class="clock">Begun now, it is expected to end <time>${expected}</time>${earliest === undefined || latest === undefined
    ? nothing : html` (between <time>${earliest}</time> and <time>${latest}</time>)`}.</p>`;
}
