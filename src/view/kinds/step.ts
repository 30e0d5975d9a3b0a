import { nothing, type TemplateResult } from 'lit-html';
import { presentStep, type PresentedStep } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import { endAfter } from '../clock.ts';
import type { CellUi, Desk, OpenPart } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { lightButton } from '../lighting.ts';
import { note, partId, problemLine, problemList, resultText, uncertaintyLines, type Part } from '../parts.ts';
import { changeMarks } from '../cells/shift.ts';
import { answerBlank, answerVerdict } from '../cells/answer.ts';
import { openedSweeps } from '../sweep/index.ts';
import { html } from '../template.ts';
import { budgetOpener, openedBudgets } from '../cells/budget.ts';
import { derivation, readsList } from '../cells/derivation.ts';
import { canBeDrawn, drawsPart } from '../cells/draws.ts';
import { slipHere, slipMargin, slipSign } from '../cells/slip.ts';

const OPENED: readonly OpenPart[] = ['derivation', 'budget', 'draws', 'against', 'work back'];

/** A derivation step: symbols; the numbers put in; the result, double-underlined. */
export function stepParts(cell: StepCell, desk: Desk): { number: string; line: Part; margin: Part; state: string } {
  const step = presentStep(cell, desk.context());
  const ui = desk.ui(cell.id);
  return {
    number: step.number,
    state: [step.hidden ? 'hidden' : '', ui.folded ? 'folded' : ''].join(' ').trim(),
    line: stepLine(cell, step, ui, desk),
    margin: stepMargin(cell, step, ui, desk),
  };
}

function stepLine(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): TemplateResult {
  const opened = !step.hidden && OPENED.some((part) => ui.open.has(part));
  return html`<p class="label">${step.label}</p>
    ${ui.folded ? nothing : symbolsLine(step)}
    ${ui.folded || ui.numbersHidden || step.hidden || step.numbersTex === undefined ? nothing : html`<div class="numbers" ${setEquation(step.numbersTex)}></div>`}
    <div class="result-row">${resultLine(cell, step, ui, desk)}${buttons(cell, step, ui, desk)}</div>
    ${slipHere(step.slipMark, desk)}
    ${step.answer === undefined ? nothing : answerVerdict(step.answer, cell, desk)}
    ${problemList(step, partId(cell.id, 'problem'), ui.refused)}
    ${opened ? html`<div class="opened">
      ${ui.open.has('derivation') ? derivation(cell, desk) : nothing}
      ${openedBudgets(cell.id, [cell.symbol], desk)}
      ${ui.open.has('draws') ? drawsPart(cell, desk) : nothing}
      ${openedSweeps(cell, desk)}</div>` : nothing}`;
}

function symbolsLine(step: PresentedStep): Part {
  if (step.symbolsTex !== '') return html`<div class="symbols ${step.slipMark?.slip === undefined ? '' : 'slipped'}" ${setEquation(step.symbolsTex)}></div>`;
  if (step.formulaText === undefined) return nothing;
  return html`<div class="symbols as-typed"><span ${setEquation(`${step.symbolTex} =`)}></span> <code>${step.formulaText}</code></div>`;
}

function resultLine(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): Part {
  const { result } = step;
  const before = html`<span class="before" ${setEquation(ui.folded ? `${step.symbolTex} =` : step.resultPrefixTex)}></span>`;
  if (step.hidden) {
    return html`<div class="result">${before} ${step.asked
      ? answerBlank(cell, step, desk)
      : html`<span class="withheld">${step.withheld}</span>`}</div>`;
  }
  switch (result.kind) {
    case 'value':
      return html`<div class="result">${before} <span class="double-underlined ${step.slipMark === undefined ? '' : 'slipped'}">${resultText(result)}</span>${slipSign(step.slipMark)}</div>`;
    case 'range':
      return html`<div class="result">${before} <span class="range">${result.text}</span>${slipSign(step.slipMark)}</div>`;
    case 'problem':
      return step.problems.some(({ code, what }) => code === result.problem.code && what === result.problem.what)
        ? nothing
        : problemLine(result.problem, 'problem upstream');
  }
}

/** What a result can show, while its line has the focus or the pointer. */
function buttons(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): TemplateResult {
  const toggle = (part: OpenPart): void =>
    desk.changeUi(cell.id, (one) => void (one.open.has(part) ? one.open.delete(part) : one.open.add(part)));
  const opener = (part: OpenPart, words: string): TemplateResult =>
    html`<button type="button" class="quiet" aria-expanded=${String(ui.open.has(part))} @click=${() => toggle(part)}>${words}</button>`;
  return html`<div class="line-actions">
    ${readsList(cell, desk)}
    ${step.hidden ? nothing : html`
      ${opener('derivation', 'back to the inputs')}${budgetOpener(cell.id, [cell.symbol], desk)}${canBeDrawn(cell.symbol, desk) ? opener('draws', 'draws') : nothing}${lightButton(cell.symbol, step.label, desk)}
      ${opener('against', 'against an input')}${opener('work back', 'work back')}
      ${step.numbersTex === undefined || ui.folded ? nothing : html`<button type="button" class="quiet" aria-pressed=${String(!ui.numbersHidden)}
        @click=${() => desk.changeUi(cell.id, (one) => void (one.numbersHidden = !one.numbersHidden))}>numbers</button>`}`}
    <button type="button" class="quiet" aria-pressed=${String(ui.folded)} @click=${() => desk.changeUi(cell.id, (one) => void (one.folded = !one.folded))}>fold</button>
  </div>`;
}

function stepMargin(cell: StepCell, step: PresentedStep, ui: CellUi, desk: Desk): Part {
  const notes = ui.folded ? nothing : html`${note(step.setBy)}${note(step.note)}`;
  if (step.hidden) return notes;
  return html`${notes}${slipMargin(step.slipMark)}<div class="beside">${changeMarks(cell.symbol, desk)}${uncertaintyLines(step.result)}${expectedEnd(cell, desk)}</div>`;
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
