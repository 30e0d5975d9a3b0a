import { copyText } from '../copy-text.ts';
import { cellIn } from '../../sheet/index.ts';
import { nothing, type TemplateResult } from 'lit-html';
import { composed, isolated, problemSentence } from '../../core/problem/index.ts';
import { nameParts, presentCheck, recordCsv, recordRow, type RowField } from '../../report/index.ts';
import { answered, proposeRowsIn, rowsIn } from '../../graph/index.ts';
import type { RecordCell } from '../../sheet/index.ts';
import type { RowsHand } from '../cells/rows-in.ts';
import { panels } from '../panels-at-hand.ts';
import type { Desk } from '../desk.ts';
import { partId, type Part } from '../parts.ts';
import type { SheetWithTables } from '../row-shelf.ts';
import { fileName, saveFile } from '../save-file.ts';
import { html } from '../template.ts';

type Row = ReadonlyMap<string, RowField>;

/** What can be done with a finished specimen: a row in the class's table, a file, words for the discussion. */
export function sendRow(cell: RecordCell, desk: Desk): Part {
  const row = recordRow(cell, desk.context());
  if (row === undefined) return html`<p class="missing">Say the outcome and the counter at the end, and the specimen can go into the class’s table.</p>`;
  const { record } = desk.ui(cell.id);
  return html`<p class="presses">
    ${desk.rows === undefined ? nothing : html`<button type="button" class="quiet" @click=${() => void askForSheets(cell, row, desk)}>send this specimen to a table</button>`}
    <button type="button" class="quiet" @click=${() => saveFile(fileName([...nameParts(desk.context().document), 'row'], 'csv'), recordCsv(row), 'text/csv')}>take it away as a file</button>
    <button type="button" class="quiet" @click=${() => void copy(cell, recordCsv(row), desk)}>copy it</button>
    ${suggestion(cell, desk)}</p>
    ${record.sheets === undefined ? nothing : targets(cell, row, desk)}
    ${record.said === '' ? nothing : html`<p class="said">${record.said} ${record.takeBack === undefined ? nothing
      : html`<button type="button" class="quiet" @click=${() => void takeBack(cell, desk)}>take it back</button>`}</p>`}`;
}

async function askForSheets(cell: RecordCell, row: Row, desk: Desk): Promise<void> {
  const sheets = await desk.rows?.kept().catch(() => undefined);
  say(cell, desk, sheets === undefined ? 'The sheets of this browser can’t be read now. Take the row away as a file instead.'
    : sheets.length === 0 ? 'No other sheet with a table of specimens is kept in this browser yet. Start the class’s S-N line under Sheets, change a blank of it, and come back.' : '');
  desk.changeUi(cell.id, ({ record }) => {
    record.sheets = sheets?.length === 0 ? undefined : sheets;
    record.sending = undefined;
  });
  desk.element(cell.id)?.querySelector<HTMLElement>('.targets button')?.focus();
  // Where there is one table alone, what would become of it is shown at once, and nothing is sent yet.
  const all = (sheets ?? []).flatMap((sheet) => sheet.tables.map((table) => ({ sheet, table })));
  const [only] = all;
  if (only !== undefined && all.length === 1) choose(only, cell, row, desk);
}

function choose({ sheet, table }: { readonly sheet: SheetWithTables; readonly table: SheetWithTables['tables'][number] }, cell: RecordCell, row: Row, desk: Desk): void {
  desk.withPanels(() => {
    desk.changeUi(cell.id, ({ record }) => {
      record.sending = { sheetId: sheet.id, title: sheet.title, cell: table.cell, rows: rowsIn(recordCsv(row), { from: `specimen ${row.get('specimen')?.text ?? ''}` }) };
    });
    desk.element(cell.id)?.querySelector<HTMLElement>('.rows-in .heading')?.focus();
  });
}

/** Sheets by name, those of other teams last and called so; none is taken unless it is chosen. */
function targets(cell: RecordCell, row: Row, desk: Desk): TemplateResult {
  const { sheets = [], sending } = desk.ui(cell.id).record;
  const isOthers = ({ team }: SheetWithTables): boolean => team !== '' && team !== (row.get('team')?.text ?? '');
  const ordered = [...sheets.filter((sheet) => !isOthers(sheet)), ...sheets.filter(isOthers)];
  return html`<p class="label">Which sheet, and which table of it?</p><ul class="targets">${ordered.flatMap((sheet) => sheet.tables.map((table) =>
    html`<li><button type="button" class="quiet" aria-pressed=${sending?.sheetId === sheet.id && sending.cell === table.cell ? 'true' : 'false'} @click=${() => choose({ sheet, table }, cell, row, desk)}>${sheet.title}: ${table.label}</button>
      <span class="help">${[isOthers(sheet) ? composed`of another team, ${sheet.team}` : '', isolated(sheet.detail)].filter((part) => part !== '').join(' · ')}</span></li>`))}</ul>
    ${sending === undefined ? nothing : panels.use().rowsInPart(partId(cell.id, 'sending'), sending.rows, sending.cell, sendingHand(cell, row, desk))}`;
}

function sendingHand(cell: RecordCell, row: Row, desk: Desk): RowsHand {
  const close = (): void => desk.changeUi(cell.id, ({ record }) => void Object.assign(record, { sheets: undefined, sending: undefined }));
  return {
    say: (answer) => desk.changeUi(cell.id, ({ record }) => {
      if (record.sending !== undefined) record.sending = { ...record.sending, rows: answered(record.sending.rows, answer) };
    }),
    take: () => void send(),
    leave: () => {
      close();
      say(cell, desk, 'Nothing was sent.');
    },
  };

  async function send(): Promise<void> {
    const { sending } = desk.ui(cell.id).record;
    const proposal = sending === undefined ? undefined : proposeRowsIn(sending.rows, sending.cell);
    if (sending === undefined || proposal?.command === undefined) return;
    const brought = await desk.rows?.bring(sending.sheetId, sending.cell, proposal.command).catch(() => undefined);
    if (brought === undefined) say(cell, desk, 'The browser refused to keep the row. Take it away as a file instead.');
    else if (!brought.ok) say(cell, desk, problemSentence(brought.problem));
    else {
      close();
      const place = proposal.counts.replaced[0] === undefined ? 'now the last row' : `now in row ${proposal.counts.replaced[0] + 1}`;
      say(cell, desk, composed`Specimen ${row.get('specimen')?.text ?? ''} is ${place} of the table in “${sending.title}”.`, brought.value);
    }
  }
}

async function takeBack(cell: RecordCell, desk: Desk): Promise<void> {
  const done = await desk.ui(cell.id).record.takeBack?.().catch(() => false);
  say(cell, desk, done === true ? 'The row is taken back.' : 'That sheet was changed since; delete the row there.');
}

async function copy(cell: RecordCell, text: string, desk: Desk): Promise<void> {
  const done = await copyText(text);
  say(cell, desk, done ? 'The row is copied, with its header.' : 'The browser does not let this page copy. Take the row away as a file instead.');
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
  const check = cellIn(desk.block(cell.texts.get('suggests') ?? ''), 'check');
  if (check === undefined) return nothing;
  const { holds, message } = presentCheck(check, desk.context());
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
