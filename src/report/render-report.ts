import { asidesIn } from '../sheet/index.ts';
import type { Block } from '../sheet/types.ts';
import type { SampledSteps } from './samples-parts.ts';
import { formOf } from './forms.ts';
import { heldSection } from './held-parts.ts';
import { headParts } from './head.ts';
import { html, htmlText, math, trusted, type Insertion, type Markup } from './markup.ts';
import { cellMarkup, INTERVAL_HOLDS, quantity } from './parts.ts';
import { asked, sameWords } from './present/asked.ts';
import { chiefResults } from './present/chief-results.ts';
import { calledIn } from './present/lookup.ts';
import { headingNumbers } from './present/numbering.ts';
import { isSymbolHidden } from './present/hidden.ts';
import { presentOrigins } from './present/origins.ts';
import { presentSymbol } from './present/result.ts';
import { ownTextBelow } from './own-text.ts';
import { symbolOf } from './present/symbol.ts';
import type { PresentContext, WholeContext } from './present/types.ts';
import { cutAtHeadings, headingsOf, renderProse } from './prose.ts';
import { titleBlock } from './render.ts';
import { intervalText, listed, noteLine, OPEN_SECTIONS, spreadBehind, type OpenItem, type ReportPart } from './report-part.ts';
import { touchedLine } from './slip-parts.ts';

/**
 * The report: what somebody who marks or reads it wants first, and the rest behind it. Title, aim and chief results; then the sheet's sections with their
 * numbers, measured values in one table, a line for each step and check; what is left open; appendices for parts on demand, budgets, samples, held states and the
 * words of the sheet about its lines. Every symbol, figure and check of the sheet is in it.
 * @param sampled samples to be shown
 */
export function renderReport(context: PresentContext, sampled: SampledSteps = new Map()): string {
  const pieces = piecesOf(context, sampled);
  const main = pieces.filter(({ aside, isQuiet }) => aside === undefined && !isQuiet);
  const firstSection = main.findIndex(({ section }) => section > 0);
  const begin = main.slice(0, firstSection < 0 ? main.length : firstSection);
  const { bands, problems, attention } = headParts(context);
  return htmlText(html`<article class="sheet report">
${titleBlock(context)}
${bands}
${problems}
${bodyOf(begin, pieces)}
${glance(context, pieces, attention)}
${firstSection < 0 ? undefined : bodyOf(main.slice(firstSection), pieces)}
${leftOpen(pieces)}
<p class="signed"><span>Signed</span><span>Marked</span></p>
${appendices(context, pieces)}
</article>
`);
}

interface Piece extends ReportPart {
  readonly block: Block;
  /** Of prose, which is told heading by heading. */
  readonly source?: string;
  /** Counted over the headings of sections; 0 before the first. */
  readonly section: number;
  /** Words of that heading. */
  readonly heading: string;
  /** The part on demand that it belongs to. */
  readonly aside: string | undefined;
  /** Nothing but headings, which need something below them. */
  readonly isHeading: boolean;
  /** Prose of a section of which nothing else is reported: what was to be done there is told with the notes. */
  readonly isQuiet: boolean;
}

function piecesOf(context: PresentContext, sampled: SampledSteps): readonly Piece[] {
  const pieces = eachPiece(context, sampled);
  const sections = new Map<number, { hasCells: boolean; saysSomething: boolean }>();
  for (const { block, source, section, here, row, budget } of pieces) {
    const known = sections.get(section) ?? { hasCells: false, saysSomething: false };
    const isCell = block.kind === 'cell';
    const says = isCell ? [here, row, budget].some((part) => part !== undefined && part !== false) : tellsValues(source ?? '', context);
    sections.set(section, { hasCells: known.hasCells || isCell, saysSomething: known.saysSomething || says });
  }
  const isSilent = (section: number): boolean => section > 0 && sections.get(section)?.hasCells === true && sections.get(section)?.saysSomething === false;
  return pieces.map((piece) => (piece.block.kind === 'prose' && isSilent(piece.section)
    ? { ...piece, isQuiet: true, notes: { name: piece.heading, texts: [proseNote(piece.source ?? '', context)] }, ...(beginsSection(piece.source ?? '') ? { open: { under: OPEN_SECTIONS, name: piece.heading } } : {}) } : piece));
}

const hasLive = (source: string, kind: string): boolean => source.includes(`class="live ${kind}"`);

/** Whether prose puts values in, and has all of them. */
function tellsValues(source: string, context: PresentContext): boolean {
  if (!source.includes('{=')) return false;
  const prose = renderProse(source, context);
  return hasLive(prose, 'value') && !hasLive(prose, 'missing');
}

