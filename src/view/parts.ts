import { nothing, svg, type TemplateResult } from 'lit-html';
import type { Problem } from '../core/problem/index.ts';
import {
  note as noteSaid, partId, problemLine as problemSaid, problemList as problemsSaid, quantity, raised as raisedText, uncertaintyLines as linesBeside, verdictMark as markOf, wholeLine,
  type CellTemplate, type Hand, type Insertion, type PresentedResult,
} from '../report/index.ts';
import type { Moved } from './moved.ts';
import { html, shown } from './template.ts';

export { partId };

export type Part = TemplateResult | typeof nothing;

/** What only the page has, in its place in a template; nothing where there is none. */
export function hand(part: Part): Hand {
  return { hand: part };
}

/** What the report layer says, as a part of a line of the page. */
export function part(said: Insertion): Part {
  const isNone = said === undefined || said === false || (Array.isArray(said) && said.length === 0);
  return isNone ? nothing : html`${shown(said)}`;
}


/** The parts of a line on the page. */
export interface LineParts {
  readonly number?: string;
  readonly line: Part;
  readonly margin: Part;
  readonly state?: string;
}

/** A cell of the page that looks as the report layer says. @param refused what the sheet could not take of what was typed there */
export function templateParts(id: string, template: CellTemplate, refused: Problem | undefined): LineParts {
  const { state, number, notes, margin } = template;
  const problems = { hand: problemList(notes, partId(id, 'problem'), refused) };
  return { ...(state === undefined ? {} : { state }), ...(number === undefined ? {} : { number }), line: part(wholeLine(template, problems)), margin: part(margin) };
}

/** Problems of a cell under its line, then what is used all the same. */
export function problemList({ problems, warnings }: CellTemplate['notes'], id?: string, refused?: Problem): Part {
  const said = refused === undefined ? problems : [refused, ...problems];
  if (said.length === 0 && warnings.length === 0) return nothing;
  return html`<div id=${id ?? nothing}>${shown(problemsSaid({ problems: said, warnings }))}</div>`;
}

export function problemLine(problem: Problem, classes = 'problem'): Part {
  return part(problemSaid(problem, classes));
}

export function note(text: string | undefined, classes = 'note'): Part {
  return part(noteSaid(text, classes));
}

/** A number with its powers raised. */
export function raised(text: string): unknown {
  return shown(raisedText(text));
}

/** Number and unit of a result in the sheet's roman face. */
export function resultText(result: PresentedResult & { readonly kind: 'value' }): Part {
  return part(quantity(result));
}

/** What stands beside a result: its uncertainty and its interval. */
export function uncertaintyLines(result: PresentedResult): Part {
  return part(linesBeside(result));
}

/** A wedge up or down with the relative change, until the next edit. */
export function movedMark(moved: Moved | undefined): Part {
  if (moved === undefined) return nothing;
  const wedge = { up: 'M1 9 6 1l5 8z', down: 'M1 2h10L6 10z', other: 'M2 4.5h8v2H2z' }[moved.direction];
  return html`<p class="moved ${moved.direction}"><svg class="wedge" viewBox="0 0 12 11" aria-hidden="true">${svg`<path d=${wedge}></path>`}</svg><span class="visually-hidden">${moved.direction === 'other' ? '' : `moved ${moved.direction} `}</span>${moved.text}</p>`;
}

/** A drawn tick or flag; the sentence beside it says the same in words. */
export function verdictMark(holds: boolean): Part {
  return part(markOf(holds));
}
