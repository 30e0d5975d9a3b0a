import { composed, problemSentence } from '../../core/problem/index.ts';
import { answered, fitsAsItIs, type Look, orderByColumn, proposeRowsIn, rowsIn, type RowsAnswer, type RowsIn, type TableState } from '../../graph/index.ts';
import type { EditCommand, TableCell } from '../../sheet/index.ts';
import type { KeyPress } from '../keys.ts';
import { isBlockOfFields, isLineOfFields, placeAfter, type Caret, type TableShape } from './table-keys.ts';
import type { TableLook } from './table-look.ts';
import { windowFor, type Place, type TableUi } from './table-ui.ts';

/** What can happen to a table in the page, and with what. Rows are counted as they are shown, but where the document's are meant. */
interface TableEvents {
  focus: { readonly at: Place };
  /** The focus has gone elsewhere. */
  leave: object;
  type: { readonly at: Place; readonly text: string };
  key: { readonly at: Place; readonly press: KeyPress; readonly caret: Caret };
  paste: { readonly at: Place; readonly text: string };
  /** Puts the focus into a field and brings its row into the page. */
  go: { readonly to: Place };
  /** The same by the document's row, shown or not; in the column of the last field where none is named. */
  'go to row': { readonly row: number; readonly column?: number };
  /** Shows rows from a row on, without the focus. */
  show: { readonly first: number };
  /** Opens a row as a form below its line, or closes it where it is open. */
  'open row': { readonly row: number };
  /** The form goes on to a neighbouring row. */
  'form on': { readonly by: 1 | -1 };
  /** One of a column's words was pressed; the one that stands there is taken out again. */
  option: { readonly at: Place; readonly word: string; readonly isThere: boolean };
  'add row': object;
  /** A row after the last with the text of one field, and the focus in its first one. */
  'go on': { readonly column: string; readonly text: string };
  /** A test has ended: its outcome goes into the row that waits for it, or with its level into a new one. */
  ended: { readonly column: string; readonly outcome: string; readonly row?: number; readonly level?: { readonly column: string; readonly text: string } };
  'delete row': object;
  order: { readonly direction: 'rising' | 'falling' };
  'keep order': object;
  look: { readonly look: Look };
  unfold: object;
  count: { readonly where: string };
  'add column': { readonly key: string; readonly formula: string };
  /** Rows to look at before they go in. */
  'rows come': { readonly source: RowsIn };
  'rows read so': { readonly answer: RowsAnswer };
  'take rows': object;
  'leave rows': object;
  tell: { readonly sentence: string };
  'tell counts': { readonly before?: string };
  'tell picked': object;
  /** Of a row that was just typed in: what is wrong with it, if anything is. */
  'tell row': { readonly row: number };
}

export type TableEvent<On extends keyof TableEvents = keyof TableEvents> = { [One in On]: { readonly on: One } & TableEvents[One] }[On];

/** What is to be done outside the record of the table, in order. */
export type TableEffect =
  /** One step to undo. `after`: once it is in the page, or at once where it changed nothing. `back`: what the record goes back to where it can't be made. */
  | { readonly do: 'edit'; readonly command: EditCommand; readonly after: readonly TableEvent[]; readonly back?: Partial<TableUi>; readonly offer?: string }
  | { readonly do: 'announce'; readonly sentence: string }
  | { readonly do: 'arrive'; readonly at: Place }
  /** In the field in which the key was pressed. */
  | { readonly do: 'give back'; readonly text: string }
  | { readonly do: 'to next blank' }
  | { readonly do: 'to rows in' }
  /** To the press of the row's form that leads on the same way. */
  | { readonly do: 'to form'; readonly by: 1 | -1 }
  | { readonly do: 'next'; readonly event: TableEvent };

export interface TableStep {
  readonly ui: TableUi;
  readonly effects: readonly TableEffect[];
  /** A key or a paste that is not the field's own. */
  readonly isTaken?: true;
}

/** A table as it stands: the cell, how it is shown, and its state. */
interface TableNow {
  readonly ui: TableUi;
  readonly cell: TableCell;
  readonly look: TableLook;
  readonly state: TableState | undefined;
}

const ALL_AS_THEY_LIE: Look = { only: '' };

/** The record of a table after an event, and what else is to be done. */
export function tableStep<On extends keyof TableEvents>(now: TableNow, event: TableEvent<On>): TableStep {
  return STEPS[event.on](now, event);
}

