import { nothing, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { isTouchedBySlips } from '../report/index.ts';
import type { Block } from '../sheet/index.ts';
import { checkOnPage } from './cells/check.ts';
import { checklistParts } from './cells/checklist.ts';
import { choiceParts } from './cells/choice.ts';
import { figureParts } from './cells/figure.ts';
import { findingsParts } from './cells/findings.ts';
import { fitParts } from './cells/fit.ts';
import { givenParts } from './cells/given.ts';
import { photoParts } from './cells/photo.ts';
import { recordParts } from './cells/record.ts';
import { touchedMargin } from './cells/slip.ts';
import { proseParts, remarkParts } from './cells/remark.ts';
import { stepParts } from './cells/step.ts';
import { tableParts } from './cells/table.ts';
import { unknownParts } from './cells/unknown.ts';
import { wordsOf } from './cells/derivation.ts';
import type { Desk } from './desk.ts';
import { lightLines, lightState } from './lighting.ts';
import type { Part } from './parts.ts';
import { sourceEditor } from './source-editor.ts';
import { undoOffer } from './steps.ts';
import { html } from './template.ts';

interface CellParts {
  readonly number?: string;
  readonly line: Part;
  readonly margin?: Part;
  /** Further classes: `holds`, `hidden`. */
  readonly state?: string;
}

/** A block as the page shows it: its state classes, and number, line and margin. */
export function drawBlock(block: Block, desk: Desk): { readonly state: string; readonly template: TemplateResult } {
  const parts = partsOf(block, desk);
  const ui = desk.ui(block.id);
  const template = html`<div class="number">${parts.number === undefined || parts.number === '' ? nothing : html`<span class="equation-number">(${parts.number})</span>`}</div>
    <div class="line">${parts.line}${ui.editing === undefined ? nothing : sourceEditor(block, desk)}${undoOffer(block.id, desk)}</div>
    <div class="margin">${menuButton(block, desk)}${ui.cameFrom === undefined ? nothing : backLink(block.id, ui.cameFrom, desk)}${touchedMargin(isMarkedWhole(block, desk))}${lightLines(block.id, desk)}${parts.margin ?? nothing}</div>`;
  return { state: `${parts.state ?? ''} ${lightState(block.id, desk)}`.trim(), template };
}

/** Givens and steps carry their own marks, and prose carries them at its numbers. */
function isMarkedWhole(block: Block, desk: Desk): boolean {
  return block.kind === 'cell' && block.cell.kind !== 'given' && block.cell.kind !== 'step' && isTouchedBySlips(block.id, desk.context());
}

function partsOf(block: Block, desk: Desk): CellParts {
  if (block.kind === 'prose') return { line: proseParts(block, desk) };
  const { cell } = block;
  switch (cell.kind) {
    case 'given': return givenParts(cell, desk);
    case 'choice': return choiceParts(cell, desk);
    case 'step': return stepParts(cell, desk);
    case 'check': return checkOnPage(cell, desk);
    case 'table': return tableParts(cell, desk);
    case 'fit': return cell.finds === 'line' ? fitParts(cell, desk) : findingsParts(cell, desk);
    case 'figure': return figureParts(cell, desk);
    case 'photo': return photoParts(cell, desk);
    case 'checklist': return checklistParts(cell, desk);
    case 'record': return recordParts(cell, desk);
    case 'remark': return remarkParts(cell, desk);
    case 'unknown': return { line: unknownParts(block, desk) };
  }
}

function menuButton(block: Block, desk: Desk): TemplateResult {
  const words = block.kind === 'prose' ? 'this text' : wordsOf(block.id, desk);
  return html`<button type="button" class="menu-button" aria-haspopup="menu" title="What can be done with this line (Ctrl or ⌘ and .)"
    aria-label=${composed`What can be done with ${words}`}
    @click=${(event: Event) => event.currentTarget instanceof Element && desk.openMenu(block.id, event.currentTarget)}>
    <svg viewBox="0 0 20 20" aria-hidden="true"><path d="M3 6h14M3 10h9M3 14h11"></path></svg></button>`;
}

function backLink(blockId: string, cameFrom: string, desk: Desk): TemplateResult {
  return html`<p class="came-from"><button type="button" class="quiet" @click=${() => desk.back(blockId)}>back to ${wordsOf(cameFrom, desk)}</button></p>`;
}
