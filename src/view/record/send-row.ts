import { html, nothing, type TemplateResult } from 'lit-html';
import { problemSentence } from '../../core/problem/index.ts';
import { presentCheck, recordCsv, recordRow } from '../../report/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import type { Part } from '../parts.ts';
import { fileName, saveFile } from '../save-file.ts';

/** What can be done with a finished specimen: a row in the class's table, a file, words for the discussion. */
export function sendRow(cell: RecordCell, desk: Desk): Part {
  const row = recordRow(cell, desk.context());
  if (row === undefined) return html`<p class="missing">Say the outcome and the counter at the end, and the specimen can go into the class’s table.</p>`;
  const { record } = desk.ui(cell.id);
  return html`<p class="presses">
    ${desk.rows === undefined ? nothing : html`<button type="button" class="quiet" @click=${() => void askForSheets(cell, desk)}>send this specimen to a table</button>`}
    <button type="button" class="quiet" @click=${() => saveFile(fileName([row.get('specimen') ?? '', 'row'], 'csv'), recordCsv(row), 'text/csv')}>take it away as a file</button>
    <button type="button" class="quiet" @click=${() => void copy(cell, recordCsv(row), desk)}>copy it</button>
    ${suggestion(cell, desk)}</p>
    ${record.sheets === undefined ? nothing : targets(cell, row, desk)}
    ${record.said === '' ? nothing : html`<p class="said">${record.said} ${record.takeBack === undefined ? nothing
      : html`<button type="button" class="quiet" @click=${() => void takeBack(cell, desk)}>take it back</button>`}</p>`}`;
}

async function askForSheets(cell: RecordCell, desk: Desk): Promise<void> {
  const sheets = await desk.rows?.kept().catch(() => undefined);
  say(cell, desk, sheets === undefined ? 'The sheets of this browser can’t be read now. Take the row away as a file instead.'
    : sheets.length === 0 ? 'No other sheet with a table is kept in this browser yet. Start the class’s S-N line under Sheets, change a blank of it, and come back.' : '');
  desk.changeUi(cell.id, ({ record }) => void (record.sheets = sheets?.length === 0 ? undefined : sheets));
  desk.element(cell.id)?.querySelector<HTMLElement>('.targets button')?.focus();
}

function targets(cell: RecordCell, row: ReadonlyMap<string, string>, desk: Desk): TemplateResult {
  const send = async (sheetId: string, tableId: string, title: string): Promise<void> => {
    const added = await desk.rows?.add(sheetId, tableId, row).catch(() => undefined);
    if (added === undefined) say(cell, desk, 'The browser refused to keep the row. Take it away as a file instead.');
    else if (!added.ok) say(cell, desk, problemSentence(added.problem));
    else {
      desk.changeUi(cell.id, ({ record }) => void (record.sheets = undefined));
      say(cell, desk, `Specimen ${row.get('specimen') ?? ''} is now the last row of the table in “${title}”.`, added.value);
    }
  };
  const sheets = desk.ui(cell.id).record.sheets ?? [];
  return html`<p class="label">Which table?</p><ul class="targets">${sheets.flatMap(({ id, title, detail, tables }) => tables.map((table) =>
    html`<li><button type="button" class="quiet" @click=${() => void send(id, table.id, title)}>${title}: ${table.label}</button> <span class="help">${detail}</span></li>`))}</ul>`;
}

async function takeBack(cell: RecordCell, desk: Desk): Promise<void> {
  const done = await desk.ui(cell.id).record.takeBack?.().catch(() => false);
  say(cell, desk, done === true ? 'The row is taken back.' : 'That sheet was changed since; delete the row there.');
}

async function copy(cell: RecordCell, text: string, desk: Desk): Promise<void> {
  const done = await navigator.clipboard?.writeText(text).then(() => true, () => false);
  say(cell, desk, done === true ? 'The row is copied, with its header.' : 'The browser does not let this page copy. Take the row away as a file instead.');
}

function say(cell: RecordCell, desk: Desk, sentence: string, back?: () => Promise<boolean>): void {
  desk.changeUi(cell.id, ({ record }) => {
    record.said = sentence;
    record.takeBack = back;
  });
  if (sentence !== '') desk.announce(sentence);
}

/** Puts what the named check says into a remark below, to be worked on. */
function suggestion(cell: RecordCell, desk: Desk): Part {
  const check = desk.block(cell.texts.get('suggests') ?? '');
  if (check?.kind !== 'cell' || check.cell.kind !== 'check') return nothing;
  const { holds, message } = presentCheck(check.cell, desk.context());
  if (holds === undefined || message === '') return nothing;
  const insert = (): void => {
    desk.settle();
    const text = message.replace(/\s+/g, ' ');
    const source = `\`\`\`remark\nheading: Observed and predicted life\ntext: |\n  ${text}\n\`\`\`\n`;
    if (desk.apply({ do: 'insert', after: check.id, source }, cell.id)) say(cell, desk, 'A remark with a suggestion stands below the comparison. Change it until the words are yours.');
    desk.settle();
  };
  return html`<button type="button" class="quiet" @click=${insert}>suggest words for the discussion</button>`;
}
