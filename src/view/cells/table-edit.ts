import { composed } from '../../core/problem/index.ts';
import { rowsIn, tableCsv } from '../../graph/index.ts';
import { nameParts, isTouchedBySlips, presentSlipsOn, restsOnTrial, SLIPS_HEAD, SLIPS_IN_NAME, TRIALS_IN_NAME } from '../../report/index.ts';
import type { TableCell } from '../../sheet/index.ts';
import { cellIn } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { arriveAt, focusNextBlank } from '../focus.ts';
import { fileName, saveFile } from '../save-file.ts';
import { panels } from '../panels-at-hand.ts';
import type { RowsHand } from './rows-in.ts';
import { lookAt, type LookHand } from './table-look.ts';
import { tableStep, type TableEffect, type TableEvent } from './table-step.ts';
import type { Place, TableUi } from './table-ui.ts';

/** What the reader's gestures in a table do. */
export interface TableHand extends LookHand {
  readonly focus: (event: FocusEvent) => void;
  readonly leave: () => void;
  readonly type: (event: Event) => void;
  readonly press: (event: KeyboardEvent) => void;
  readonly paste: (event: ClipboardEvent) => void;
  /** Shows rows from a row on, without the focus. */
  readonly show: (first: number) => void;
  /** A press on a row's number or on a word of its form. */
  readonly click: (event: MouseEvent) => void;
  readonly openRow: (row: number) => void;
  readonly addRow: () => void;
  /** A row after the last with the text of one field, and the focus in its first one. */
  readonly goOn: (column: string, text: string) => void;
  readonly ended: (test: Omit<TableEvent<'ended'>, 'on'>) => void;
  readonly deleteRow: () => void;
  readonly order: (direction: 'rising' | 'falling') => void;
  readonly goToRow: (row: number) => void;
  readonly bringIn: (event: Event) => Promise<void>;
  readonly takeAway: () => void;
  /** What can be said of rows that are looked at before they go in, and what is done with them. */
  readonly rowsIn: RowsHand;
}

/** Largest file of rows that is read, bytes; what the table itself takes is said by the sheet. */
const LARGEST_FILE = 20_000_000;

export function tableHand({ id }: TableCell, desk: Desk): TableHand {
  const act = (event: TableEvent): void => void actOnTable(id, event, desk);
  return {
    focus: ({ target }) => inField(target, ({ at }) => act({ on: 'focus', at })),
    leave: () => act({ on: 'leave' }),
    type: ({ target }) => inField(target, ({ at, field }) => act({ on: 'type', at, text: field.value })),
    press: (event) => inField(event.target, ({ at, field }) => {
      if (event.isComposing) return;
      const caret = { start: field.selectionStart ?? 0, end: field.selectionEnd ?? 0, length: field.value.length };
      if (actOnTable(id, { on: 'key', at, press: event, caret }, desk, field)) event.preventDefault();
    }),
    paste: (event) => inField(event.target, ({ at }) => {
      const text = event.clipboardData?.getData('text/plain') ?? '';
      if (actOnTable(id, { on: 'paste', at, text }, desk)) event.preventDefault();
    }),
    click: ({ target }) => {
      const event = target instanceof Element ? pressedIn(target.closest('button')) : undefined;
      if (event !== undefined) act(event);
    },
    openRow: (row) => act({ on: 'open row', row }),
    show: (first) => act({ on: 'show', first }),
    addRow: () => act({ on: 'add row' }),
    goOn: (column, text) => act({ on: 'go on', column, text }),
    ended: (test) => act({ on: 'ended', ...test }),
    deleteRow: () => act({ on: 'delete row' }),
    order: (direction) => act({ on: 'order', direction }),
    look: (look) => act({ on: 'look', look }),
    unfold: () => act({ on: 'unfold' }),
    count: (where) => act({ on: 'count', where }),
    addColumn: (key, formula) => {
      const before = desk.session.document();
      act({ on: 'add column', key, formula });
      return desk.session.document() !== before;
    },
    keepOrder: () => act({ on: 'keep order' }),
    goToRow: (row) => act({ on: 'go to row', row }),
    bringIn: ({ target }) => bringIn(target, desk, act),
    rowsIn: {
      say: (answer) => act({ on: 'rows read so', answer }),
      take: () => act({ on: 'take rows' }),
      leave: () => act({ on: 'leave rows' }),
    },
    takeAway: () => takeAway(id, desk),
  };
}

/** Takes a table from one state to the next and does what follows from it. Gives whether a key or a paste was the table's. @param field in which it was pressed */
export function actOnTable(cellId: string, event: TableEvent, desk: Desk, field?: HTMLInputElement): boolean {
  const cell = tableAt(cellId, desk);
  if (cell === undefined) return false;
  const look = lookAt(cell, desk);
  const { table: ui } = desk.ui(cellId);
  const step = tableStep({ ui, cell, look, state: desk.context().states.cell(cellId)?.table }, event);
  if (step.ui.rowsIn !== undefined && !panels.isThere()) {
    desk.withPanels(() => void actOnTable(cellId, event, desk, field));
    return step.isTaken === true;
  }
  if (isSeen(ui, step.ui)) desk.changeUi(cellId, (record) => void (record.table = step.ui));
  else desk.ui(cellId).table = step.ui;
  for (const effect of step.effects) carryOut(effect, cellId, desk, field);
  return step.isTaken === true;
}