const STEPS: { readonly [On in keyof TableEvents]: (now: TableNow, event: TableEvent<On>) => TableStep } = {
  focus: ({ ui }, { at }) => only(at.row === ui.at.row && at.column === ui.at.column ? ui : { ...ui, at }),
  leave: written,
  type: ({ ui }, { at, text }) => only({ ...ui, draft: { ...at, text } }),
  key: pressed,
  paste: pasted,
  go: ({ ui, look }, { to }) => gone(ui, { ...to, row: Math.min(to.row, lastPlace(look)) }, look.table.rowCount),
  'go to row': ({ ui, look }, { row, column = ui.at.column }) => {
    const shown = look.shownAt(row);
    const there = shown === undefined ? gone(picking(ui, ALL_AS_THEY_LIE), { row: Math.min(row, look.all), column }, look.all) : gone(ui, { row: Math.min(shown, lastPlace(look)), column }, look.table.rowCount);
    // Who works in the row's form goes on in it.
    return ui.form === undefined ? there : { ...there, ui: { ...there.ui, form: there.ui.at.row } };
  },
  show: ({ ui }, { first }) => only({ ...ui, first, at: { row: first, column: ui.at.column } }),
  'open row': (now, { row }) => {
    const { ui, effects } = written(now);
    if (ui.form === row) return { ui: { ...ui, form: undefined }, effects };
    const at = { row, column: firstTyped(now.look) };
    // Who opens the new row is about to type; another row may be opened only to be read.
    return { ui: { ...ui, form: row, at }, effects: row < now.look.table.rowCount ? effects : [...effects, { do: 'arrive', at }] };
  },
  'form on': (now, { by }) => {
    const { ui, effects } = written(now);
    if (ui.form === undefined) return { ui, effects };
    const row = Math.min(Math.max(0, ui.form + by), lastPlace(now.look));
    const at = { row, column: firstTyped(now.look) };
    const there = { ...ui, form: row, at, first: windowFor(row, ui.first, now.look.table.rowCount) };
    return { ui: there, effects: [...effects, row < now.look.table.rowCount ? { do: 'to form', by } : { do: 'arrive', at }] };
  },
  option: (now, { at, word, isThere }) => {
    const { ui, effects } = written(now);
    const command = { do: 'set table cell', cellId: now.cell.id, row: now.look.rowOf(at.row), column: typedOf(now.look, at), text: isThere ? '' : word } as const;
    return { ui: { ...ui, at }, effects: [...effects, { do: 'edit', command, after: [{ on: 'tell row', row: at.row }] }] };
  },
  'add row': ({ ui, cell, look }) => {
    const row = Math.min(ui.at.row + 1, look.table.rowCount);
    return edits(ui, { do: 'insert rows', cellId: cell.id, at: row, count: 1 }, [{ on: 'go', to: { row, column: ui.at.column } }]);
  },
  'go on': ({ ui, cell, look }, { column, text }) => {
    return edits(ui, { do: 'set table cell', cellId: cell.id, row: look.all, column, text }, [{ on: 'go to row', row: look.all, column: firstTyped(look) }]);
  },
  ended: (now, { column, outcome, row, level }) => {
    const { ui, effects } = written(now);
    const cellId = now.cell.id;
    const command: EditCommand = row !== undefined || level === undefined
      ? { do: 'set table cell', cellId, row: row ?? now.look.all, column, text: outcome }
      : { do: 'bring rows', cellId, columns: [level.column, column], set: [], added: [[level.text, outcome]] };
    return { ui, effects: [...effects, { do: 'edit', command, after: [] }] };
  },
  'delete row': ({ ui, cell, look }) => {
    const row = look.rowOf(ui.at.row);
    const edit = { do: 'edit', command: { do: 'delete rows', cellId: cell.id, at: row, count: 1 }, after: [{ on: 'go', to: ui.at }], offer: `Row ${row + 1} is deleted.` } as const;
    return { ui, effects: [edit] };
  },
  order: ({ ui, state }, { direction }) => {
    const by = state?.columns[ui.at.column];
    if (by === undefined) return only(ui);
    return says(picking(ui, { ...ui.look, by: { column: by.name, direction } }), composed`The rows are shown in ${direction} order of ${by.column?.label ?? by.typed}.`);
  },
  'keep order': ({ ui, cell, state }) => {
    const { by } = ui.look;
    if (state === undefined || by === undefined) return only(ui);
    const command = { do: 'order rows', cellId: cell.id, order: orderByColumn(state, by.column, by.direction) } as const;
    return edits(picking(ui, ALL_AS_THEY_LIE), command, [{ on: 'tell', sentence: `The rows lie in ${by.direction} order of ${by.column} now.` }]);
  },
  look: ({ ui }, { look }) => ({ ui: picking(ui, look), effects: [{ do: 'next', event: { on: 'tell picked' } }] }),
  unfold: ({ ui }) => only({ ...ui, isOpen: !ui.isOpen }),
  count: ({ ui, cell }, { where }) => edits(ui, { do: 'set key', cellId: cell.id, key: 'where', value: where.trim() === '' ? undefined : where.trim() }, [{ on: 'tell counts' }]),
  'add column': ({ ui, cell }, { key, formula }) => edits(ui, { do: 'add column', cellId: cell.id, key, formula }, [{ on: 'tell', sentence: `The column ${key} is added.` }]),
  'rows come': ({ ui }, { source }) => lookedAt(ui, source),
  'rows read so': ({ ui }, { answer }) => only(ui.rowsIn === undefined ? ui : { ...ui, rowsIn: answered(ui.rowsIn, answer) }),
  'take rows': taken,
  'leave rows': (now) => {
    const { ui, effects } = STEPS.go({ ...now, ui: { ...now.ui, rowsIn: undefined } }, { on: 'go', to: now.ui.at });
    return { ui, effects: [{ do: 'announce', sentence: 'The table stays as it is.' }, ...effects] };
  },
  tell: ({ ui }, { sentence }) => says(ui, sentence),
  'tell counts': ({ ui, look: { table } }, { before }) => says(ui, before === undefined ? table.counts : `${before} ${table.counts}.`),
  'tell picked': ({ ui, look: { picked, all } }) =>
    says(ui, picked === undefined ? `All ${all} rows are shown.` : picked.problem === undefined ? `${picked.rows.length} of ${all} rows are shown.` : problemSentence(picked.problem)),
  'tell row': ({ ui, look }, { row }) => {
    const shown = look.table.rows(row, row + 1)[0];
    const [first] = shown === undefined ? [] : [...shown.marks, ...shown.fields.flatMap(({ marks }) => marks)];
    if (shown === undefined || first === undefined) return only(ui);
    return says(ui, `Row ${shown.number}${shown.isLeftOut ? ' is left out' : ''}: ${problemSentence(first)}`);
  },
};

