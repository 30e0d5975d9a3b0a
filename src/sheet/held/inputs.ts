import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import type { Origin } from '../cell-base.ts';
import { cellIn, cellsOf } from '../cells-of.ts';
import { applyEdit, type EditCommand } from '../edit.ts';
import { entering } from '../enter-text.ts';
import type { HeldInputs } from '../held-types.ts';
import { rowsText, sizeOfRows } from '../table/rows-text.ts';
import { setTrial, symbolOfTrial, trialOf, trialText } from '../trial.ts';
import type { GivenCell, SheetDocument, TableCell } from '../types.ts';
import { LONGEST_ROWS } from './read-held.ts';

/** What a sheet's blanks, trial values and choices say at present, as `enterText` would take it: what is held. */
export function inputsOf(document: SheetDocument): ReadonlyMap<string, string> {
  const inputs = new Map<string, string>();
  for (const block of document.blocks) {
    const [given, choice] = [cellIn(block, 'given'), cellIn(block, 'choice')];
    const target = given?.symbol ?? choice?.id ?? '';
    if (target === '' || inputs.has(target)) continue;
    inputs.set(target, given === undefined ? (choice?.chosen ?? '') : givenText(given));
    const trial = given === undefined ? undefined : trialText(given);
    if (trial !== undefined) inputs.set(trialOf(target), trial);
  }
  return inputs;
}

function givenText({ value, readings }: GivenCell): string {
  return readings === undefined ? (value ?? '') : `[${readings}]`;
}

/** Where what stands in blanks, choices and tables comes from, with the cell that says so, by symbol or id. */
function originsOf(document: SheetDocument): ReadonlyMap<string, { readonly cellId: string; readonly origin: Origin | undefined }> {
  return new Map([
    ...cellsOf(document, 'given').map((cell) => [cell.symbol, cell] as const), ...cellsOf(document, 'choice').map((cell) => [cell.id, cell] as const), ...cellsOf(document, 'table').map((cell) => [cell.id, cell] as const),
  ].map(([target, { id, origin }]) => [target, { cellId: id, origin }]));
}

/** Everything that a held state keeps of a sheet: blanks, choices, and the rows of tables that are not too long. */
export function heldInputsOf(document: SheetDocument): HeldInputs {
  return { inputs: inputsOf(document), origins: new Map([...originsOf(document)].flatMap(([target, { origin }]) => (origin === undefined ? [] : [[target, origin]]))), rows: new Map(cellsOf(document, 'table').flatMap((cell) => (isTooLong(cell) ? [] : [[cell.id, cell.rows]]))) };
}

/** What both sheets have; the other blanks and tables are none of this sheet's business. */
export function sharedInputs(other: SheetDocument, own: SheetDocument): HeldInputs {
  const { inputs, rows, origins } = heldInputsOf(other);
  const [blanks, tables] = [inputsOf(own), new Set(cellsOf(own, 'table').map(({ id }) => id))];
  return { inputs: new Map([...inputs].filter(([target]) => blanks.has(symbolOfTrial(target) ?? target))), rows: new Map([...(rows ?? [])].filter(([id]) => tables.has(id))), ...(origins === undefined ? {} : { origins }) };
}

/** Tables whose rows are too long to be held with a state. */
export function tablesNotHeld(document: SheetDocument): readonly TableCell[] {
  return cellsOf(document, 'table').filter(isTooLong);
}

/** Tables of another sheet that are too long to be held, where this one has other rows: a held state would tell this one's as theirs. */
export function tablesApart(other: SheetDocument, own: SheetDocument): readonly TableCell[] {
  const tables = new Map(cellsOf(own, 'table').map((cell) => [cell.id, cell]));
  return tablesNotHeld(other).filter((cell) => tables.has(cell.id) && tables.get(cell.id)?.rows !== cell.rows);
}

/** A long table's text is not put together to be measured. */
function isTooLong(cell: TableCell): boolean {
  return sizeOfRows(rowsText(cell)).length > LONGEST_ROWS;
}

export interface SheetWithInputs {
  readonly document: SheetDocument;
  /** Inputs that this sheet can't take (any more). They stay in the held state. */
  readonly problems: readonly Problem[];
}

