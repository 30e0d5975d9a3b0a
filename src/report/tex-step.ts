import type { StepCell } from '../sheet/types.ts';
import { withUnit } from './present/number.ts';
import { SLIP_MARK } from './present/slips.ts';
import { presentStep } from './present/step.ts';
import type { PresentContext, PresentedResult, PresentedStep } from './present/types.ts';
import { texLines } from './tex-breaks.ts';
import { texText } from './tex-text.ts';
import { texWidth } from './tex-width.ts';

/** One step: its label, its equations under its number, and what is said where there is no number. */
export function stepTex(cell: StepCell, context: PresentContext): string {
  const step = presentStep(cell, context);
  const { result } = step;
  const left = texWidth(step.symbolTex);
  const lines = [
    step.wholeTex === undefined ? '' : inLines(step.wholeTex, left),
    step.symbolsTex === '' ? '' : inLines(step.symbolsTex, left),
    step.hidden || step.numbersTex === undefined ? '' : inLines(step.numbersTex, left),
    step.hidden || result.kind !== 'value' ? '' : resultTex(result, step.symbolsTex === '' ? `${step.symbolTex} ` : '') + (step.slipMark === undefined ? '' : ` \\quad \\textbf{${SLIP_MARK}}`),
  ].filter((line) => line !== '');
  const sentence = result.kind === 'range' && !step.hidden ? `${texText(result.text)}.` : '';
  const heading = step.label === '' ? '' : `\\paragraph{${texText(step.label)}}`;
  const equations = lines.length === 0
    ? []
    : ['\\begin{equation}\\begin{aligned}', lines.join(' \\\\\n'), `\\end{aligned}\\tag{${step.number}}\\end{equation}`];
  return [heading, ...equations, sentence, slipTex(step)].filter((line) => line !== '').join('\n');
}

/** What is wrong on purpose, and what is right. */
function slipTex({ slipMark, result, hidden }: PresentedStep): string {
  if (slipMark === undefined) return '';
  const what = slipMark.slip === undefined ? `${SLIP_MARK} Moved by a slip` : `${SLIP_MARK} Slip: ${slipMark.slip.label}`;
  const right = hidden || slipMark.right === undefined || result.kind === 'problem' ? '' : `; right: ${slipMark.right}`;
  const formula = slipMark.rightTex === undefined ? '' : ` Right is $${slipMark.rightTex}$.`;
  return `\\noindent\\textbf{${texText(`${what}${right}.`)}}${formula}`;
}

/** Room of a line in an article on Letter, 345 pt, less the number of the equation, em. */
const LINE = 30;

/** `R_A = …` as `R_A &= …`, the first equals sign being the definition's, in as many lines as it needs. @param left width of what stands before that sign, em */
function inLines(tex: string, left: number): string {
  const at = tex.indexOf('= ');
  if (at < 0) return tex;
  const [first = '', ...others] = texLines(tex.slice(at + 2), LINE - left - 1.5);
  return [`${tex.slice(0, at)}&= ${first}`, ...others.map((line) => `&${line}`)].join(' \\\\\n');
}

function resultTex(result: PresentedResult & { kind: 'value' }, left: string): string {
  const beside = besideTex(result);
  return `${left}&= ${result.tex}${beside === '' ? '' : ` \\quad ${beside}`}`;
}

function besideTex({ uncertainty, spreadFactor, unit }: PresentedResult & { kind: 'value' }): string {
  if (spreadFactor !== undefined) return `\\text{${texText(`×/÷ ${spreadFactor}`)}}`;
  return uncertainty === undefined ? '' : `u = \\text{${texText(withUnit(uncertainty, unit))}}`;
}
