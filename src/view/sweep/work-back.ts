import { nothing, type TemplateResult } from 'lit-html';
import { composed } from '../../core/problem/index.ts';
import { inputsOf, presentWorkBack, searchTexts, type PresentedSolution, type PresentedWorkBack, wholeOf } from '../../report/index.ts';
import { holdsReadings } from '../../graph/index.ts';
import { setTrial, trialText, type GivenCell, type StepCell } from '../../sheet/index.ts';
import { setGiven } from '../commands.ts';
import type { Desk } from '../desk.ts';
import { problemLine, type Part } from '../parts.ts';
import { html } from '../template.ts';
import { choiceField, chosenInput, namedCells, textField } from './fields.ts';
import type { WorkBackUi } from './sweep-ui.ts';

/** The value of one given with which the result is what is wanted. */
export function workBackPart(cell: StepCell, desk: Desk): Part {
  const context = desk.context();
  const ui = desk.ui(cell.id).workBack;
  const input = chosenInput(cell, ui.input, context);
  if (input === undefined) return html`<p class="help">No given has a part in this result.</p>`;
  const usual = searchTexts(input, context);
  const set = (change: Partial<WorkBackUi>): void => desk.changeUi(cell.id, ({ workBack }) => void Object.assign(workBack, change));
  const find = (): void => {
    const { wanted, from, to } = desk.ui(cell.id).workBack;
    const told = presentWorkBack({ result: cell, wanted, input, from, to }, desk.context());
    if (told.ok) set({ found: { states: wholeOf(desk.context()).states, told: told.value }, refused: undefined });
    else set({ found: undefined, refused: told.problem });
    desk.announce(told.ok ? told.value.summary : `${told.problem.what} ${told.problem.mend}`);
  };
  return html`<div class="work-back" role="group" aria-label=${composed`${cell.label ?? cell.symbol}: work back`}><p class="heading">Work back</p>
    <div class="sweep-form">
      ${textField('wanted result', ui.wanted, (wanted) => set({ wanted }), find)}
      ${choiceField('free to move', input.symbol, namedCells(inputsOf(cell.symbol, context)), (symbol) => set({ input: symbol, from: '', to: '', found: undefined }))}
      ${textField('between', ui.from === '' ? usual.from : ui.from, (from) => set({ from }), find)}
      ${textField('and', ui.to === '' ? usual.to : ui.to, (to) => set({ to }), find)}
    </div>
    <div class="sweep-actions"><button type="button" class="plain" @click=${find}>find it</button></div>
    ${ui.refused === undefined ? nothing : problemLine(ui.refused)}
    ${ui.found === undefined ? nothing : foundPart(ui.found.told, ui.found.states === wholeOf(context).states, input, cell, desk)}</div>`;
}

function foundPart(told: PresentedWorkBack, isFresh: boolean, input: GivenCell, cell: StepCell, desk: Desk): TemplateResult {
  return html`<div class="found">
    <p>${told.summary}${isFresh ? nothing : html` <span class="help">The sheet has changed since.</span>`}</p>
    ${told.answers.length === 0 ? nothing : html`<ul>${told.answers.map((answer) => answerItem(answer, input, cell, desk))}</ul>`}
    ${told.notes.map((note) => html`<p class="help">${note}</p>`)}</div>`;
}

function answerItem(answer: PresentedSolution, input: GivenCell, cell: StepCell, desk: Desk): TemplateResult {
  const putIn = (): void => {
    desk.settle();
    const isTrial = holdsReadings(input) || trialText(input) !== undefined;
    const command = isTrial ? setTrial(input.id, answer.typed) : setGiven(input, { value: answer.typed, readings: undefined });
    if (!desk.apply(command, cell.id)) return;
    desk.settle();
    const name = input.label ?? input.symbol;
    desk.announce(isTrial ? composed`Trial value for ${name}: ${answer.typed}; what was measured stays.` : composed`${name} is now ${answer.typed}. Undo takes it back.`);
  };
  return html`<li><p><span class="quantity">${input.symbol} = ${answer.value}</span>
      <button type="button" class="quiet" @click=${putIn}>put it in<span class="visually-hidden">: ${answer.typed} for ${input.label ?? input.symbol}</span></button></p>
    <p class="help">${answer.sentences.join(' ')}${answer.warnings.map((warning) => html` <strong>${warning}</strong>`)}</p></li>`;
}
