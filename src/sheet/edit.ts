import { fail, ok } from '../core/problem/index.ts';
import type { Result } from '../core/problem/index.ts';
import { acceptText } from './accept-text.ts';
import { addOption } from './add-option.ts';
import type { NewOption } from './add-option.ts';
import { arrange } from './edit-arrange.ts';
import type { ArrangeCommand } from './edit-arrange.ts';
import { longestBody } from './cell-draft.ts';
import { cellIn } from './cells-of.ts';
import { goneProblem, keyEmptyProblem, openFence, optionGoneProblem, tooLongProblem } from './edit-problems.ts';
import { withBody } from './fence.ts';
import { LONGEST_FRONT_MATTER } from './front-matter.ts';
import { editHeld } from './held/edit-held.ts';
import type { HeldCommand } from './held/edit-held.ts';
import { keysOf } from './keys.ts';
import { adoptLineEnds, endsLine, lineEndOf, splitLines } from './text-lines.ts';
import { changeAround, lastTextBlock, lastTextKey, withLastText } from './last-text.ts';
import { LONGEST_DOCUMENT, parseAgain, serialiseSheet } from './parse.ts';
import { replaceCell, replaceRows } from './replace-block.ts';
import { asOwn, HEAD_FROM_EXAMPLE, headFromExample } from './origin.ts';
import { renamedSymbol } from './rename/rename-symbol.ts';
import { appendItem, removeItem, setInItem } from './list-items.ts';
import { setEntries } from './set-entries.ts';
import type { Entries } from './set-entries.ts';
import { setKey } from './set-entry.ts';
import { setInGroup } from './set-in-group.ts';
import { splitText } from './split.ts';
import { addColumn } from './table/add-column.ts';
import { editRows } from './table/edit-rows.ts';
import type { TableCommand } from './table/edit-rows.ts';
import { groupsBehind } from './table/groups.ts';
import { notATable } from './table/row-problems.ts';
import { rowsText, textOfRows } from './table/rows-text.ts';
import { setDone } from './tick-item.ts';
import type { Block, CellBlock, SheetDocument } from './types.ts';

/** A change of a document as data. What is not spoken of stays byte for byte. */
export type EditCommand =
  /** Sets a key of a cell to a text, or takes it out where `value` is undefined. '' leaves the key without a value. */
  | { readonly do: 'set key'; readonly cellId: string; readonly key: string; readonly value: string | undefined }
  /** Several keys of one cell at once, in one step. */
  | { readonly do: 'set keys'; readonly cellId: string; readonly values: ReadonlyMap<string, string | undefined> }
  /** Sets an entry of a group under a key of a cell (a coefficient under `correlated`), or takes it out. */
  | { readonly do: 'set in group'; readonly cellId: string; readonly group: string; readonly key: string; readonly value: string | undefined }
  /** Adds a column to a table that a formula gives for each row: `lg_N` by `log10(N)`. */
  | { readonly do: 'add column'; readonly cellId: string; readonly key: string; readonly formula: string }
  /** A whole group (what was stored of a line), or a whole list of groups, under a key of a cell; taken out where it is empty. */
  | { readonly do: 'set entries'; readonly cellId: string; readonly key: string; readonly entries: Entries }
  /** One text of an item in a list of groups (a column, an option), set or taken out; an item more at the end; one less. Items are counted from 0. */
  | { readonly do: 'set in item'; readonly cellId: string; readonly list: string; readonly item: number; readonly key: string; readonly value: string | undefined }
  | { readonly do: 'add item'; readonly cellId: string; readonly list: string; readonly entries: ReadonlyMap<string, string> }
  | { readonly do: 'remove item'; readonly cellId: string; readonly list: string; readonly item: number }
  /** Ticks an item of a checklist at a time (ISO 8601 with offset), or opens it again. Items are counted from 0. */
  | { readonly do: 'tick'; readonly cellId: string; readonly item: number; readonly time: string | undefined }
  /** Chooses an option of a choice by its key. */
  | { readonly do: 'choose'; readonly cellId: string; readonly option: string }
  /** Puts an option at the end of a choice's list. */
  | { readonly do: 'add option'; readonly cellId: string; readonly option: NewOption }
  /** Another text between a cell's fences. */
  | { readonly do: 'set body'; readonly cellId: string; readonly body: string }
  /** Another text for a block, which may become several blocks or, where the text is empty, none. */
  | { readonly do: 'set source'; readonly blockId: string; readonly source: string }
  /** Another name for a symbol, wherever that stands for it. */
  | { readonly do: 'rename symbol'; readonly from: string; readonly to: string }
  | ArrangeCommand
  | TableCommand
  /** Sets an entry of the front matter, which is made where there is none, or takes it out. */
  | { readonly do: 'set front matter'; readonly key: string; readonly value: string | undefined }
  | HeldCommand
  /** Another text for the whole document: an earlier state of it. */
  | { readonly do: 'set document'; readonly text: string }
  /** Several commands as one step: all or none. */
  | { readonly do: 'together'; readonly commands: readonly EditCommand[] };

