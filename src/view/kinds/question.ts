import { live } from 'lit-html/directives/live.js';
import { questionKeys, rightStates } from '../../graph/index.ts';
import { presentQuestion, questionTemplate, wholeOf, type PresentedQuestion } from '../../report/index.ts';
import type { QuestionCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { entered } from '../entered.ts';
import { focusNextBlank } from '../focus.ts';
import { actionOf } from '../keys.ts';
import { hand, partId, templateParts, type LineParts, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** A question: options with a press that answers, a blank for an expression, or a place to write. */
export function questionParts(cell: QuestionCell, desk: Desk): LineParts {
  const question = presentQuestion(cell, desk.context());
  const blank = question.isOpen ? hand(BLANKS[question.way](cell, question, desk)) : undefined;
  const again = question.isOpen ? undefined : hand(html`<button type="button" class="quiet" @click=${() => answer(cell, '', desk)}>answer it again</button>`);
  return templateParts(cell.id, questionTemplate(cell, question, { ...(blank === undefined ? {} : { blank }), again }), desk.ui(cell.id).refused);
}

const BLANKS: Readonly<Record<PresentedQuestion['way'], (cell: QuestionCell, question: PresentedQuestion, desk: Desk) => Part>> = {
  options: optionsBlank, expression: (cell, _question, desk) => expressionBlank(cell, desk), words: wordsBlank,
};

function answer(cell: QuestionCell, typed: string, desk: Desk): void {
  if (typed === (cell.answer?.trim() ?? '')) return;
  const { document, states } = wholeOf(desk.context());
  desk.afterUpdate(() => {
    const said = desk.element(cell.id)?.querySelector(`.answer, #${CSS.escape(partId(cell.id, 'answer-problem'))}`);
    if (typed !== '' && said) desk.announce(said.textContent.trim());
  });
  desk.apply({ do: 'set keys', cellId: cell.id, values: questionKeys(cell, typed, document, rightStates(document, states)) }, cell.id);
  desk.settle();
}

/** Going through the options with the arrow keys is no answer: that is the press below them. */
function optionsBlank(cell: QuestionCell, { options }: PresentedQuestion, desk: Desk): Part {
  const name = partId(cell.id, 'option');
  const take = (event: SubmitEvent): void => {
    event.preventDefault();
    const chosen = event.target instanceof HTMLFormElement ? new FormData(event.target).get(name) : null;
    if (typeof chosen === 'string') answer(cell, chosen, desk);
  };
  return html`<form class="question-options" @submit=${take}><div class="options" role="radiogroup" aria-labelledby=${partId(cell.id, 'question')}>${options.map(({ key, words, isAnswer }) => html`<label class="option"><input type="radio" name=${name} value=${key}
      .checked=${live(isAnswer)}><span>${words}</span></label>`)}</div>
    <button type="submit" class="plain" aria-describedby=${partId(cell.id, 'rule')}>This is my answer</button></form>`;
}

function expressionBlank(cell: QuestionCell, desk: Desk): Part {
  const press = (event: KeyboardEvent): void => {
    if (event.isComposing || !(event.target instanceof HTMLInputElement)) return;
    const action = actionOf(event, IN_BLANK);
    if (action === 'give back') event.target.value = cell.answer ?? '';
    else if (action === 'next blank') focusNextBlank(event.target);
    else return;
    event.preventDefault();
  };
  return html`<div class="question-blank"><input class="blank expression-blank" type="text" data-measured autocomplete="off" autocapitalize="off" spellcheck="false" enterkeyhint="next"
      aria-labelledby=${partId(cell.id, 'question')} aria-describedby=${partId(cell.id, 'rule')} placeholder="such as F*l/2"
      .value=${entered(cell.answer ?? '')} @change=${(event: Event) => event.target instanceof HTMLInputElement && answer(cell, event.target.value.trim(), desk)} @keydown=${press}></div>`;
}

const IN_BLANK = new Set(['blank'] as const);

function wordsBlank(cell: QuestionCell, { typed }: PresentedQuestion, desk: Desk): Part {
  return html`<div class="question-blank"><textarea class="blank words-blank" rows=${Math.max(3, typed.split('\n').length)} aria-labelledby=${partId(cell.id, 'question')} aria-describedby=${partId(cell.id, 'rule')}
      .value=${entered(cell.answer ?? '')} @change=${(event: Event) => event.target instanceof HTMLTextAreaElement && answer(cell, event.target.value.trim(), desk)}></textarea></div>`;
}
