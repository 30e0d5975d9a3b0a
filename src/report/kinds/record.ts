import type { RecordCell } from '../../sheet/types.ts';
import type { Form } from '../form.ts';
import { html, type Markup } from '../markup.ts';
import { label, note, verdictMark, type CellTemplate } from '../parts.ts';
import { presentRecord } from '../present/record.ts';
import type { RecordFact } from '../present/record-types.ts';
import type { PresentContext } from '../present/types.ts';

export const recordForm: Form<RecordCell> = { template: recordTemplate };

/** The test record as a laboratory form that has been filled in. */
function recordTemplate(cell: RecordCell, context: PresentContext): CellTemplate {
  const record = presentRecord(cell, context);
  const { readings, pauses, predicted, counts, verdict, changed } = record;
  return {
    notes: record,
    state: record.phase === 'ended' ? 'done' : 'open',
    line: html`${label(record.label)}
<p class="standing">${record.standing}</p>
${record.advice !== '' && html`<p class="missing">${record.advice}</p>`}
${facts(record.facts)}
${readings.length > 0 && html`<div class="ruled"><table><thead><tr>${['Noted at', 'Counter', 'Speed', 'Note'].map((head) => html`<th scope="col">${head}</th>`)}</tr></thead>
<tbody>${readings.map((reading) => html`<tr>${reading.map((text) => html`<td>${text}</td>`)}</tr>`)}</tbody></table></div>`}
${pauses.length > 0 && html`<p>Pauses</p><ul>${pauses.map((pause) => html`<li>${pause}</li>`)}</ul>`}
${predicted.length > 0 && html`<p>Predicted at the start</p>${facts(predicted)}`}
${facts(counts)}
${verdict !== undefined && html`<p class="verdict ${verdict.agree ? 'holds' : 'fails'}">${verdictMark(verdict.agree)}${verdict.sentence}</p>`}
${changed.length > 0 && html`<div class="changed"><p>Changed since the start; the prediction above is the one that counts.</p><ul>${changed.map((sentence) => html`<li>${sentence}</li>`)}</ul></div>`}`,
    margin: [note(record.note)],
  };
}

function facts(list: readonly RecordFact[]): Markup | false {
  return list.length > 0 && html`<dl class="facts">${list.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}</dl>`;
}