function carryOut(effect: TableEffect, cellId: string, desk: Desk, field: HTMLInputElement | undefined): void {
  switch (effect.do) {
    case 'edit': return edit(effect, cellId, desk);
    case 'announce': return desk.announce(effect.sentence);
    case 'arrive': {
      const there = fieldAt(effect.at, cellId, desk);
      if (there === undefined) return;
      return there instanceof HTMLInputElement ? arriveAt(there) : there.focus();
    }
    case 'give back':
      if (field === undefined) return;
      field.value = effect.text;
      return field.select();
    case 'to next blank': return field === undefined ? undefined : focusNextBlank(field);
    case 'to rows in': {
      const heading = desk.element(cellId)?.querySelector<HTMLElement>('.rows-in .heading');
      heading?.focus();
      return heading?.scrollIntoView({ block: 'nearest' });
    }
    case 'to form': {
      const form = desk.element(cellId)?.querySelector<HTMLElement>('.row-form');
      form?.querySelector<HTMLElement>(`[data-by="${effect.by}"]:enabled, [data-by]:enabled`)?.focus({ preventScroll: true });
      return form?.scrollIntoView({ block: 'nearest' });
    }
    case 'next': return void actOnTable(cellId, effect.event, desk);
  }
}

function edit({ command, after, back, offer }: Extract<TableEffect, { do: 'edit' }>, cellId: string, desk: Desk): void {
  const goOn = (): void => {
    for (const event of after) actOnTable(cellId, event, desk);
  };
  desk.settle();
  const before = desk.session.document();
  if (!desk.apply(command, cellId)) {
    if (back !== undefined) desk.changeUi(cellId, (record) => void (record.table = { ...record.table, ...back }));
    return;
  }
  desk.settle();
  if (desk.session.document() === before) return goOn();
  if (offer !== undefined) desk.offerUndo(cellId, offer);
  desk.afterUpdate(goOn);
}

/** What is being typed stands in its field already. */
function isSeen(before: TableUi, after: TableUi): boolean {
  return (['first', 'at', 'look', 'isOpen', 'rowsIn', 'form'] as const).some((part) => before[part] !== after[part]);
}

function tableAt(cellId: string, desk: Desk): TableCell | undefined {
  return cellIn(desk.block(cellId), 'table');
}

/** In the row's form where it is open: of a column of words the one that stands there, or the first. */
function fieldAt({ row, column }: Place, cellId: string, desk: Desk): HTMLElement | undefined {
  const cell = desk.element(cellId);
  const place = `[data-row="${row}"][data-column="${column}"]`;
  return cell?.querySelector<HTMLElement>(`.row-form :is(input${place}, ${place}[aria-pressed="true"])`)
    ?? cell?.querySelector<HTMLElement>(`.row-form ${place}`)
    ?? cell?.querySelector<HTMLElement>(`input${place}`)
    ?? undefined;
}

function inField(target: EventTarget | null, act: (there: { readonly at: Place; readonly field: HTMLInputElement }) => void): void {
  if (!(target instanceof HTMLInputElement)) return;
  const { row, column } = target.dataset;
  if (row !== undefined && column !== undefined) act({ at: { row: Number(row), column: Number(column) }, field: target });
}

/** What a press on a row's number or in its form means. */
function pressedIn(button: HTMLButtonElement | null): TableEvent | undefined {
  const { row, column, word, by } = button?.dataset ?? {};
  if (by !== undefined) return { on: 'form on', by: by === '1' ? 1 : -1 };
  if (row === undefined) return undefined;
  if (column === undefined || word === undefined) return { on: 'open row', row: Number(row) };
  return { on: 'option', at: { row: Number(row), column: Number(column) }, word, isThere: button?.getAttribute('aria-pressed') === 'true' };
}

async function bringIn(target: EventTarget | null, desk: Desk, act: (event: TableEvent) => void): Promise<void> {
  const file = target instanceof HTMLInputElement ? target.files?.[0] : undefined;
  if (file === undefined || !(target instanceof HTMLInputElement)) return;
  target.value = '';
  const text = await textOfRows(file);
  if (text === undefined) desk.announce(composed`${file.name} was not brought in: it could not be read, or has more than ${LARGEST_FILE / 1e6} MB.`);
  else act({ on: 'rows come', source: rowsIn(text, { from: file.name }) });
}

function takeAway(cellId: string, desk: Desk): void {
  const context = desk.context();
  const [cell, table] = [tableAt(cellId, desk), context.states.cell(cellId)?.table];
  if (cell === undefined || table === undefined) return;
  const slips = isTouchedBySlips(cellId, context) ? presentSlipsOn(context).map(({ id }) => id).join(' ') : undefined;
  const mark = slips === undefined ? undefined : { head: SLIPS_HEAD, text: slips };
  const trials = restsOnTrial(cellId, context) ? TRIALS_IN_NAME : undefined;
  saveFile(fileName([...nameParts(context.document), cell.label ?? cellId, trials, slips === undefined ? undefined : SLIPS_IN_NAME], 'csv'), tableCsv(table, ',', mark), 'text/csv;charset=utf-8');
}

/** Delimited text in UTF-8, or in UTF-16 as spreadsheets write it, told by its byte order mark. */
async function textOfRows(file: File): Promise<string | undefined> {
  if (file.size > LARGEST_FILE) return undefined;
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const encoding = bytes[0] === 0xff && bytes[1] === 0xfe ? 'utf-16le' : bytes[0] === 0xfe && bytes[1] === 0xff ? 'utf-16be' : 'utf-8';
    return new TextDecoder(encoding).decode(bytes);
  } catch {
    return undefined;
  }
}