/**
 * The document after a command, or the problem that keeps it as it was. A command that changes no byte gives back the
 * same document.
 */
export function applyEdit(document: SheetDocument, command: EditCommand): Result<SheetDocument> {
  if (command.do === 'together') {
    return command.commands.reduce<Result<SheetDocument>>(
      (result, next) => (result.ok ? applyEdit(result.value, next) : result),
      ok(document),
    );
  }
  return change(document, command);
}

function readIfChanged(document: SheetDocument, changed: Result<string>): Result<SheetDocument> {
  if (!changed.ok) return changed;
  const text = changed.value;
  if (text === serialiseSheet(document)) return ok(document);
  if (text.length > LONGEST_DOCUMENT) return fail(tooLongProblem('document', LONGEST_DOCUMENT));
  return ok(parseAgain(text, document));
}

type SingleCommand = Exclude<EditCommand, { do: 'together' }>;

function change(document: SheetDocument, command: SingleCommand): Result<SheetDocument> {
  switch (command.do) {
    case 'set key':
      return changeBody(document, command.cellId, (block, lineEnd) =>
        setKeys(block, new Map([[command.key, command.value]]), lineEnd),
      );
    case 'set keys':
      return changeBody(document, command.cellId, (block, lineEnd) => setKeys(block, command.values, lineEnd));
    case 'set in group':
      return changeBody(document, command.cellId, ({ body, cellKind }, lineEnd) =>
        command.key === ''
          ? fail(keyEmptyProblem())
          : setInGroup(body, keysOf(cellKind), command, command.value, lineEnd),
      );
    case 'add column':
      return changeBody(document, command.cellId, (block, lineEnd) => {
        const { body } = block;
        const cell = cellIn(block, 'table');
        if (cell === undefined) return fail(notATable());
        const add = (text: string): Result<string> => addColumn(text, cell, command.key, command.formula, lineEnd);
        return changeAround(body, 'rows', add) ?? add(body);
      });
    case 'set entries':
      return changeBody(document, command.cellId, ({ body, cellKind }, lineEnd) =>
        setEntries(body, keysOf(cellKind), command.key, command.entries, lineEnd),
      );
    case 'set in item':
    case 'add item':
    case 'remove item':
      return changeBody(document, command.cellId, ({ body, cellKind }, lineEnd) => {
        const change = (text: string): Result<string> => editItem(text, command, lineEnd);
        const last = lastTextKey(cellKind);
        return (last === undefined ? undefined : changeAround(body, last, change)) ?? change(body);
      });
    case 'tick':
      return changeBody(document, command.cellId, ({ body }, lineEnd) =>
        setDone(body, command.item, command.time, lineEnd),
      );
    case 'choose':
      return changeBody(document, command.cellId, (block, lineEnd) => choose(block, command.option, lineEnd, document));
    case 'add option':
      return changeBody(document, command.cellId, ({ body }, lineEnd) => addOption(body, command.option, lineEnd));
    case 'set body':
      return changeBody(document, command.cellId, ({ body }, lineEnd) => ok(adoptLineEnds(body, command.body, lineEnd)));
    case 'set source':
      return readIfChanged(document, setSource(document, command.blockId, command.source));
    case 'rename symbol':
      return readIfChanged(document, renamedSymbol(document, command.from, command.to));
    case 'set document':
      return readIfChanged(document, acceptText(command.text));
    case 'set front matter':
      return readIfChanged(document, setFrontMatter(document, command.key, command.value));
    case 'hold':
    case 'rename held':
    case 'drop held':
      return readIfChanged(document, changeFrontMatter(document, (body, lineEnd) => editHeld(body, command, lineEnd)));
    case 'set table cell':
    case 'insert rows':
    case 'delete rows':
    case 'move rows':
    case 'order rows':
    case 'paste cells':
    case 'replace rows':
    case 'bring rows':
      return changeRows(document, command);
    default:
      return readIfChanged(document, arrange(document, command));
  }
}

