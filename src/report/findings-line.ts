import type { FitCell } from '../sheet/types.ts';
import { publishedShifts } from './held-parts.ts';
import { html, math, type Markup } from './markup.ts';
import { cellLine, label, note, problemList } from './parts.ts';
import { presentFindings } from './present/findings.ts';
import { liveText } from './present/live.ts';
import type { PresentContext, PresentedFit, PresentedHead, PresentedSmallTable } from './present/types.ts';

/** What a fit says that finds no line: a sentence, small tables, further sentences, facts. */
export function findingsLine(cell: FitCell, context: PresentContext): Markup {
  const found = presentFindings(cell, context);
  const [first, ...others] = found.sentences;
  return cellLine({
    id: cell.id,
    kind: 'fit',
    line: html`${label(found.label)}
${found.advice !== undefined && html`<p class="advice">${found.advice}</p>`}
${first !== undefined && html`<p class="method">${first}</p>`}
${found.tables.map(smallTable)}
${others.map((sentence) => html`<p class="says">${sentence}</p>`)}
${factList(found.facts)}
${problemList(found)}`,
    margin: [
      ...publishedShifts(cell.id, context),
      ...found.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      note(found.note === undefined ? undefined : liveText(found.note, context)),
    ],
  });
}

/** A small table of results with its caption above and its note below. */
export function smallTable({ caption, heads, rows, note: below }: PresentedSmallTable): Markup {
  return html`<div class="ruled" tabindex="0" role="group" aria-label="${caption}"><table><caption>${caption}</caption>
<thead><tr>${heads.map((head, i) => html`<th scope="col"${i > 0 && html` class="figures"`}>${headMarkup(head)}</th>`)}</tr></thead>
<tbody>${rows.map(({ head, cells }) => html`<tr><th scope="row">${headMarkup(head)}</th>${cells.map((text) => html`<td class="figures">${text}</td>`)}</tr>
`)}</tbody>
</table></div>
${below !== undefined && html`<p class="limits">${below}</p>`}`;
}

/** A symbol is said by its name: a heading that is nothing but an equation counts as empty. */
function headMarkup(head: PresentedHead): Markup {
  return 'tex' in head ? html`<span class="visually-hidden">${head.tex}</span><span aria-hidden="true">${math(head.tex)}</span>` : html`${head.text}`;
}

/** Pairs of words; nothing where there are none. */
export function factList(facts: PresentedFit['facts']): Markup {
  return html`${facts.length > 0 && html`<dl class="facts">${facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}</dl>`}`;
}
