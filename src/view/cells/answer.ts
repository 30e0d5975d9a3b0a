import { composed } from '../../core/problem/index.ts';
import { answerRule, markedSheet, unitWords, wholeOf, type PresentedStep } from '../../report/index.ts';
import { entryKeys } from '../../graph/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { entered } from '../entered.ts';
import { focusNextBlank } from '../focus.ts';
import { actionOf } from '../keys.ts';
import { partId, type Part } from '../parts.ts';
import { html } from '../template.ts';

const IN_BLANK = new Set(['blank'] as const);

/**
 * The blank for the reader's own result. It is taken when the reader leaves it or presses Enter, not with each key:
 * half a number must not bring the sheet's own to light.
 */
export function answerBlank(cell: StepCell, step: PresentedStep, desk: Desk): Part {
  const unit = unitWords(cell.unit ?? '1');
  return html`<input class="blank answer-blank" type="text" data-measured autocomplete="off" spellcheck="false" enterkeyhint="next"
    aria-label=${composed`Your own result for ${step.label === '' ? step.symbol : step.label}`} placeholder=${unit === '' ? 'your result' : `your result, ${unit}`}
    aria-describedby=${`${partId(cell.id, 'answer-rule')}${step.answer?.problem === undefined ? '' : ` ${partId(cell.id, 'answer-problem')}`}`}
    .value=${entered(cell.answer ?? '')} @change=${(event: Event) => take(cell, event, desk)} @keydown=${(event: KeyboardEvent) => press(cell, event)}>
    <span class="help answer-rule" id=${partId(cell.id, 'answer-rule')}>${answerRule(cell, desk.context())}</span>`;
}

function take(cell: StepCell, event: Event, desk: Desk): void {
  if (!(event.target instanceof HTMLInputElement)) return;
  const typed = event.target.value.trim();
  desk.afterUpdate(() => {
    const said = desk.element(cell.id)?.querySelector(`.answer .sentence, #${CSS.escape(partId(cell.id, 'answer-problem'))}`);
    if (typed !== '' && said) desk.announce(said.textContent.trim());
  });
  enter(cell, typed, desk);
  desk.settle();
}

function enter(cell: StepCell, typed: string, desk: Desk): void {
  if (typed === (cell.answer?.trim() ?? '')) return;
  desk.apply({ do: 'set keys', cellId: cell.id, values: entryKeys(cell, typed, markedSheet(wholeOf(desk.context()))) }, cell.id);
}

function press(cell: StepCell, event: KeyboardEvent): void {
  if (event.isComposing || !(event.target instanceof HTMLInputElement)) return;
  const action = actionOf(event, IN_BLANK);
  if (action === 'give back') event.target.value = cell.answer ?? '';
  else if (action === 'next blank') focusNextBlank(event.target);
  else return;
  event.preventDefault();
}

/** Takes back the answer, for another one. */
export function againButton(cell: StepCell, desk: Desk): Part {
  const again = (): void => {
    enter(cell, '', desk);
    desk.element(cell.id)?.querySelector<HTMLElement>('.answer-blank')?.focus();
  };
  return html`<button type="button" class="quiet" @click=${again}>work it out again</button>`;
}
