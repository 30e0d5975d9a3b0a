import type { Block } from '../sheet/types.ts';
import type { DrawnSteps } from './draws-parts.ts';
import { formOf } from './forms.ts';
import { heldSection, referenceBand } from './held-parts.ts';
import { html, htmlText, trusted, type Markup } from './markup.ts';
import { cellAnchor, cellMarkup, problemLine } from './parts.ts';
import { presentAttention } from './present/attention.ts';
import { headingNumbers } from './present/numbering.ts';
import { slipListProblems } from './present/slips.ts';
import { presentTitleBlock } from './present/title-block.ts';
import type { PresentContext } from './present/types.ts';
import { renderProse } from './prose.ts';
import { slipBand, touchedLine } from './slip-parts.ts';
import { trialBand } from './trial-parts.ts';

/**
 * The whole sheet as the body of a page without scripts, in document order, as `<article class="sheet">`.
 * @param drawn draws to be shown below their results
 */
export function renderReport(context: PresentContext, drawn: DrawnSteps = new Map()): string {
  const { document } = context;
  const problems = [...document.problems, ...document.frontMatter.problems, ...slipListProblems(document)];
  return htmlText(html`<article class="sheet">
${titleBlock(context)}
${trialBand(context)}
${slipBand(context)}
${referenceBand(context)}
${problems.length > 0 && html`<div class="sheet-problems">${problems.map((problem) => problemLine(problem, 'problem'))}</div>`}
${attention(context)}
${document.blocks.map((block) => blockMarkup(block, context, drawn))}
${heldSection(context)}
</article>
`);
}

function blockMarkup(block: Block, context: PresentContext, drawn: DrawnSteps): Markup {
  if (block.kind === 'cell') {
    const { id, cell } = block;
    const form = formOf(cell);
    const template = form.template(cell, context, { block, drawn: drawn.get(id) });
    return html`${form.marksSlips !== true && touchedLine(id, context)}${cellMarkup(id, cell.kind, template)}`;
  }
  const numbers = headingNumbers(block.id, context);
  const prose = renderProse(block.source, context, { numbers });
  return html`${prose !== '' && trusted(prose, 'prose')}
`;
}

function titleBlock(context: PresentContext): Markup {
  const { title, fields } = presentTitleBlock(context.document);
  return html`<header class="title-block"><h1>${title}</h1>
${fields.length > 0 && html`<dl>${fields.map(({ label, value }) => html`<div><dt>${label}</dt><dd>${value === '' ? '\u00a0' : value}</dd></div>`)}</dl>`}
</header>`;
}

/** What is still open, not in order or does not hold, before everything else. */
function attention(context: PresentContext): Markup | undefined {
  const { openItems, items, problems, failedChecks } = presentAttention(context);
  const lines = [
    openItems > 0 && html`<li>${openItems} of ${items} checklist items are open.</li>`,
    failedChecks.length > 0 && placeLine('Does not hold:', failedChecks),
    problems.length > 0 && placeLine('To be mended:', problems),
  ].filter((line) => line !== false);
  return lines.length === 0 ? undefined : html`<ul class="attention">${lines}</ul>`;
}

function placeLine(words: string, places: readonly { readonly cellId: string; readonly label: string }[]): Markup {
  const links = places.map(({ cellId, label }, i) => html`${i === 0 ? ' ' : '; '}<a href="#${cellAnchor(cellId)}">${label}</a>`);
  return html`<li>${words}${links}</li>`;
}
