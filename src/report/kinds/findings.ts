import type { FitCell } from '../../sheet/types.ts';
import { publishedShifts } from '../held-parts.ts';
import { html, type Hand } from '../markup.ts';
import { label, note, notesBeside, raised, type CellTemplate } from '../parts.ts';
import type { PresentContext, PresentedFindings } from '../present/types.ts';
import { besideValues, factList, smallTable, type Moved } from '../small-table.ts';

/** What only the page has: how values moved, a row to go on with, and the ways to the budgets. */
interface FindingsHands {
  readonly moved?: Moved;
  readonly bench?: Hand;
  readonly goOn?: Hand;
  readonly budgets?: Hand;
}

/** What a fit says that finds no line: a sentence, small tables, further sentences, facts. */
export function findingsTemplate(cell: FitCell, found: PresentedFindings, context: PresentContext, { moved, bench, goOn, budgets }: FindingsHands = {}): CellTemplate {
  const [first, ...others] = found.sentences;
  const shown = found.tables.flatMap(({ rows }) => rows.map(({ symbol }) => symbol));
  return {
    notes: found,
    line: html`${label(found.label)}${bench}
${found.advice !== undefined && html`<p class="advice">${raised(found.advice)}</p>`}${goOn}
${first !== undefined && html`<p class="method">${raised(first)}</p>`}
${found.tables.map((table) => smallTable(table, besideValues(context, moved)))}
${others.map((sentence) => html`<p class="says">${raised(sentence)}</p>`)}
${factList(found.facts)}${budgets}`,
    margin: [
      ...publishedShifts(cell.id, context, shown),
      ...found.settings.map((setting) => html`<p class="setting">${setting}</p>`),
      notesBeside(note(found.note)),
    ],
  };
}
