import { nothing, svg, type TemplateResult } from 'lit-html';
import { withSignsShown, type Problem } from '../core/problem/index.ts';
import { cellAnchor, type PresentedNotes, type PresentedResult } from '../report/index.ts';
import type { Moved } from './moved.ts';
import { html } from './template.ts';

export type Part = TemplateResult | typeof nothing;

/** Id of an element that belongs to a cell. */
export function partId(blockId: string, part: string): string {
  return `${cellAnchor(blockId)}-${part}`;
}

/** Problems of a cell under its line, then what is used all the same. */
export function problemList({ problems, warnings }: PresentedNotes, id?: string, refused?: Problem): Part {
  const said = refused === undefined ? problems : [refused, ...problems];
  if (said.length === 0 && warnings.length === 0) return nothing;
  return html`<div id=${id ?? nothing}>
    ${said.map((problem) => problemLine(problem, 'problem'))}${warnings.map((problem) => problemLine(problem, 'problem warning'))}
  </div>`;
}

export function problemLine(problem: Problem, classes = 'problem'): TemplateResult {
  return html`<div class=${classes}><p><span class="what">${quoted(problem.what)}</span> <span class="mend">${quoted(problem.mend)}</span></p>${pointed(problem)}</div>`;
}

/** What a sentence quotes from the cell's text between backticks, set as it is typed there. */
function quoted(sentence: string): readonly (string | TemplateResult)[] {
  return sentence.split(/`([^`]*)`/u).map((piece, i) => (i % 2 === 0 ? piece : html`<code>${piece}</code>`));
}

/** The text that the problem speaks of, with the place marked. */
function pointed({ text, span }: Problem): Part {
  if (text === undefined || text === '' || span === undefined) return nothing;
  const start = Math.max(0, span.start);
  const end = Math.min(text.length, Math.max(span.end, start + 1));
  const marked = start < text.length ? text.slice(start, end) : '\u00a0';
  return html`<p class="where"><code>${withSignsShown(text.slice(0, start))}<mark>${withSignsShown(marked)}</mark>${withSignsShown(text.slice(end))}</code></p>`;
}

export function note(text: string | undefined, classes = 'note'): Part {
  return text === undefined || text === '' ? nothing : html`<p class=${classes}>${text}</p>`;
}

const PLAIN_DIGITS: Readonly<Record<string, string>> = {
  '⁻': '−', '⁰': '0', '¹': '1', '²': '2', '³': '3', '⁴': '4', '⁵': '5', '⁶': '6', '⁷': '7', '⁸': '8', '⁹': '9',
};

/** A number with its powers raised as type and not as characters, which KaTeX's roman face does not have. */
export function raised(text: string): readonly (string | TemplateResult)[] {
  return text.split(/([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/u).map((piece, i) =>
    i % 2 === 0 ? piece : html`<sup>${[...piece].map((digit) => PLAIN_DIGITS[digit] ?? digit).join('')}</sup>`);
}

/** Number and unit of a result in the sheet's roman face. */
export function resultText(result: PresentedResult & { readonly kind: 'value' }): TemplateResult {
  return html`<span class="quantity">${raised(result.number)}${result.unit === '' ? nothing : html`<span class="unit">\u2009${raised(result.unit)}</span>`}</span>`;
}

/** What stands beside a result: its uncertainty and its interval. */
export function uncertaintyLines(result: PresentedResult): Part {
  if (result.kind !== 'value') return nothing;
  const { uncertainty, spreadFactor, interval, unit } = result;
  const behind = unit === '' ? '' : `\u00a0${unit}`;
  const first = spreadFactor === undefined
    ? uncertainty === undefined ? nothing : html`<p class="uncertainty">± ${uncertainty}${behind}</p>`
    : html`<p class="uncertainty">×/÷ ${spreadFactor}</p>`;
  if (interval === undefined) return first;
  const freedom = interval.degreesOfFreedom === undefined ? '' : `, ν = ${interval.degreesOfFreedom}`;
  return html`${first}<p class="interval">95 %: ${interval.low} … ${interval.high}${behind} <span class="coverage">(k = ${interval.factor}${freedom})</span></p>`;
}

/** A wedge up or down with the relative change, until the next edit. */
export function movedMark(moved: Moved | undefined): Part {
  if (moved === undefined) return nothing;
  const wedge = { up: 'M1 9 6 1l5 8z', down: 'M1 2h10L6 10z', other: 'M2 4.5h8v2H2z' }[moved.direction];
  return html`<p class="moved ${moved.direction}"><svg class="wedge" viewBox="0 0 12 11" aria-hidden="true">${svg`<path d=${wedge}></path>`}</svg><span class="visually-hidden">${moved.direction === 'other' ? '' : `moved ${moved.direction} `}</span>${moved.text}</p>`;
}

const MARKS = { tick: 'M3 9.5 7 14 15 3.5', flag: 'M4 16V2.5h10l-3 3.7 3 3.8H4' } as const;

/** A drawn tick or flag; the sentence beside it says the same in words. */
export function verdictMark(holds: boolean): TemplateResult {
  const kind = holds ? 'tick' : 'flag';
  return html`<svg class="mark ${kind}" viewBox="0 0 18 18" aria-hidden="true" focusable="false">${svg`<path d=${MARKS[kind]}></path>`}</svg>`;
}
