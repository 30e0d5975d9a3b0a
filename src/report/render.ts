import { asidesIn, asKind, cellIn, cellsOf } from '../sheet/index.ts';
import type { Block } from '../sheet/types.ts';
import type { SampledSteps } from './samples-parts.ts';
import { formOf } from './forms.ts';
import { heldSection } from './held-parts.ts';
import { headParts } from './head.ts';
import { html, htmlText, trusted, type Insertion, type Markup } from './markup.ts';
import { cellMarkup, INTERVAL_HOLDS } from './parts.ts';
import { plainEquations } from './plain-equations.ts';
import { notesOf } from './present/notes.ts';
import { headingNumbers } from './present/numbering.ts';
import { presentTitleBlock } from './present/title-block.ts';
import type { PresentContext, PresentedNotes } from './present/types.ts';
import { ownTextBelow } from './own-text.ts';
import { renderProse } from './prose.ts';
import { touchedLine } from './slip-parts.ts';

/**
 * The whole sheet as the body of a page without scripts, in document order, as `<article class="sheet">`.
 * @param sampled samples to be shown below their results
 */
export function renderSheet(context: PresentContext, sampled: SampledSteps = new Map()): string {
  return htmlText(sheetMarkup(context, context.document.blocks.map((block) => blockMarkup(block, context, sampled))));
}

/**
 * The same for a page that its script brings to life: equations as MathML alone, by whose TeX the script finds them again, and parts on demand for whoever has no
 * scripts. The others would see them closed a moment later; to read, lay out and throw away what is in them takes longer than all the rest.
 */
export function renderToLive(context: PresentContext, sampled: SampledSteps = new Map()): string {
  const { of } = asidesIn(context.document);
  const stretches: Block[][] = [];
  let within: string | undefined;
  for (const block of context.document.blocks) {
    const aside = of.get(block.id);
    if (stretches.length === 0 || aside !== within) stretches.push([]);
    stretches.at(-1)?.push(block);
    within = aside;
  }
  const body = stretches.map((blocks): Insertion => {
    const shown = blocks.map((block) => blockMarkup(block, context, sampled));
    return of.has(blocks[0]?.id ?? '') ? html`<noscript>${trusted(plainEquations(htmlText(html`${shown}`)))}</noscript>` : shown;
  });
  return plainEquations(htmlText(sheetMarkup(context, body)), 'named');
}

function sheetMarkup(context: PresentContext, body: Insertion): Markup {
  const { bands, origins, problems, attention } = headParts(context);
  return html`<article class="sheet">
${titleBlock(context)}
${bands}
${origins}
${problems}
${attention}
${body}
${legend(context)}
${heldSection(context)}
</article>
`;
}

/** On paper nothing explains itself when it is pointed at. */
function legend({ document }: PresentContext): Insertion {
  return cellsOf(document, 'step').length > 0 && html`<p class="legend">± and u: one standard uncertainty; ×/÷ the same as a factor. 95 %: ${INTERVAL_HOLDS.charAt(0).toLowerCase()}${INTERVAL_HOLDS.slice(1)}</p>`;
}

function blockMarkup(block: Block, context: PresentContext, sampled: SampledSteps): Markup {
  if (block.kind === 'cell') {
    const { id, cell } = block;
    // What nobody has written is no part of a report; the head lists it.
    if (asKind(cell, 'remark')?.text.trim() === '' && !hasNotes(notesOf(cell, context))) return html``;
    const form = formOf(cell);
    const template = form.template(cell, context, { block, sampled: sampled.get(id) });
    // An end has nothing to show unless something is wrong with it.
    if (cellIn(block, 'end') !== undefined && template.notes.problems.length === 0) return html`${ownTextBelow(block, context)}`;
    return html`${form.marksSlips !== true && touchedLine(id, context)}${cellMarkup(id, cell.kind, template)}${ownTextBelow(block, context)}`;
  }
  const numbers = headingNumbers(block.id, context);
  const prose = renderProse(block.source, context, { numbers });
  return html`${prose !== '' && trusted(prose, 'prose')}
`;
}

/** Whether something is said of a cell beside what stands in it. */
function hasNotes({ problems, warnings }: Pick<PresentedNotes, 'problems' | 'warnings'>): boolean {
  return problems.length + warnings.length > 0;
}

/** Title and the form's fields. */
export function titleBlock(context: PresentContext): Markup {
  const { title, fields } = presentTitleBlock(context.document);
  return html`<header class="title-block"><h1>${title}</h1>
${fields.length > 0 && html`<dl>${fields.map(({ label, value, isInvented }) => html`<div><dt>${label}${isInvented && html` <span class="origin">invented</span>`}</dt><dd>${value === '' ? '\u00a0' : value}</dd></div>`)}</dl>`}
</header>`;
}
