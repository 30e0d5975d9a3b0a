import { withSignsShown, type Problem } from '../core/problem/index.ts';
import { html, type Markup } from './markup.ts';
import type { PresentedNotes, PresentedResult } from './present/types.ts';

/** Small pieces that several kinds of cell are made of. */

/** Anchor of a cell within the page; ids come from the document and may hold anything. */
export function cellAnchor(cellId: string): string {
  return `cell-${encodeURIComponent(cellId.replace(/\p{Surrogate}/gu, '\ufffd'))}`;
}

interface CellParts {
  readonly id: string;
  readonly kind: string;
  /** Further classes: `holds`, `hidden`. */
  readonly state?: string;
  /** Equation number. */
  readonly number?: string;
  readonly line: Markup;
  /** The line is made of `.label`, `.symbols`, `.numbers`, `.result`, `.after`; the margin then begins beside the result. */
  readonly rows?: boolean;
  readonly margin?: readonly Markup[];
}

/** Number, line and margin, as every cell of the page has them. */
export function cellLine({ id, kind, state, number, line, rows = false, margin = [] }: CellParts): Markup {
  const classes = ['cell', `cell-${kind}`, ...(state === undefined ? [] : [state])].join(' ');
  return html`<section class="${classes}" id="${cellAnchor(id)}">
<div class="number">${number === undefined || number === '' ? '' : `(${number})`}</div>
<div class="${rows ? 'line rows' : 'line'}">${line}</div>
<div class="margin">${margin}</div>
</section>
`;
}

export function label(text: string): Markup | undefined {
  return text === '' ? undefined : html`<p class="label">${text}</p>`;
}

export function note(text: string | undefined): Markup {
  return text === undefined || text === '' ? html`` : html`<p class="note">${text}</p>`;
}

/** Problems of a cell under its line, then what is used all the same. */
export function problemList({ problems, warnings }: PresentedNotes): Markup {
  return html`${problems.map((problem) => problemLine(problem, 'problem'))}${warnings.map((problem) => problemLine(problem, 'problem warning'))}`;
}

export function problemLine(problem: Problem, classes: string): Markup {
  return html`<div class="${classes}"><p><span class="what">${quoted(problem.what)}</span> <span class="mend">${quoted(problem.mend)}</span></p>${pointed(problem)}</div>`;
}

/** What a sentence quotes from the cell's text between backticks, set as it is typed there. */
function quoted(sentence: string): readonly Markup[] {
  return sentence.split(/`([^`]*)`/u).map((piece, i) => (i % 2 === 0 ? html`${piece}` : html`<code>${piece}</code>`));
}

/** The text the problem speaks of, with the place marked. */
function pointed({ text, span, line }: Problem): Markup {
  if (text === undefined || span === undefined || text === '') {
    return line === undefined ? html`` : html`<p class="where">Line ${line} of the file.</p>`;
  }
  const [start, end] = [Math.max(0, span.start), Math.min(text.length, Math.max(span.end, span.start + 1))];
  // A place at the very end of the text has no character to mark.
  const marked = start < text.length ? text.slice(start, end) : '\u00a0';
  return html`<p class="where"><code>${withSignsShown(text.slice(0, start))}<mark>${withSignsShown(marked)}</mark>${withSignsShown(text.slice(end))}</code></p>`;
}

/** What stands beside a result: its uncertainty and its interval. */
export function uncertaintyLines(result: PresentedResult): readonly Markup[] {
  if (result.kind !== 'value') return [];
  const { uncertainty, spreadFactor, interval, unit } = result;
  const lines: Markup[] = [];
  const behind = unit === '' ? '' : `\u00a0${unit}`;
  if (spreadFactor !== undefined) lines.push(html`<p class="uncertainty">×/÷ ${spreadFactor}</p>`);
  else if (uncertainty !== undefined) lines.push(html`<p class="uncertainty">± ${uncertainty}${behind}</p>`);
  if (interval !== undefined) {
    const freedom = interval.degreesOfFreedom === undefined ? '' : `, ν = ${interval.degreesOfFreedom}`;
    lines.push(html`<p class="interval">95 %: ${interval.low} … ${interval.high} <span class="coverage">(k = ${interval.factor}${freedom})</span></p>`);
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
