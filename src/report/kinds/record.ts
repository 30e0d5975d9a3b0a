import type { RecordCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, type Hand, type Insertion, type Markup } from '../markup.ts';
import { cellAnchor, cellMarkup, label, note, notesBeside, verdictMark, type CellTemplate } from '../parts.ts';
import { ORIGIN_WORDS } from '../present/origins.ts';
import { presentRecord } from '../present/record.ts';
import type { PresentedRecord } from '../present/record-types.ts';
import type { PresentContext } from '../present/types.ts';
import { entry, OPEN_PARTS } from '../report-part.ts';
import { factList } from '../small-table.ts';

export const recordForm: Form<RecordCell> = {
  template: (cell, context) => recordTemplate(cell, context),
  report: (cell, context, { block }) => {
    const { phase, label: name, note: words, facts, problems } = presentRecord(cell, context);
    if (phase === 'not started' && problems.length === 0) {
      const agreed = html`<span class="label">${name}</span> not started. ${facts.map((fact) => `${fact.name}: ${fact.text}`).join('; ')}${cell.origin !== undefined && html` <span class="origin">${ORIGIN_WORDS[cell.origin]}</span>`}`;
      return { here: entry(cellAnchor(block.id), 'record', agreed), open: { under: OPEN_PARTS, name }, notes: { name, texts: [words] } };
    }
    return { here: cellMarkup(block.id, 'record', recordTemplate(cell, context)) };
  },
};

/** The parts of a record that are a form to be filled in on the page, and filled in already in a report. */
interface RecordHands {
  /** While it runs: clock and presses; once it has ended, how. */
  readonly course: (record: PresentedRecord) => Hand;
  readonly send: Hand | undefined;
  /** Readings and pauses. */
  readonly entries: (record: PresentedRecord) => Hand;
  /** What is noted before the start, and the start itself. */
  readonly setUp: (record: PresentedRecord) => Hand;
}

/** Multiplier and digits of the counter are all of a record that an example or a sheet brings along. */
function counterOrigin({ origin }: RecordCell): Insertion {
  return origin !== undefined && html`<p class="origin">counter: ${ORIGIN_WORDS[origin]}</p>`;
}

/** The test record as a laboratory form. */
export function recordTemplate(cell: RecordCell, context: PresentContext, hands?: RecordHands): CellTemplate {
  const record = presentRecord(cell, context);
  const { predicted, counts, verdict, changed } = record;
  return {
    notes: record,
    state: record.phase === 'ended' ? 'done' : 'open',
    line: html`${label(record.label)}
<p class="standing">${record.standing}</p>
${hands?.course(record) ?? html`${record.advice !== '' && html`<p class="missing">${record.advice}</p>`}${factList(record.facts)}`}
${factList(counts)}
${verdict !== undefined && html`<p class="verdict ${verdict.agree ? 'holds' : 'fails'}">${verdictMark(verdict.agree)}${verdict.sentence}</p>`}
${hands?.send}${hands?.entries(record) ?? entries(record)}
${changed.length > 0 && html`<div class="changed"><p>Changed since the start; the prediction kept then is the one that counts.</p><ul>${changed.map((sentence) => html`<li>${sentence}</li>`)}</ul></div>`}
${predicted.length > 0 && html`<p class="part">Predicted at the start</p>${factList(predicted)}`}
${hands?.setUp(record)}`,
    margin: [counterOrigin(cell), notesBeside(note(record.note))],
  };
}

function entries({ readings, pauses }: PresentedRecord): Markup {
  return html`${readings.length > 0 && html`<div class="ruled"><table><thead><tr>${['Noted at', 'Counter', 'Speed', 'Note'].map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${readings.map((reading) => html`<tr>${reading.map((text) => html`<td>${text}</td>`)}</tr>`)}</tbody></table></div>`}
${pauses.length > 0 && html`<p class="part">Pauses</p><ul>${pauses.map((pause) => html`<li>${pause}</li>`)}</ul>`}`;
}