function beginsSection(source: string): boolean {
  return headingsOf(source).some(({ level }) => level === 2);
}

function proseNote(source: string, context: PresentContext): Insertion {
  const prose = renderProse(withoutHeadings(source), context, { numbers: [] });
  return prose !== '' && !hasLive(prose, 'missing') && trusted(prose, 'prose');
}

function withoutHeadings(source: string): string {
  return source.replace(/^#{1,6} .*$/gmu, '');
}

/** Each block by itself. */
function eachPiece(context: PresentContext, sampled: SampledSteps): readonly Piece[] {
  const { document } = context;
  const asides = asidesIn(document);
  let [section, heading] = [0, ''];
  return document.blocks.flatMap((block): readonly Piece[] => {
    const place = { block, aside: asides.holds.has(block.id) ? block.id : asides.of.get(block.id) };
    if (block.kind === 'cell') {
      const { id, cell } = block;
      const form = formOf(cell);
      const where = { block, sampled: sampled.get(id) };
      const part = form.report?.(cell, context, where) ?? { here: cellMarkup(id, cell.kind, form.template(cell, context, where)) };
      const isMarked = form.marksSlips !== true && part.here !== undefined;
      const here = isMarked ? [touchedLine(id, context), part.here] : part.here;
      const text = ownTextBelow(block, context);
      return [{ ...part, ...place, section, heading, isHeading: false, isQuiet: false, here: text === undefined ? here : [here, text] }];
    }
    let numbers = headingNumbers(block.id, context);
    return cutAtHeadings(block.source).flatMap((source) => {
      const headings = headingsOf(source);
      for (const { level, words } of headings) if (level === 2) [section, heading] = [section + 1, words];
      const prose = renderProse(source, context, { numbers });
      numbers = numbers.slice(headings.length);
      const isHeading = headings.length > 0 && renderProse(withoutHeadings(source), context, { numbers: [] }) === '';
      return prose === '' ? [] : [{ ...place, source, section, heading, isHeading, isQuiet: false, here: trusted(prose, 'prose') }];
    });
  });
}

/** Pieces in their places. A heading below which nothing is said is left out; the table of values stands where most of them were read. */
function bodyOf(pieces: readonly Piece[], all: readonly Piece[]): Insertion {
  const tableAt = placeOfValues(all);
  return pieces.map((piece, i) => {
    if (piece.isHeading && !hasSomething(pieces.slice(i + 1), tableAt)) return undefined;
    return piece.block === tableAt ? [valuesTable(all), piece.here] : piece.here;
  });
}

/** Whether anything stands between a heading and the next one. */
function hasSomething(following: readonly Piece[], tableAt: Block | undefined): boolean {
  for (const { block, here, isHeading } of following) {
    if (isHeading) return false;
    if (block.kind !== 'cell' || here !== undefined || block === tableAt) return true;
  }
  return false;
}

/** The first given of the section that has most of them. */
function placeOfValues(pieces: readonly Piece[]): Block | undefined {
  const rows = pieces.filter(({ row, aside }) => row !== undefined && aside === undefined);
  const count = (section: number): number => rows.filter((piece) => piece.section === section).length;
  const fullest = rows.reduce((best, { section }) => (count(section) > count(best) ? section : best), rows[0]?.section ?? 0);
  return (rows.find(({ section }) => section === fullest) ?? pieces.find(({ row }) => row !== undefined))?.block;
}

/** More rows than these are told apart by their sections. */
const FEW_ROWS = 8;

/** All givens of the sheet, those of parts on demand too. */
function valuesTable(pieces: readonly Piece[]): Markup {
  const rows = pieces.filter(({ row }) => row !== undefined);
  const isGrouped = rows.length > FEW_ROWS && new Set(rows.map(({ heading }) => heading)).size > 1;
  return html`<div class="values" tabindex="0" role="group" aria-label="Measured and given values"><table><caption>Measured and given values. ± and u: one standard uncertainty</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">What it is</th><th scope="col">Readings, as written</th><th scope="col" class="figures">Value ± u</th><th scope="col">Instrument or source</th></tr></thead>
<tbody>${rows.map(({ row, heading }, i) => html`${isGrouped && heading !== rows[i - 1]?.heading && html`<tr class="group"><th colspan="5" scope="colgroup">${heading === '' ? 'At the beginning' : heading}</th></tr>
`}${row}`)}</tbody></table></div>
`;
}

const MOST_CHIEF = 8;

/** What came out, in one look, and what is not in order. */
function glance(context: PresentContext, pieces: readonly Piece[], attention: Insertion): Insertion {
  const symbols = asked(context, chiefIn, undefined, sameWords).filter((symbol) => !isSymbolHidden(symbol, context));
  const checks = pieces.filter(({ holds }) => holds !== undefined);
  const failing = checks.filter(({ holds }) => holds === false).length;
  const verdict = verdictOf(checks.length, failing);
  const origins = presentOrigins(context.document);
  const whose = [origins.sentence, origins.warning].filter((part) => part !== '').join(' ');
  if (symbols.length === 0 && attention === undefined && verdict === undefined) return undefined;
  return html`<section class="glance"><h2>Chief results</h2>
${symbols.length > 0 && html`<table><thead><tr><td></td><th scope="col">Value ± u</th><th scope="col">95 % interval</th></tr></thead><tbody>${symbols.map((symbol) => chiefRow(symbol, context))}</tbody></table>`}
${verdict !== undefined && html`<p>${verdict}</p>`}${whose !== '' && html`<p>${whose}</p>`}${attention}
</section>
`;
}

function verdictOf(told: number, failing: number): string | undefined {
  if (told === 0) return undefined;
  if (told === 1) return failing === 0 ? 'The one check that can be told holds.' : 'The one check that can be told does not hold.';
  const holding = told - failing;
  if (failing === 0) return `${told === 2 ? 'Both' : `All ${told}`} checks that can be told hold.`;
  return `${holding === 0 ? 'None' : holding} of ${told} checks that can be told ${holding > 1 ? 'hold' : 'holds'}.`;
}

const chiefIn = ({ document, states }: WholeContext) => chiefResults(document, states, MOST_CHIEF);

function chiefRow(symbol: string, context: PresentContext): Markup {
  const result = presentSymbol(symbol, context);
  const value = result === undefined || result.kind === 'problem' ? 'no value yet' : result.kind === 'range' ? result.text : html`${quantity(result)}${spreadBehind(result)}`;
  return html`<tr><th scope="row">${math(symbolOf(symbol))} <span class="words">${calledIn(context, symbol)}</span></th><td>${value}</td><td>${result && intervalText(result)}</td></tr>
`;
}

/** What is not there yet, under a few headings. */
function leftOpen(pieces: readonly Piece[]): Insertion {
  const groups = new Map<string, OpenItem[]>();
  for (const { open } of pieces) {
    if (open === undefined) continue;
    const group = groups.get(open.under);
    if (group === undefined) groups.set(open.under, [open]);
    else group.push(open);
  }
  return groups.size > 0 && html`<section class="left-open"><h2>Left open</h2>
<dl>${[...groups].map(([under, items]) => html`<div><dt>${under}</dt><dd>${openNames(items)}</dd></div>
`)}</dl></section>
`;
}

/** Of more than these nobody reads the words: symbols say which, a count how many. */
const FEW_OPEN = 8;

function openNames(items: readonly OpenItem[]): Insertion {
  if (items.length <= FEW_OPEN) return listed(items.map(({ name }) => name));
  const shorts = items.flatMap(({ short }) => (short === undefined ? [] : [short]));
  return shorts.length < items.length ? String(items.length) : shorts.map((short, i) => html`${i > 0 && ', '}${short}`);
}

/** In the order in which they are asked for; each begins with its letter, and none that is empty. */
function appendices(context: PresentContext, pieces: readonly Piece[]): Insertion {
  const notes = pieces.flatMap((piece) => (piece.notes === undefined ? [] : noteLine(piece.notes))).filter((line) => line !== false);
  const budgets = pieces.flatMap(({ budget }) => (budget === undefined ? [] : [budget]));
  const samples = pieces.flatMap((piece) => (piece.samples === undefined ? [] : [piece.samples]));
  const asides = pieces.filter(({ aside, here }) => aside !== undefined && here !== undefined);
  const held = heldSection(context);
  const parts: readonly (readonly [title: string, classes: string, content: Insertion])[] = [
    ['Parts on demand', 'on-demand', asides.length > 0 && bodyOf(asides, [])],
    ['Uncertainty budgets', 'budgets', budgets.length > 0 && budgets],
    ['Draws', 'drawn-results', samples.length > 0 && samples],
    ['', 'held-states', held.strings.length > 1 && held],
    ['Notes and sources', 'notes', notes.length > 0 && html`<p class="legend">What the sheet says about its lines. 95 %: ${INTERVAL_HOLDS.charAt(0).toLowerCase()}${INTERVAL_HOLDS.slice(1)}</p><div class="noted-lines">${notes}</div>`],
  ];
  return parts.filter(([, , content]) => content !== false).map(([title, classes, content], i) => html`<section class="appendix ${classes}">${title !== '' && html`<h2><span class="number">${String.fromCharCode(65 + i)}</span> ${title}</h2>`}
${content}</section>
`);
}