function findCell(document: SheetDocument, id: string): CellBlock | undefined {
  return document.blocks.find((block): block is CellBlock => block.kind === 'cell' && block.id === id);
}

function replaceSource(document: SheetDocument, block: Block, source: string): string {
  const sources = document.blocks.map((other) => (other === block ? source : other.source));
  return document.frontMatter.source + sources.join('');
}

function changeBody(
  document: SheetDocument,
  cellId: string,
  change: (block: CellBlock, lineEnd: string) => Result<string>,
): Result<SheetDocument> {
  const block = findCell(document, cellId);
  if (block === undefined) return fail(goneProblem(cellId));
  const body = change(block, lineEndOf(block.source));
  if (!body.ok) return fail({ ...body.problem, cell: cellId });
  const longest = longestBody(block.cellKind);
  if (body.value.length > longest) return fail({ ...tooLongProblem('cell', longest), cell: cellId });
  const source = withBody(block, body.value);
  if (source === block.source) return ok(document);
  const read = replaceCell(document, block, source);
  return read === undefined ? readIfChanged(document, ok(replaceSource(document, block, source))) : ok(read);
}

function setKeys(block: CellBlock, values: ReadonlyMap<string, string | undefined>, lineEnd: string): Result<string> {
  let body = block.body;
  for (const [key, value] of asOwn(block.cell, values)) {
    if (key === '') return fail(keyEmptyProblem());
    const change = (text: string): Result<string> => setKey(text, keysOf(block.cellKind), key, value, lineEnd);
    const next = aroundLastText(body, block.cellKind, key, value, change) ?? change(body);
    if (!next.ok) return next;
    body = next.value;
  }
  return ok(body);
}

/** The same with a long text at the end kept out of the YAML reader; undefined where that is not possible. */
function aroundLastText(
  body: string, cellKind: string, key: string, value: string | undefined, change: (text: string) => Result<string>,
): Result<string> | undefined {
  const last = lastTextKey(cellKind);
  if (last === undefined || key !== last) return last === undefined ? undefined : changeAround(body, last, change);
  const block = value === undefined || value === '' ? undefined : lastTextBlock(body, last);
  const changed = block === undefined || value === undefined ? undefined : withLastText(block, value);
  return changed === undefined ? undefined : ok(changed);
}

function choose(block: CellBlock, option: string, lineEnd: string, document: SheetDocument): Result<string> {
  const cell = cellIn(block, 'choice');
  const isThere = cell !== undefined && (cell.options.some(({ key }) => key === option) || groupsBehind(document, cell.id).includes(option));
  if (!isThere) return fail(optionGoneProblem(option));
  return setKeys(block, new Map([['chosen', option]]), lineEnd);
}

/** Rows of an example make the table an example's as long as one of them is left. */
function changeRows(document: SheetDocument, command: TableCommand): Result<SheetDocument> {
  const before = cellIn(findCell(document, command.cellId), 'table');
  const changed = changeRowsOnly(document, command);
  const after = changed.ok ? cellIn(findCell(changed.value, command.cellId), 'table') : undefined;
  if (!changed.ok || before === undefined || after === undefined || before === after || before.origin === undefined) return changed;
  const earlier = new Set(rowsText(before).rows.map(({ text }) => text.trim()));
  if (rowsText(after).rows.some(({ text }) => earlier.has(text.trim()))) return changed;
  return change(changed.value, { do: 'set key', cellId: command.cellId, key: 'origin', value: undefined });
}

