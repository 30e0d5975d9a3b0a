import { html, math, type Insertion, type Markup } from './markup.ts';
import { problemList, raised } from './parts.ts';
import type { PresentedNotes, PresentedResult } from './present/types.ts';

/** What a report says of one cell, and where it says it. */
export interface ReportPart {
  /** In its place. */
  readonly here?: Insertion;
  /** Its line in the table of values. */
  readonly row?: Markup;
  readonly budget?: Insertion;
  readonly samples?: Insertion;
  /** What is still open about it. */
  readonly open?: OpenItem;
  /** Words of the sheet about it, told at the end. */
  readonly notes?: { readonly name: Insertion; readonly texts: readonly Insertion[] };
  /** Whether a check that can be told holds. */
  readonly holds?: boolean;
}

/** Something that is not there yet: under which heading it is listed, and its name. */
export interface OpenItem {
  readonly under: string;
  readonly name: Insertion;
  /** In place of the name where there are many of them. */
  readonly short?: Insertion;
}

export const OPEN_BLANKS = 'Blanks without an entry';
export const OPEN_RESULTS = 'Results that wait for a value';
export const OPEN_CHECKS = 'Checks that cannot be told yet';
export const OPEN_WORDS = 'Not written';
export const OPEN_SECTIONS = 'Sections without an entry';
export const OPEN_QUESTIONS = 'Questions without an answer';
export const OPEN_CHOICES = 'Not chosen';
export const OPEN_ITEMS = 'Not ticked';
export const OPEN_PARTS = 'Nothing there yet';

interface EntryParts {
  readonly number?: string;
  readonly notes?: Pick<PresentedNotes, 'problems' | 'warnings'>;
  readonly below?: Insertion;
  /** Wider than a telephone at some place: it scrolls there by itself, for the keyboard too. */
  readonly isWide?: boolean;
}

/** One line of the report with its number, and below it what is wrong. */
export function entry(anchor: string, kind: string, line: Insertion, { number, notes, below, isWide = false }: EntryParts = {}): Markup {
  return html`<div class="entry ${kind}" id="${anchor}"><p class="run" tabindex="${isWide && '0'}">${number !== undefined && html`<span class="number">(${number})</span>`}${line}</p>${below}${notes && problemList(notes)}</div>
`;
}

/** `± 3.5 MPa`, or `×/÷ 2.1`, behind a result; nothing where there is no uncertainty. */
export function spreadBehind(result: PresentedResult): Insertion {
  if (result.kind !== 'value') return undefined;
  const { uncertainty, spreadFactor, unit } = result;
  if (spreadFactor !== undefined) return html` <span class="spread">×/÷ ${raised(spreadFactor)}</span>`;
  return uncertainty !== undefined && html` <span class="spread">± ${raised(uncertainty)}${unit !== '' && raised(`\u2009${unit}`)}</span>`;
}

/** `364.8 … 378.7 MPa`; nothing where there is no interval. */
export function intervalText(result: PresentedResult): Insertion {
  if (result.kind !== 'value' || result.interval === undefined) return undefined;
  const { low, high } = result.interval;
  return html`${raised(low)} … ${raised(high)}${result.unit !== '' && raised(`\u2009${result.unit}`)}`;
}

/** Names one behind the other; a question ends itself. */
export function listed(names: readonly Insertion[]): Insertion {
  return names.map((name, i) => html`${i > 0 && (endsItself(names[i - 1]) ? ' ' : '; ')}<span>${name}</span>`);
}

/** A symbol with its words behind it. */
export function named(symbolTex: string, words: string): Insertion {
  return html`${math(symbolTex)}${words !== '' && html`\u2002${words}`}`;
}

/** The words of the sheet about one cell, as they stand at the end. */
export function noteLine({ name, texts }: NonNullable<ReportPart['notes']>): Insertion {
  const said = texts.filter((text) => text !== undefined && text !== false && text !== '').map((text) => (typeof text === 'string' ? asSentence(text) : text));
  return said.length > 0 && html`<div class="noted"><span class="name">${name}${endsItself(name) ? '' : '.'}</span>${said.map((text) => html` ${text}`)}</div>
`;
}

/** A word at the beginning with a capital; a symbol stays as it is. */
function asSentence(text: string): string {
  return /^\p{Ll}{2,}(?=[\s,.])/u.test(text) ? text.charAt(0).toUpperCase() + text.slice(1) : text;
}

/** Whether the last of the words is a sign that ends a sentence. */
export function endsItself(name: Insertion): boolean {
  if (typeof name === 'string') return /[.?!]$/u.test(name);
  if (typeof name !== 'object') return false;
  if ('strings' in name) {
    const behind = name.strings.at(-1) ?? '';
    return behind === '' ? endsItself(name.insertions.at(-1)) : endsItself(behind);
  }
  return 'at' in name && endsItself(name.at(-1));
}
