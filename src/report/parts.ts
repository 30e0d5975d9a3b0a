import { withSignsShown, type Problem } from '../core/problem/index.ts';
import { html, type Insertion, type Markup } from './markup.ts';
import type { PresentedNotes, PresentedResult } from './present/types.ts';

/** Small pieces that several kinds of cell are made of. */

/** Anchor of a cell within the page; ids come from the document and may hold anything. */
export function cellAnchor(cellId: string): string {
  return `cell-${encodeURIComponent(cellId.replace(/\p{Surrogate}/gu, '\ufffd'))}`;
}

/** What a cell looks like, said once for report and page. */
export interface CellTemplate {
  /** Further classes: `holds`, `hidden`. */
  readonly state?: string;
  /** Equation number. */
  readonly number?: string;
  readonly line: Markup;
  /** Where the line is made of `.label`, `.symbols`, `.numbers` and `.result-row`: what stands below these. The margin then begins beside the result. */
  readonly after?: Insertion;
  /** Below the problems. */
  readonly below?: Insertion;
  readonly notes: Pick<PresentedNotes, 'problems' | 'warnings'>;
  readonly margin: readonly Insertion[];
}

/** Number, line and margin of a cell, as the report has them. */
export function cellMarkup(id: string, kind: string, template: CellTemplate): Markup {
  const { state, number = '', after, notes, margin } = template;
  const classes = ['cell', `cell-${kind}`, ...(state === undefined ? [] : [state])].join(' ');
  return html`<section class="${classes}" id="${cellAnchor(id)}">
<div class="number">${number === '' ? '' : `(${number})`}</div>
<div class="${after === undefined ? 'line' : 'line rows'}">${wholeLine(template, problemList(notes))}</div>
<div class="margin">${margin}</div>
</section>
`;
}

/** The line of a cell with its problems in their place. */
export function wholeLine({ line, after, below }: CellTemplate, problems: Insertion): Markup {
  return after === undefined ? html`${line}${problems}${below}` : html`${line}<div class="after">${after}${problems}${below}</div>`;
}

/** Id of an element that belongs to a cell. */
export function partId(cellId: string, part: string): string {
  return `${cellAnchor(cellId)}-${part}`;
}

export function label(text: string): Markup | undefined {
  return text === '' ? undefined : html`<p class="label">${text}</p>`;
}

export function note(text: string | undefined, classes = 'note'): Markup | undefined {
  return text === undefined || text === '' ? undefined : html`<p class="${classes}">${text}</p>`;
}

/** Notes in a margin, together, so that the page can show their beginning. */
export function notesBeside(...notes: readonly (Markup | undefined)[]): Markup | undefined {
  const said = notes.filter((one) => one !== undefined);
  return said.length === 0 ? undefined : html`<div class="notes"><div class="said" tabindex="-1">${said}</div></div>`;
}

/** Problems of a cell under its line, then what is used all the same. */
export function problemList({ problems, warnings }: Pick<PresentedNotes, 'problems' | 'warnings'>): readonly Markup[] {
  return [...problems.map((problem) => problemLine(problem)), ...warnings.map((problem) => problemLine(problem, 'problem warning'))];
}

export function problemLine(problem: Problem, classes = 'problem'): Markup {
  return html`<div class="${classes}"><p><span class="what">${quoted(problem.what)}</span> <span class="mend">${quoted(problem.mend)}</span></p>${pointed(problem)}</div>`;
}