function changeRowsOnly(document: SheetDocument, command: TableCommand): Result<SheetDocument> {
  const block = findCell(document, command.cellId);
  if (block === undefined) return fail(goneProblem(command.cellId));
  const cell = cellIn(block, 'table');
  if (cell === undefined) return fail({ ...notATable(), cell: block.id });
  const rows = editRows(cell, command);
  if (!rows.ok) return fail({ ...rows.problem, cell: block.id });
  if (rows.value === rowsText(cell)) return ok(document);
  const read = replaceRows(document, block, rows.value, longestBody('table'));
  if (read !== undefined) return ok(read);
  const text = textOfRows(rows.value);
  return changeBody(document, block.id, ({ body }, lineEnd) => {
    const lines = lastTextBlock(body, 'rows');
    const changed = lines === undefined ? undefined : withLastText(lines, text);
    return changed === undefined ? setKey(body, keysOf('table'), 'rows', text, lineEnd) : ok(changed);
  });
}

type ItemCommand = Extract<EditCommand, { do: 'set in item' | 'add item' | 'remove item' }>;

function editItem(body: string, command: ItemCommand, lineEnd: string): Result<string> {
  if (command.do === 'add item') return appendItem(body, command.list, command.entries, lineEnd);
  if (command.do === 'remove item') return removeItem(body, command.list, command.item, lineEnd);
  return setInItem(body, command.list, { index: command.item, inner: command.key }, command.value, lineEnd);
}

function setSource(document: SheetDocument, blockId: string, source: string): Result<string> {
  const block = document.blocks.find(({ id }) => id === blockId);
  if (block === undefined) return fail(goneProblem(blockId));
  const open = openFence(source);
  if (open !== undefined) return fail(open);
  const lineEnd = lineEndOf(serialiseSheet(document));
  const adopted = adoptLineEnds(block.source, source, lineEnd);
  const isLast = block === document.blocks.at(-1);
  return ok(replaceSource(document, block, isLast || endsLine(adopted) ? adopted : adopted + lineEnd));
}

function setFrontMatter(document: SheetDocument, key: string, value: string | undefined): Result<string> {
  if (key === '') return fail(keyEmptyProblem());
  const { entries } = document.frontMatter;
  const invented = entries.get(key) === value ? [] : headFromExample(entries);
  const isKept = !invented.includes(key);
  const left = invented.filter((one) => one !== key).join(', ');
  return changeFrontMatter(document, (body, lineEnd) => {
    const set = setKey(body, [], key, value, lineEnd);
    return isKept || !set.ok ? set : setKey(set.value, [], HEAD_FROM_EXAMPLE, left === '' ? undefined : left, lineEnd);
  });
}

/** The document's text with another front matter, which is made where there is none and something is to stand in it. */
function changeFrontMatter(document: SheetDocument, change: (body: string, lineEnd: string) => Result<string>): Result<string> {
  const { source } = document.frontMatter;
  const rest = document.blocks.map((block) => block.source).join('');
  const lineEnd = lineEndOf(serialiseSheet(document));
  const { body } = splitText(source).frontMatter;
  const changed = change(body ?? '', lineEnd);
  if (!changed.ok) return changed;
  if (changed.value.length > LONGEST_FRONT_MATTER && changed.value.length > (body ?? '').length) return fail(tooLongProblem('head of the document', LONGEST_FRONT_MATTER));
  if (body === undefined) return ok(changed.value === '' ? source + rest : `${source}---${lineEnd}${changed.value}---${lineEnd}${rest}`);
  const lines = splitLines(source);
  return ok((lines[0] ?? '') + changed.value + (lines.at(-1) ?? '') + rest);
}