function only(ui: TableUi): TableStep {
  return { ui, effects: [] };
}

function says(ui: TableUi, sentence: string): TableStep {
  return { ui, effects: [{ do: 'announce', sentence }] };
}

function edits(ui: TableUi, command: EditCommand, after: readonly TableEvent[]): TableStep {
  return { ui, effects: [{ do: 'edit', command, after }] };
}

function gone(ui: TableUi, at: Place, rowCount: number): TableStep {
  const first = windowFor(at.row, ui.first, rowCount);
  const isThere = first === ui.first && at.row === ui.at.row && at.column === ui.at.column;
  return { ui: isThere ? ui : { ...ui, first, at }, effects: [{ do: 'arrive', at }] };
}

function picking(ui: TableUi, look: Look): TableUi {
  return { ...ui, look, draft: undefined, form: undefined, first: 0, at: { row: 0, column: ui.at.column } };
}

function lookedAt(ui: TableUi, source: RowsIn): TableStep {
  const sentence = 'Nothing is changed yet: look at how the rows are read, below the table.';
  return { ui: { ...ui, rowsIn: source }, effects: [{ do: 'announce', sentence }, { do: 'to rows in' }] };
}

/** What is being typed is written down, where it says something else than what stands there. */
function written({ ui, cell, look }: TableNow): TableStep {
  const { draft } = ui;
  if (draft === undefined) return only(ui);
  const left = { ...ui, draft: undefined };
  if (draft.text === textAt(look, draft)) return only(left);
  const command = { do: 'set table cell', cellId: cell.id, row: look.rowOf(draft.row), column: typedOf(look, draft), text: draft.text } as const;
  // What could not be written down stays in its field.
  return { ui: left, effects: [{ do: 'edit', command, after: [{ on: 'tell row', row: draft.row }], back: { draft } }] };
}

