import { nothing, type TemplateResult } from 'lit-html';
import { composed } from '../core/problem/index.ts';
import { formOf as reportFormOf, isTouchedBySlips, ownTextBelow } from '../report/index.ts';
import type { Block } from '../sheet/index.ts';
import { touchedMargin } from './cells/slip.ts';
import { wordsOf } from './cells/derivation.ts';
import type { Desk } from './desk.ts';
import { lightLines, lightState } from './lighting.ts';
import { formOf } from './forms.ts';
import { panels } from './panels-at-hand.ts';
import type { LineParts } from './parts.ts';
import { proseParts, sectionFolder } from './prose-block.ts';
import { undoOffer } from './steps.ts';
import { html, shown } from './template.ts';

/** A block as the page shows it: its state classes, and number, line and margin. */
export function drawBlock(block: Block, desk: Desk): { readonly state: string; readonly template: TemplateResult } {
  const parts = partsOf(block, desk);
  const ui = desk.ui(block.id);
  const folder = block.kind === 'prose' ? sectionFolder(block, desk) : undefined;
  const template = html`<div class="number">${folder ?? nothing}${parts.number === undefined || parts.number === '' ? nothing : html`<span class="equation-number">(${parts.number})</span>`}</div>
    <div class="line">${parts.line}${ui.editing === undefined ? shown(ownTextBelow(block, desk.context())) : panels.use().sourceEditor(block, desk)}${ui.renaming === undefined || block.kind !== 'cell' ? nothing : panels.use().renameForm(block, ui.renaming, desk)}${undoOffer(block.id, desk)}</div>
    <div class="margin">${menuButton(block, desk)}${ui.cameFrom === undefined ? nothing : backLink(block.id, ui.cameFrom, desk)}${touchedMargin(isMarkedWhole(block, desk))}${lightLines(block.id, desk)}${parts.margin}</div>`;
  const folded = folder !== undefined && !desk.folds.isOpen(block.id) ? 'folded-section' : '';
  return { state: `${parts.state ?? ''} ${folded} ${lightState(block.id, desk)}`.trim(), template };
}

/** Where a line has no number of its own that could be marked. */
function isMarkedWhole(block: Block, desk: Desk): boolean {
  return block.kind === 'cell' && reportFormOf(block.cell).marksSlips !== true && isTouchedBySlips(block.id, desk.context());
}

function partsOf(block: Block, desk: Desk): LineParts {
  return block.kind === 'prose' ? { line: proseParts(block, desk), margin: nothing } : formOf(block.cell).parts(block.cell, desk, block);
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
