import type { StepCell } from '../../sheet/types.ts';
import { drawsParts } from '../draws-parts.ts';
import { equationLine } from '../equation-line.ts';
import type { Form, Place } from '../form.ts';
import { shiftLine } from '../held-parts.ts';
import { html, math, type Markup } from '../markup.ts';
import { label, note, problemLine, uncertaintyLines, type CellTemplate } from '../parts.ts';
import { presentShift } from '../present/shift.ts';
import { presentStep } from '../present/step.ts';
import type { PresentContext, PresentedAnswer, PresentedNotes, PresentedResult, PresentedStep } from '../present/types.ts';
import { slipHere, slipMargin, slipSign } from '../slip-parts.ts';

export const stepForm: Form<StepCell> = { template: stepTemplate, marksSlips: true };

/** A derivation step: symbols; the numbers put in; the result, double-underlined. */
export function stepTemplate(cell: StepCell, context: PresentContext, { drawn }: Place): CellTemplate {
  const step = presentStep(cell, context);
  return {
    ...(step.hidden ? { state: 'hidden' } : {}),
    number: step.number,
    notes: step,
    line: html`${stepLabel(step)}
${symbolsLine(step)}
${!step.hidden && step.numbersTex !== undefined && equationLine('numbers', step.numbersTex)}
${resultLine(step)}
`,
    after: {
      above: [slipHere(step.slipMark), step.answer !== undefined && answerLine(step.answer), upstreamLine(step)],
      below: !step.hidden && drawsParts(cell, drawn, context),
    },
    margin: [
      slipMargin(step.slipMark),
      shiftLine(presentShift(cell.symbol, context)),
      ...(step.hidden ? [] : uncertaintyLines(step.result)),
      note(step.note),
    ],
  };
}

function stepLabel({ label: words, setBy }: PresentedStep): Markup | undefined {
  if (setBy === undefined) return label(words);
  return html`<p class="label">${words} <span class="set-by">${setBy}</span></p>`;
}

function symbolsLine(step: PresentedStep): Markup | undefined {
  if (step.symbolsTex !== '') return equationLine('symbols', step.symbolsTex, step.slipMark?.slip !== undefined);
  if (step.formulaText === undefined) return undefined;
  return html`<div class="symbols">${math(`${step.symbolTex} =`)} <code>${step.formulaText}</code></div>`;
}

function resultLine(step: PresentedStep): Markup | undefined {
  const { result, resultPrefixTex } = step;
  if (step.hidden) {
    const why = step.asked ? 'your own result first' : 'after your own working';
    return html`<div class="result">${math(resultPrefixTex)} <span class="withheld">${why}</span></div>`;
  }
  switch (result.kind) {
    case 'value':
      return html`<div class="result">${math(resultPrefixTex)} <span class="double-underlined${step.slipMark !== undefined && ' slipped'}">${math(result.tex)}</span>${slipSign(step.slipMark)}</div>`;
    case 'range':
      return html`<div class="result">${math(resultPrefixTex)} <span class="range">${result.text}</span>${slipSign(step.slipMark)}</div>`;
    case 'problem':
      return undefined;
  }
}

function upstreamLine(step: PresentedStep): Markup | undefined {
  const { result, hidden } = step;
  if (hidden || result.kind !== 'problem' || alreadySaid(result, step)) return undefined;
  return problemLine(result.problem, 'problem upstream');
}

/** The cell's own trouble stands in its list of problems already. */
function alreadySaid(result: PresentedResult & { kind: 'problem' }, { problems }: PresentedNotes): boolean {
  return problems.some(({ code, what }) => code === result.problem.code && what === result.problem.what);
}

function answerLine(answer: PresentedAnswer): Markup {
  return html`<p class="answer ${answer.verdict?.replaceAll(' ', '-') ?? 'untold'}"><span class="yours">Yours: ${answer.typed}</span> <span class="sentence">${answer.sentence}${answer.comesOf !== undefined && ` Just this comes of ${answer.comesOf.join('; or of ')}.`}</span></p>${answer.problem !== undefined && problemLine(answer.problem, 'problem')}`;
}