function pressed(now: TableNow, { at, press, caret }: TableEvent<'key'>): TableStep {
  const { ui, look } = now;
  if (press.key === 'Escape' && ui.draft !== undefined) {
    return { ui: { ...ui, draft: undefined }, effects: [{ do: 'give back', text: textAt(look, at) }], isTaken: true };
  }
  const to = placeAfter(press, caret, at, shapeAt(now, at));
  if (to === undefined) return only(ui);
  const left = follows(written(now), to, at);
  if (to === 'out') return { ui: left.ui, effects: [...left.effects, { do: 'to next blank' }], isTaken: true };
  const [edit] = left.effects;
  // A row that an edit has just made is in the page only with the next picture.
  if (edit?.do === 'edit' && to.row > look.table.rowCount) {
    return { ui: left.ui, effects: [{ ...edit, after: [...edit.after, { on: 'go', to }] }], isTaken: true };
  }
  const { ui: there, effects } = STEPS.go({ ...now, ui: left.ui }, { on: 'go', to });
  return { ui: there, effects: [...left.effects, ...effects], isTaken: true };
}

/** A row's form goes along with the keys that are pressed in it. */
function follows(step: TableStep, to: Place | 'out', { row }: Place): TableStep {
  return to === 'out' || step.ui.form !== row ? step : { ...step, ui: { ...step.ui, form: to.row } };
}

function pasted({ ui, cell, look }: TableNow, { at, text }: TableEvent<'paste'>): TableStep {
  if (!isBlockOfFields(text) && !isLineOfFields(text)) return only(ui);
  if (look.isPicked) return { ...says(ui, 'Not pasted: show all rows as they lie first, so that it is seen where each line goes.'), isTaken: true };
  const source = rowsIn(text, { at: { row: at.row, column: typedOf(look, at) } });
  const { command, ...proposal } = proposeRowsIn(source, cell);
  if (command === undefined || !fitsAsItIs({ command, ...proposal })) return { ...lookedAt(ui, source), isTaken: true };
  return { ...edits({ ...ui, draft: undefined }, command, [{ on: 'tell counts', before: 'Pasted; the table has' }, { on: 'go', to: at }]), isTaken: true };
}

function taken({ ui, cell }: TableNow): TableStep {
  const { rowsIn: source } = ui;
  const proposal = source === undefined ? undefined : proposeRowsIn(source, cell);
  if (proposal?.command === undefined) return only(ui);
  const row = proposal.counts.replaced[0] ?? (proposal.how === 'replace all' ? 0 : proposal.counts.there);
  const after = [{ on: 'tell counts', before: 'The rows are in: the table has' }, { on: 'go to row', row, column: 0 }] as const;
  return { ui: { ...ui, rowsIn: undefined }, effects: [{ do: 'edit', command: proposal.command, after, back: { rowsIn: source } }] };
}

/** The row after the last is there to go on in, but not while only some rows are shown. */
function lastPlace({ table, isPicked }: TableLook): number {
  return Math.max(0, table.rowCount - (isPicked ? 1 : 0));
}

function shapeAt({ ui: { draft }, look }: TableNow, { row }: Place): TableShape {
  const { columns, rowCount } = look.table;
  const texts = columns.map(({ isDerived }, column) => (isDerived ? '' : draft?.row === row && draft.column === column ? draft.text : textAt(look, { row, column })));
  const holdsSomething = texts.some((text) => text.trim() !== '');
  // What is typed in the new row makes it one of the others, and another new one comes after it.
  const isBegun = !look.isPicked && row === rowCount && holdsSomething;
  return { lastRow: lastPlace(look) + (isBegun ? 1 : 0), editable: columns.map(({ isDerived }) => !isDerived), holdsSomething, endsWithNew: !look.isPicked };
}

/** What stands in a field as the document has it; nothing in the new row. */
function textAt({ table }: TableLook, { row, column }: Place): string {
  return table.rows(row, row + 1)[0]?.fields[column]?.text ?? '';
}

function firstTyped({ table }: TableLook): number {
  return table.columns.findIndex(({ isDerived }) => !isDerived);
}

function typedOf({ table }: TableLook, { column }: Place): string {
  return table.columns[column]?.typed ?? '';
}
