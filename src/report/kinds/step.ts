import type { StepCell } from '../../sheet/types.ts';
import { samplesParts } from '../samples-parts.ts';
import { breakable, equationLine } from '../equation-line.ts';
import type { Form, Place } from '../form.ts';
import { shiftLine } from '../held-parts.ts';
import { html, math, type Hand, type Insertion, type Markup } from '../markup.ts';
import { cellAnchor, label, note, notesBeside, partId, problemLine, uncertaintyLines, valueMarkup, type CellTemplate } from '../parts.ts';
import { presentShift } from '../present/shift.ts';
import { presentStep } from '../present/step.ts';
import type { PresentContext, PresentedAnswer, PresentedSlip, PresentedStep } from '../present/types.ts';
import { entry, intervalText, named, OPEN_RESULTS, spreadBehind, type ReportPart } from '../report-part.ts';
import { slipHere, slipMargin, slipSign } from '../slip-parts.ts';
import { stepTex } from '../tex-step.ts';
import { fitOnPaper, widestPiece } from '../tex-width.ts';

export const stepForm: Form<StepCell> = {
  template: (cell, context, { sampled }) => {
    const step = presentStep(cell, context);
    const samples = step.hidden ? undefined : samplesParts(cell, sampled, context);
    return stepTemplate(cell, step, context, { opened: samples });
  },
  report: (cell, context, { sampled }) => stepInReport(cell, presentStep(cell, context), context, sampled),
  tex: stepTex,
  marksSlips: true,
};

/** How a step is looked at, and what only the page has there. */
interface StepHands {
  /** Its name and its result alone. */
  readonly isFolded?: boolean;
  readonly withoutNumbers?: boolean;
  /** In place of the words that the reader's own result comes first. */
  readonly answerBlank?: Hand | undefined;
  readonly again?: Hand;
  readonly actions?: Hand;
  readonly slipOff?: (slip: PresentedSlip) => Hand;
  readonly moved?: Hand;
  readonly clock?: Hand;
  /** What lies open below. */
  readonly opened?: Insertion;
}

/** A derivation step on one line where it fits: symbols; the numbers put in; the result, double-underlined. It breaks before an equals sign. */
export function stepTemplate(cell: StepCell, step: PresentedStep, context: PresentContext, hands: StepHands = {}): CellTemplate {
  const { hidden, numbersTex, slipMark, answer } = step;
  const isFolded = hands.isFolded === true;
  const isShort = step.takesOver || step.symbolsTex === '';
  // What is only taken over has its interval where it comes from.
  const lines = uncertaintyLines(step.result).slice(0, step.takesOver ? 1 : undefined);
  const beside = hidden ? [] : [hands.moved, shiftLine(presentShift(cell.symbol, context)), ...lines, hands.clock];
  return {
    ...(hidden || isFolded || isShort ? { state: [hidden && 'hidden', isFolded && 'folded', isShort && 'short'].filter(Boolean).join(' ') } : {}),
    number: step.number,
    notes: step,
    line: html`${stepLabel(step)}<div class="result-row"><div class="equation">${!isFolded && symbolsLine(step)}
${!isFolded && hands.withoutNumbers !== true && !hidden && numbersTex !== undefined && equationLine('numbers', numbersTex)}
${resultPart(step, hands)}${!isFolded && sinceLine(step)}</div>${resultProblem(step)}${hands.actions}</div>`,
    after: [slipHere(slipMark, hands.slipOff), answer && answerLine(answer, cell.id, hands)],
    below: hands.opened,
    margin: [
      // Nothing that is still hidden is told, not even that it is wrong.
      !hidden && slipMargin(slipMark),
      beside.some((said) => said !== undefined) && html`<div class="beside">${beside}</div>`,
      !isFolded && notesBeside(note(step.note)),
    ],
  };
}