/** The document with held inputs in its blanks, choices and tables; what is not held stays as it is. */
export function withInputs(document: SheetDocument, held: HeldInputs): SheetWithInputs {
  const { commands, problems } = entries(document, held);
  let result = document;
  const refused: Problem[] = [...problems];
  for (const command of commands) {
    const next = applyEdit(result, command);
    if (next.ok) result = next.value;
    else refused.push(next.problem);
  }
  return { document: result, problems: refused };
}

/** One undoable step that puts the held inputs back. */
export function goBackTo(document: SheetDocument, held: HeldInputs): EditCommand {
  return { do: 'together', commands: entries(document, held).commands };
}

interface Entries {
  readonly commands: readonly EditCommand[];
  readonly problems: readonly Problem[];
}

/** The edits that make the difference: what stands there already is not written anew. */
function entries(document: SheetDocument, held: HeldInputs): Entries {
  const { inputs, rows } = held;
  const present = inputsOf(document);
  const isTrial = ([target]: readonly [string, string]): boolean => symbolOfTrial(target) !== undefined;
  const wanted = [...inputs].filter((input) => !isTrial(input) && present.get(input[0]) !== input[1]);
  // After the blanks: what is entered there takes the trial value away.
  const trials = [...inputs].filter((input) => isTrial(input) && (present.get(input[0]) !== input[1] || wanted.some(([target]) => trialOf(target) === input[0])));
  const tables = cellsOf(document, 'table');
  const read: readonly Result<EditCommand>[] = [
    ...wanted.map(([target, text]) => emptied(document, target, text) ?? entering(document, target, text)),
    ...trials.map(([target, text]) => entering(document, target, text)),
    ...trialsGone(document, inputs),
    ...[...(rows ?? [])].flatMap(([id, text]) => replacing(tables.find((cell) => cell.id === id), id, text)),
  ];
  return {
    // Behind the entries, each of which makes what it changes the reader's own.
    commands: [...read.flatMap((one) => (one.ok ? [one.value] : [])), ...originsBack(document, held)],
    problems: read.flatMap((one) => (one.ok ? [] : [one.problem])),
  };
}

/** What was held as assumed or as the example's is so again; what was the reader's own is that. */
function originsBack(document: SheetDocument, { inputs, rows, origins }: HeldInputs): readonly EditCommand[] {
  if (origins === undefined) return [];
  return [...originsOf(document)].flatMap(([target, { cellId, origin }]) => {
    if (!inputs.has(target) && rows?.has(target) !== true) return [];
    const held = origins.get(target);
    return held === undefined && origin === undefined ? [] : [{ do: 'set keys' as const, cellId, values: new Map([['origin', held]]) }];
  });
}

/** An empty blank has no key at all. */
function emptied(document: SheetDocument, target: string, text: string): Result<EditCommand> | undefined {
  if (text !== '') return undefined;
  const block = document.blocks.find((one) => cellIn(one, 'given')?.symbol === target);
  return block === undefined ? undefined : ok({ do: 'set keys', cellId: block.id, values: new Map([['readings', undefined], ['value', undefined], ['trial', undefined]]) });
}

/** A blank that is held without a trial value has none. */
function trialsGone(document: SheetDocument, inputs: ReadonlyMap<string, string>): readonly Result<EditCommand>[] {
  return document.blocks.flatMap((block) => {
    const cell = cellIn(block, 'given');
    if (cell === undefined || trialText(cell) === undefined) return [];
    return inputs.has(cell.symbol) && !inputs.has(trialOf(cell.symbol)) ? [ok(setTrial(block.id, undefined))] : [];
  });
}

/** Rows that stand there already are not written anew. */
function replacing(cell: TableCell | undefined, id: string, text: string): readonly Result<EditCommand>[] {
  if (cell === undefined) return [fail({ code: 'table-gone', what: `No table of this sheet is called ${id}.`, mend: 'Its rows are not compared.' })];
  const isSame = (isTooLong(cell) ? undefined : cell.rows.trimEnd()) === text.trimEnd();
  return isSame ? [] : [ok({ do: 'replace rows', cellId: id, text })];
}
