import type { DrawnResult } from '../graph/index.ts';
import type { GivenCell, StepCell } from '../sheet/types.ts';
import { drawsParts } from './draws-parts.ts';
import { shiftLine } from './held-parts.ts';
import { html, math, type Insertion, type Markup } from './markup.ts';
import { cellLine, label, note, problemLine, problemList, raised, uncertaintyLines } from './parts.ts';
import { presentGiven } from './present/given.ts';
import { presentShift } from './present/shift.ts';
import { presentStep } from './present/step.ts';
import { slipHere, slipMargin, slipSign, slipUsed } from './slip-parts.ts';
import { trialHere } from './trial-parts.ts';
import type { PresentContext, PresentedAnswer, PresentedGiven, PresentedNotes, PresentedResult, PresentedStep } from './present/types.ts';

/** A measured quantity as a line of a form: words, blanks, and in the margin what follows from the readings. */
export function givenLine(cell: GivenCell, context: PresentContext): Markup {
  const given = presentGiven(cell, context);
  const blanks = given.blanks.length === 0 ? [''] : given.blanks;
  return cellLine({
    id: cell.id,
    kind: 'given',
    line: html`<div class="form-line"><p class="label">${given.label}</p>
<p class="blanks"><span class="symbol">${math(`${given.symbolTex} =`)}</span> ${blanks.map((text) => html`<span class="blank">${text}</span> `)}</p></div>${trialHere(given.trial)}${slipHere(given.slipMark)}${problemList(given)}`,
    margin: givenMargin(given, context),
  });
}

function givenMargin(given: PresentedGiven, context: PresentContext): readonly Insertion[] {
  const { result } = given;
  const behind = result.kind === 'value' && result.unit !== '' ? `\u00a0${result.unit}` : '';
  const uncertainty = result.kind === 'value' ? result.uncertainty : undefined;
  const lines: Insertion[] = [shiftLine(presentShift(given.symbol, context)), slipUsed(given.slipMark)];
  if (given.mean !== undefined && result.kind === 'value') {
    lines.push(html`<p class="mean">mean ${raised(result.number)}${behind}</p>`);
  }
  if (given.range !== undefined) lines.push(html`<p class="mean">${given.range}</p>`);
  if (uncertainty !== undefined) lines.push(html`<p class="uncertainty">u = ${uncertainty}${behind}</p>`);
  if (given.instrument !== undefined) lines.push(html`<p class="instrument">${given.instrument}</p>`);
  if (given.filledBy !== undefined) lines.push(html`<p class="filled">from ${given.filledBy}</p>`);
  lines.push(...given.echoes.map((echo) => html`<p class="echo">${echo}</p>`));
  lines.push(note(given.note));
  return lines;
}

/** A derivation step: symbols; the numbers put in; the result, double-underlined. */
export function stepLine(cell: StepCell, context: PresentContext, drawn?: DrawnResult): Markup {
  const step = presentStep(cell, context);
  return cellLine({
    id: cell.id,
    kind: 'step',
    ...(step.hidden ? { state: 'hidden' } : {}),
    number: step.number,
    rows: true,
    line: html`${stepLabel(step)}
${symbolsLine(step)}
${!step.hidden && step.numbersTex !== undefined && equationLine('numbers', step.numbersTex)}
${resultLine(step)}
<div class="after">${slipHere(step.slipMark)}${step.answer !== undefined && answerLine(step.answer)}${upstreamLine(step)}${problemList(step)}${!step.hidden && drawsParts(cell, drawn, context)}</div>`,
    margin: [
      slipMargin(step.slipMark),
      shiftLine(presentShift(cell.symbol, context)),
      ...(step.hidden ? [] : uncertaintyLines(step.result)),
      note(step.note),
    ],
  });
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

/** Signs that fit into a phone's line at the least. */
const SURELY_FITS = 20;

/** Whether an equation may be too wide for a phone's line, told from its signs: such a line scrolls on its own. */
export function mayBeTooWide(tex: string): boolean {
  return tex.replace(/\\phantom\{.*?\} =/, '').replace(/\\[a-zA-Z]+|[\\{}_^&,\s]/g, '').length > SURELY_FITS;
}

/** A line that may scroll can be reached, and scrolled, with the keyboard. */
export function equationLine(kind: 'symbols' | 'numbers', tex: string, isSlipped = false): Markup {
  return html`<div class="${kind}${isSlipped && ' slipped'}"${mayBeTooWide(tex) && html` tabindex="0"`}>${math(tex)}</div>`;
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