/** Which cases apply, and why. */
function sinceLine({ sinceTex }: PresentedStep): Markup | undefined {
  return sinceTex === undefined ? undefined : html`<span class="since">since ${sinceTex.map((tex, i) => html`${i === 0 ? '' : i === sinceTex.length - 1 ? ' and ' : ', '}${math(tex)}`)}</span>`;
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

function resultPart(step: PresentedStep, hands: StepHands): Markup | undefined {
  const { result, slipMark } = step;
  const before = html`<span class="before">${math(hands.isFolded === true ? `${step.symbolTex} =` : step.resultPrefixTex)}</span>`;
  if (step.hidden) {
    const withheld = html`<span class="withheld">${step.asked ? 'your own result first' : step.withheld}</span>`;
    return html`<div class="result">${before} ${hands.answerBlank ?? withheld}</div>`;
  }
  return result.kind === 'problem' ? undefined : html`<div class="result">${before} ${valueMarkup(result, slipMark !== undefined)}${slipSign(slipMark)}</div>`;
}

function resultProblem({ hidden, result, problems }: PresentedStep): Markup | undefined {
  if (hidden || result.kind !== 'problem') return undefined;
  // The cell's own trouble stands in its list of problems already.
  const isSaid = problems.some(({ code, what }) => code === result.problem.code && what === result.problem.what);
  return isSaid ? undefined : problemLine(result.problem, 'problem upstream');
}

/** In one line: its words, the formula, the numbers put in, the result. What has none yet is told by what it waits for. */
function stepInReport(cell: StepCell, step: PresentedStep, context: PresentContext, sampled: Place['sampled']): ReportPart {
  const { result, number, hidden, slipMark, answer } = step;
  const notes = { name: html`(${number}) ${named(step.symbolTex, step.label)}`, texts: [step.wholeTex !== undefined && html`With all its cases ${wholeFormula(step.wholeTex)}.`, step.note] };
  const isOpen = !hidden && step.problems.length === 0 && (result.kind === 'problem' || (result.kind === 'range' && result.word === 'open'));
  if (isOpen) return { open: { under: OPEN_RESULTS, name: named(step.symbolTex, step.label), short: math(step.symbolTex) } };
  const below = [slipHere(slipMark), !hidden && slipMargin(slipMark), answer && answerLine(answer, cell.id, {}), !hidden && shiftLine(presentShift(cell.symbol, context))];
  const samples = hidden ? undefined : samplesParts(cell, sampled, context);
  return { here: entry(cellAnchor(cell.id), hidden ? 'step hidden' : 'step', stepRun(step), { number, notes: step, below, isWide: widestPiece(stepInOneLine(step)) > TELEPHONE }), notes, ...(samples === undefined ? {} : { samples: html`<h3>${named(step.symbolTex, step.label)}</h3>${samples}` }) };
}

/** Room of an equation on a telephone, em. */
const TELEPHONE = 18;
/** Of the two columns in which notes are printed and of both together, em. */
const [COLUMN_ON_PAPER, COLUMNS_ON_PAPER] = [26, 54];
/** Set smaller than this nobody reads a formula with pleasure: it takes both columns. */
const LEAST_FIT = 0.8;

/** A formula among words that may be wider than its column: set smaller on paper, or over both columns, and on the screen it scrolls by itself. */
function wholeFormula(tex: string): Markup {
  const isWide = widestPiece(tex) > COLUMN_ON_PAPER / LEAST_FIT;
  return html`<span class="${isWide ? 'whole wide' : 'whole'}" style="${fitOnPaper(tex, isWide ? COLUMNS_ON_PAPER : COLUMN_ON_PAPER)}" tabindex="${widestPiece(tex) > TELEPHONE && '0'}">${math(tex)}</span>`;
}

/** `R_A = (F_1 l_2 + …)/l_L = (154.25 N · …)/401.63 mm`; the sign before the result goes with that, so that no line ends in it. */
function stepInOneLine({ symbolTex, symbolsTex, numbersTex, hidden, formulaText }: PresentedStep): string {
  return `${symbolsTex === '' ? symbolTex : symbolsTex} ${hidden || numbersTex === undefined ? '' : numbersTex}${formulaText === undefined ? '' : ' ='}`;
}

function stepRun(step: PresentedStep): Insertion {
  const { label: words, setBy, formulaText, result, hidden, slipMark } = step;
  const tex = breakable(stepInOneLine(step));
  const equals = formulaText === undefined && html`${math('=')}\u00a0`;
  const value = hidden ? html`<span class="is">${equals}<span class="withheld">${step.asked ? 'your own result first' : step.withheld}</span></span>`
    : result.kind !== 'problem' && html`<span class="is">${equals}${valueMarkup(result, slipMark !== undefined)}${slipSign(slipMark)}</span>${spreadBehind(result)}`;
  const interval = hidden ? undefined : intervalText(result);
  return html`${words !== '' && html`<span class="label">${words}</span>`}${setBy !== undefined && html` <span class="set-by">${setBy}</span>`} <span class="formula" style="${fitOnPaper(tex, 42)}">${math(tex)}</span>${formulaText !== undefined && html` <code>${formulaText}</code>`} <span class="value">${value}</span>${interval !== undefined && html` <span class="interval">${interval}</span>`} ${sinceLine(step)}`;
}

/** Both results side by side, once the reader has entered theirs. What could not be read is said; on the page it stays in the blank. */
function answerLine({ problem, verdict, typed, sentence, comesOf = [] }: PresentedAnswer, cellId: string, hands: StepHands): Markup {
  // In the blank, where there is one, it stands already.
  const yours = html`<p class="answer ${verdict?.replaceAll(' ', '-') ?? 'untold'}">${hands.answerBlank === undefined && html`<span class="yours">Yours: <span class="typed">${typed}</span></span>
`}<span class="sentence">${sentence}${comesOf.length > 0 && ` Just this comes of ${comesOf.join('; or of ')}.`}</span>${hands.answerBlank === undefined && hands.again}</p>`;
  const isSaid = hands.answerBlank === undefined || (problem === undefined && sentence !== undefined);
  return html`${isSaid && yours}${problem && html`<div id="${partId(cellId, 'answer-problem')}">${problemLine(problem)}</div>`}`;
}
