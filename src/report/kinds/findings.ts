import type { FitCell } from '../../sheet/types.ts';
import { publishedShifts } from '../held-parts.ts';
import { html } from '../markup.ts';
import { label, note, raised, type CellTemplate } from '../parts.ts';
import { presentFindings } from '../present/findings.ts';
import type { PresentContext } from '../present/types.ts';
import { factList, smallTable } from '../small-table.ts';

/** What a fit says that finds no line: a sentence, small tables, further sentences, facts. */
export function findingsTemplate(cell: FitCell, context: PresentContext): CellTemplate {
  const found = presentFindings(cell, context);
  const [first, ...others] = found.sentences;
  return {
    notes: found,
    line: html`${label(found.label)}
${found.advice !== undefined && html`<p class="advice">${raised(found.advice)}</p>`}
${first !== undefined && html`<p class="method">${raised(first)}</p>`}
${found.tables.map((table) => smallTable(table))}
${others.map((sentence) => html`<p class="says">${raised(sentence)}</p>`)}
${factList(found.facts)}`,
    margin: [
      ...publishedShifts(cell.id, context),
      ...found.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      note(found.note),
    ],
  };
}
