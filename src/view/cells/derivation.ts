import { nothing, type TemplateResult } from 'lit-html';
import { isolated } from '../../core/problem/index.ts';
import { isSymbolHidden, equationNumber, presentSymbol, symbolOf, withheldWords } from '../../report/index.ts';
import type { StepCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { setEquation } from '../equations.ts';
import { resultText, type Part } from '../parts.ts';
import { html } from '../template.ts';

/** Deeper than any sheet by hand; a loop never gets here, since its symbols have no values. */
const DEEPEST = 40;

/** The symbols a step reads, each a way to the line that it comes from. */
export function readsList(cell: StepCell, desk: Desk): Part {
  const reads = desk.context().states.cell(cell.id)?.reads ?? [];
  if (reads.length === 0) return nothing;
  return html`<span class="reads"><span class="reads-words">reads</span> ${reads.map((symbol) => symbolLink(symbol, cell.id, desk))}</span>`;
}

/** A symbol that takes the reader to the line that defines it. */
function symbolLink(symbol: string, fromBlockId: string, desk: Desk): TemplateResult {
  const to = desk.context().states.definedBy(symbol);
  const tex = html`<span ${setEquation(symbolOf(symbol))}></span>`;
  if (to === undefined) return tex;
  const words = wordsOf(to, desk);
  return html`<button type="button" class="symbol-link" title=${words} @click=${() => desk.go(to, fromBlockId)}>${tex}<span class="visually-hidden"> ${words}: go there</span></button>`;
}

/** The way from a result back to what was measured, as a nested list; what was told once is not told again. */
export function derivation(cell: StepCell, desk: Desk): TemplateResult {
  const told = new Set<string>([cell.symbol]);
  const branch = (symbols: readonly string[], depth: number): Part => (symbols.length === 0 || depth > DEEPEST
    ? nothing
    : html`<ul>${symbols.map((symbol) => twig(symbol, depth))}</ul>`);
  const twig = (symbol: string, depth: number): TemplateResult => {
    const { states } = desk.context();
    const blockId = states.definedBy(symbol);
    const reads = blockId === undefined ? [] : (states.cell(blockId)?.reads ?? []);
    const again = told.has(symbol);
    told.add(symbol);
    return html`<li>${symbolLink(symbol, cell.id, desk)} ${valueOf(symbol, desk)} <span class="words">${blockId === undefined ? 'not on this sheet' : wordsOf(blockId, desk)}</span>${
      again && reads.length > 0 ? html` <span class="again">as above</span>` : branch(reads, depth + 1)}</li>`;
  };
  return html`<div class="derivation"><p class="heading">Back to the inputs</p>${branch(desk.context().states.cell(cell.id)?.reads ?? [], 0)}</div>`;
}

function valueOf(symbol: string, desk: Desk): Part {
  const context = desk.context();
  if (isSymbolHidden(symbol, context)) return html`<span class="withheld">${withheldWords(context.states.definedBy(symbol) ?? '', context)}</span>`;
  const result = presentSymbol(symbol, context);
  if (result === undefined || result.kind === 'problem') return html`<span class="missing-value">no value</span>`;
  return html`= ${result.kind === 'value' ? resultText(result) : result.text}`;
}

/** `(7) Left reaction` or the label alone. */
export function wordsOf(blockId: string, desk: Desk): string {
  const block = desk.block(blockId);
  const number = equationNumber(blockId, desk.context());
  return [number === '' ? '' : `(${number})`, isolated((block?.kind === 'cell' ? block.cell.label : undefined) ?? blockId)].join(' ').trim();
}