/** What a sentence quotes from the cell's text between backticks, set as it is typed there. */
export function quoted(sentence: string): readonly Insertion[] {
  return sentence.split(/`([^`]*)`/u).map((piece, i) => (i % 2 === 0 ? piece : html`<code>${piece}</code>`));
}

/** The text the problem speaks of, with the place marked. */
function pointed({ text, span, line }: Problem): Markup | undefined {
  if (text === undefined || span === undefined || text === '') {
    return line === undefined ? undefined : html`<p class="where">Line ${line} of the file.</p>`;
  }
  const [start, end] = [Math.max(0, span.start), Math.min(text.length, Math.max(span.end, span.start + 1))];
  // A place at the very end of the text has no character to mark.
  const marked = start < text.length ? text.slice(start, end) : '\u00a0';
  return html`<p class="where"><code>${withSignsShown(text.slice(0, start))}<mark>${withSignsShown(marked)}</mark>${withSignsShown(text.slice(end))}</code></p>`;
}

const PLAIN_DIGITS: Readonly<Record<string, string>> = {
  '⁻': '−', '⁰': '0', '¹': '1', '²': '2', '³': '3', '⁴': '4', '⁵': '5', '⁶': '6', '⁷': '7', '⁸': '8', '⁹': '9',
};

/** A number with its powers raised as type and not as characters, which KaTeX's roman face does not have. */
export function raised(text: string): readonly Insertion[] {
  return text.split(/([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/u).map((piece, i) =>
    i % 2 === 0 ? piece : html`<sup>${[...piece].map((digit) => PLAIN_DIGITS[digit] ?? digit).join('')}</sup>`);
}

/** Number and unit of a result in the sheet's roman face. */
export function quantity({ number, unit }: PresentedResult & { readonly kind: 'value' }): Markup {
  return html`<span class="quantity">${raised(number)}${unit !== '' && html`<span class="unit">\u2009${raised(unit)}</span>`}</span>`;
}

/** A result on its line: a number with two rules under it, or the word of a range. */
export function valueMarkup(result: Exclude<PresentedResult, { readonly kind: 'problem' }>, isSlipped = false): Markup {
  return result.kind === 'range' ? html`<span class="range">${result.text}</span>` : html`<span class="double-underlined${isSlipped ? ' slipped' : ''}">${quantity(result)}</span>`;
}

/** What an interval beside a result contains. */
export const INTERVAL_HOLDS = 'Where the value itself lies with 95 %, by the uncertainty of all that it is worked out from. Single specimens scatter further; where that is worked out it is told.';

/** What stands beside a result: its uncertainty and its interval. */
export function uncertaintyLines(result: PresentedResult): readonly Markup[] {
  if (result.kind !== 'value') return [];
  const { uncertainty, spreadFactor, interval, unit } = result;
  const behind = unit === '' ? '' : raised(`\u00a0${unit}`);
  const lines: Markup[] = [];
  if (spreadFactor !== undefined) lines.push(html`<p class="uncertainty">×/÷ ${raised(spreadFactor)}</p>`);
  else if (uncertainty !== undefined) lines.push(html`<p class="uncertainty">± ${raised(uncertainty)}${behind}</p>`);
  if (interval !== undefined) {
    const freedom = interval.degreesOfFreedom === undefined ? '' : raised(`, ν = ${interval.degreesOfFreedom}`);
    lines.push(html`<p class="interval" title="${INTERVAL_HOLDS}">95 %: ${raised(interval.low)} … ${raised(interval.high)}${behind} <span class="coverage">(k = ${interval.factor}${freedom})</span></p>`);
  }
  return lines;
}

const TICK = 'M3 9.5 7 14 15 3.5';
const FLAG = 'M4 16V2.5h10l-3 3.7 3 3.8H4';

/** A drawn tick or flag; the sentence beside it says the same in words. */
export function verdictMark(holds: boolean): Markup {
  const [kind, path] = holds ? ['tick', TICK] : ['flag', FLAG];
  return html`<svg class="mark ${kind}" viewBox="0 0 18 18" aria-hidden="true" focusable="false"><path d="${path}"/></svg>`;
}

/** A box of a form, ticked or open. */
export function box(ticked: boolean): Markup {
  return html`<svg class="mark box" viewBox="0 0 18 18" aria-hidden="true" focusable="false"><path class="frame" d="M2 2h14v14H2z"/>${ticked && html`<path class="tick" d="M4.5 9.5 8 13.5 15.5 3"/>`}</svg>`;
}
