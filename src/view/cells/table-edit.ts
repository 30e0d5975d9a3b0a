import { composed, problemSentence } from '../../core/problem/index.ts';
import { answered, fitsAsItIs, type Look, orderByColumn, planRowsIn, rowsIn, type RowsIn, tableCsv, type TableState } from '../../graph/index.ts';
import { isTouchedBySlips, type PresentedTable, presentSlipsOn, restsOnTrial, SLIPS_HEAD, SLIPS_IN_NAME, TRIALS_IN_NAME } from '../../report/index.ts';
import type { EditCommand, TableCell } from '../../sheet/index.ts';
import type { Desk } from '../desk.ts';
import { arriveAt, focusNextBlank } from '../focus.ts';
import { fileName, saveFile } from '../save-file.ts';
import type { RowsHand } from './rows-in.ts';
import { isBlockOfFields, placeAfter, type TableShape } from './table-keys.ts';
import { lookAt, type LookHand, type TableLook } from './table-look.ts';
import { windowFor, type Place } from './table-ui.ts';

/** What the reader's gestures in a table do. */
export interface TableHand extends LookHand {
  readonly focus: (event: FocusEvent) => void;
  readonly leave: () => void;
  readonly type: (event: Event) => void;
  readonly press: (event: KeyboardEvent) => void;
  readonly paste: (event: ClipboardEvent) => void;
  /** Puts the focus into a field and brings its row into the page. */
  readonly go: (to: Place) => void;
  /** Shows rows from a row on, without the focus. */
  readonly show: (first: number) => void;
  readonly addRow: () => void;
  /** A row after the last with the text of one field, and the focus in its first one. */
  readonly goOn: (column: string, text: string) => void;
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

export function tableHand(cell: TableCell, desk: Desk): TableHand {
  const record = desk.ui(cell.id).table;
  const look = (): TableLook => lookAt(cell, desk);
  const now = (): PresentedTable => look().table;
  /** The row after the last is there to go on in, but not while only some rows are shown. */
  const lastPlace = (): number => Math.max(0, now().rowCount - (look().isPicked ? 1 : 0));
  const state = (): TableState | undefined => desk.context().states.cell(cell.id)?.table;
  const shapeFrom = ({ row }: Place): TableShape => {
    const table = now();
    const { columns, rowCount } = table;
    const { draft } = record;
    const fields = table.rows(row, row + 1)[0]?.fields ?? [];
    const texts = columns.map(({ isDerived }, i) => (isDerived ? '' : draft?.row === row && draft.column === i ? draft.text : (fields[i]?.text ?? '')));
    const holdsSomething = texts.some((text) => text.trim() !== '');
    // What is typed in the new row makes it one of the others, and another new one comes after it.
    const isBegun = !look().isPicked && row === rowCount && holdsSomething;
    return {
      lastRow: lastPlace() + (isBegun ? 1 : 0), editable: columns.map(({ isDerived }) => !isDerived), holdsSomething, endsWithNew: !look().isPicked,
    };
  };
  const column = (at: Place): string => now().columns[at.column]?.typed ?? '';
  /** One step to undo. Goes on once it is in the page; at once where there was nothing to change. */
  const edit = (command: EditCommand, after: () => void): boolean => {
    desk.settle();
    const before = desk.session.document();
    if (!desk.apply(command, cell.id)) return false;
    desk.settle();
    const isChanged = desk.session.document() !== before;
    if (isChanged) desk.afterUpdate(after);
    else after();
    return isChanged;
  };
  const fieldAt = ({ row, column: at }: Place): HTMLInputElement | null | undefined =>
    desk.element(cell.id)?.querySelector<HTMLInputElement>(`input[data-row="${row}"][data-column="${at}"]`);
  /** Whether there was something to write down. */
  const commit = (): boolean => {
    const { draft } = record;
    record.draft = undefined;
    if (draft === undefined) return false;
    const before = now().rows(draft.row, draft.row + 1)[0]?.fields[draft.column]?.text ?? '';
    if (draft.text === before) return false;
    const isChanged = edit({ do: 'set table cell', cellId: cell.id, row: look().rowOf(draft.row), column: column(draft), text: draft.text }, () => tellRow(draft.row));
    // What could not be written down stays in its field.
    if (desk.ui(cell.id).refused !== undefined) desk.changeUi(cell.id, ({ table }) => void (table.draft = draft));
    return isChanged;
  };
  const tellRow = (row: number): void => {
    const shown = now().rows(row, row + 1)[0];
    const [first] = shown === undefined ? [] : [...shown.marks, ...shown.fields.flatMap(({ marks }) => marks)];
    // After what the sheet itself says of results that moved: that a row is left out matters more.
    if (first !== undefined) setTimeout(() => desk.announce(`Row ${shown?.number ?? row + 1}${shown?.isLeftOut === true ? ' is left out' : ''}: ${problemSentence(first)}`));
  };
  const go = (to: Place): void => {
    const first = windowFor(to.row, record.first, now().rowCount);
    if (first !== record.first || record.at.row !== to.row || record.at.column !== to.column) {
      desk.changeUi(cell.id, ({ table }) => {
        table.first = first;
        table.at = to;
      });
    }
    const field = fieldAt(to);
    if (field) arriveAt(field);
  };
  const pick = (next: Look): void => desk.changeUi(cell.id, ({ table }) => {
    table.look = next;
    table.draft = undefined;
    table.first = 0;
    table.at = { row: 0, column: table.at.column };
  });
  const lookFirst = (source: RowsIn): void => {
    desk.changeUi(cell.id, ({ table }) => void (table.rowsIn = source));
    desk.announce('Nothing is changed yet: look at how the rows are read, below the table.');
    const heading = desk.element(cell.id)?.querySelector<HTMLElement>('.rows-in .heading');
    heading?.focus();
    heading?.scrollIntoView({ block: 'nearest' });
  };
  const within = ({ row, column: at }: Place): Place => ({ row: Math.min(row, lastPlace()), column: at });

  return {
    focus: ({ target }) => {
      const at = placeOf(target);
      if (at === undefined || (at.row === record.at.row && at.column === record.at.column)) return;
      desk.changeUi(cell.id, ({ table }) => void (table.at = at));
    },
    leave: () => void commit(),
    type: ({ target }) => {
      const at = placeOf(target);
      if (at !== undefined && target instanceof HTMLInputElement) record.draft = { ...at, text: target.value };
    },
    press: (event) => {
      const { target } = event;
      const at = placeOf(target);
      if (at === undefined || !(target instanceof HTMLInputElement) || event.isComposing) return;
      if (event.key === 'Escape' && record.draft !== undefined) {
        event.preventDefault();
        record.draft = undefined;
        target.value = now().rows(at.row, at.row + 1)[0]?.fields[at.column]?.text ?? '';
        target.select();
        return;
      }
      const caret = { start: target.selectionStart ?? 0, end: target.selectionEnd ?? 0, length: target.value.length };
      const to = placeAfter(event, caret, at, shapeFrom(at));
      if (to === undefined) return;
      event.preventDefault();
      if (to === 'out') {
        commit();
        focusNextBlank(target);
        return;
      }
      // A row that an edit has just made is in the page only with the next picture.
      if (commit() && to.row > now().rowCount) desk.afterUpdate(() => go(within(to)));
      else go(within(to));
    },
    paste: (event) => {
      const at = placeOf(event.target);
      const text = event.clipboardData?.getData('text/plain') ?? '';
      if (at === undefined || !(isBlockOfFields(text) || isLineOfFields(text))) return;
      event.preventDefault();
      if (look().isPicked) {
        desk.announce('Not pasted: show all rows as they lie first, so that it is seen where each line goes.');
        return;
      }
      record.draft = undefined;
      const source = rowsIn(text, { at: { row: at.row, column: column(at) } });
      const plan = planRowsIn(source, cell);
      if (plan.command === undefined || !fitsAsItIs(plan)) lookFirst(source);
      else edit(plan.command, () => {
        desk.announce(`Pasted; the table has ${now().counts}.`);
        go(at);
      });
    },
    go,
    show: (first) => desk.changeUi(cell.id, ({ table }) => {
      table.first = first;
      table.at = { row: first, column: table.at.column };
    }),
    addRow: () => {
      const row = Math.min(record.at.row + 1, now().rowCount);
      edit({ do: 'insert rows', cellId: cell.id, at: row, count: 1 }, () => go({ row, column: record.at.column }));
    },
    goOn: (to, text) => {
      const row = now().rowCount;
      edit({ do: 'set table cell', cellId: cell.id, row, column: to, text }, () => {
        go({ row, column: now().columns.findIndex(({ isDerived }) => !isDerived) });
      });
    },
    deleteRow: () => {
      const { row, column: at } = record.at;
      const gone = look().rowOf(row);
      edit({ do: 'delete rows', cellId: cell.id, at: gone, count: 1 }, () => {
        desk.offerUndo(cell.id, `Row ${gone + 1} is deleted.`);
        go({ row: Math.min(row, lastPlace()), column: at });
      });
    },
    order: (direction) => {
      const by = state()?.columns[record.at.column];
      if (by === undefined) return;
      pick({ ...record.look, by: { column: by.name, direction } });
      desk.announce(composed`The rows are shown in ${direction} order of ${by.column?.label ?? by.typed}.`);
    },
    look: (next) => {
      pick(next);
      const { picked, all } = look();
      desk.announce(picked === undefined ? `All ${all} rows are shown.` : picked.problem === undefined ? `${picked.rows.length} of ${all} rows are shown.` : problemSentence(picked.problem));
    },
    unfold: () => desk.changeUi(cell.id, ({ table }) => void (table.isOpen = !table.isOpen)),
    count: (where) => void edit({ do: 'set key', cellId: cell.id, key: 'where', value: where.trim() === '' ? undefined : where.trim() }, () => desk.announce(now().counts)),
    addColumn: (key, formula) => edit({ do: 'add column', cellId: cell.id, key, formula }, () => desk.announce(`The column ${key} is added.`)),
    keepOrder: () => {
      const { by } = record.look;
      const table = state();
      if (table === undefined || by === undefined) return;
      const order = orderByColumn(table, by.column, by.direction);
      pick({ only: '' });
      edit({ do: 'order rows', cellId: cell.id, order }, () => desk.announce(`The rows lie in ${by.direction} order of ${by.column} now.`));
    },
    goToRow: (row) => {
      if (look().shownAt(row) === undefined) pick({ only: '' });
      go({ row: look().shownAt(row) ?? row, column: record.at.column });
    },
    bringIn: async ({ target }) => {
      const file = target instanceof HTMLInputElement ? target.files?.[0] : undefined;
      if (file === undefined || !(target instanceof HTMLInputElement)) return;
      target.value = '';
      const text = await textOfRows(file);
      if (text === undefined) {
        desk.announce(composed`${file.name} was not brought in: it could not be read, or has more than ${LARGEST_FILE / 1e6} MB.`);
        return;
      }
      lookFirst(rowsIn(text, { from: file.name }));
    },
    rowsIn: {
      say: (answer) => desk.changeUi(cell.id, ({ table }) => void (table.rowsIn = table.rowsIn === undefined ? undefined : answered(table.rowsIn, answer))),
      take: () => {
        const plan = record.rowsIn === undefined ? undefined : planRowsIn(record.rowsIn, cell);
        if (plan?.command === undefined) return;
        const first = plan.counts.replaced[0] ?? (plan.how === 'replace all' ? 0 : plan.counts.there);
        edit(plan.command, () => {
          desk.announce(`The rows are in: the table has ${now().counts}.`);
          go(within({ row: first, column: 0 }));
        });
        if (desk.ui(cell.id).refused === undefined) desk.changeUi(cell.id, ({ table }) => void (table.rowsIn = undefined));
      },
      leave: () => {
        desk.changeUi(cell.id, ({ table }) => void (table.rowsIn = undefined));
        desk.announce('The table stays as it is.');
        go(within(record.at));
      },
    },
    takeAway: () => {
      const table = state();
      if (table === undefined) return;
      const slips = isTouchedBySlips(cell.id, desk.context()) ? presentSlipsOn(desk.context()).map(({ id }) => id).join(' ') : undefined;
      const mark = slips === undefined ? undefined : { head: SLIPS_HEAD, text: slips };
      const trials = restsOnTrial(cell.id, desk.context()) ? TRIALS_IN_NAME : undefined;
      saveFile(fileName([cell.label ?? cell.id, trials, slips === undefined ? undefined : SLIPS_IN_NAME], 'csv'), tableCsv(table, ',', mark), 'text/csv;charset=utf-8');
    },
  };
}

/** Whether one line is a row of a file, several fields with a number among them, and not what belongs into one field. */
function isLineOfFields(text: string): boolean {
  const fields = text.trim().split(/[;,]/);
  return fields.length > 3 && fields.some((field) => /^\s*\d[\d.]*\s*$/.test(field)) && fields.some((field) => /\p{L}/u.test(field));
}

function placeOf(target: EventTarget | null): Place | undefined {
  if (!(target instanceof HTMLInputElement)) return undefined;
  const { row, column } = target.dataset;
  return row === undefined || column === undefined ? undefined : { row: Number(row), column: Number(column) };
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
