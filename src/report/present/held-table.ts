import { cellIn, inputsOf, symbolOfTrial, trialOf, trialText, writeOutgoing } from '../../sheet/index.ts';
import type { HeldState, SheetDocument } from '../../sheet/types.ts';
import { wholeOf } from './asked.ts';
import { chiefResults } from './chief-results.ts';
import { heldContext, referenceOf, type HeldContext } from './held.ts';
import { rowsOfTables } from './held-rows.ts';
import { isSymbolHidden, withheldWords } from './hidden.ts';
import { definingCell, findCell } from './lookup.ts';
import { presentSymbol } from './result.ts';
import { shiftFrom } from './shift.ts';
import type { HeldColumn, HeldRow, PresentedHeldTable } from './held-types.ts';
import { isMovedBySlips, SLIP_MARK } from './slips.ts';
import type { PresentContext } from './types.ts';

/** More results than these are told in the sheet itself. */
export const MOST_CHIEF_RESULTS = 12;
const PRESENT = 'Now';

/** Undefined where nothing is held. */
export function presentHeldTable(context: PresentContext): PresentedHeldTable | undefined {
  const { held } = context.document.frontMatter;
  if (held.length === 0) return undefined;
  const reference = referenceOf(context.document);
  const contexts = held.map((state) => heldContext(state, context));
  const compared = contexts.find((one) => one.held === reference);
  const all: readonly PresentContext[] = [context, ...contexts];
  return {
    columns: [{ name: PRESENT, isPresent: true, isReference: false }, ...held.map((state) => columnOf(state, reference))],
    inputs: [...differing(context.document, contexts).map((symbol) => inputRow(symbol, all, compared)), ...rowsOfTables(held, all)],
    results: chiefResults(context.document, wholeOf(context).states, MOST_CHIEF_RESULTS).map((symbol) => ({
      symbol, label: labelOf(symbol, context), isQuantity: true, cells: all.map((one) => resultCell(symbol, one, compared)),
    })),
  };
}

function columnOf({ name, at }: HeldState, reference: HeldState | undefined): HeldColumn {
  return { name, isPresent: false, isReference: name === reference?.name, ...(at === undefined ? {} : { at: timeText(at) }) };
}

/** `2026-11-25 15:30`, as it was on the clock there; what is no such time as it is written. */
function timeText(at: string): string {
  const [, day, time] = /^(\d{4}-\d\d-\d\d)T(\d\d:\d\d)/.exec(at) ?? [];
  return day === undefined || time === undefined ? at : `${day} ${time}`;
}

/** Inputs that are not the same text everywhere, in the order of the sheet. */
function differing(document: SheetDocument, contexts: readonly HeldContext[]): readonly string[] {
  const others = contexts.map((one) => inputsOf(one.document));
  const own = inputsOf(document);
  const all = new Set([own, ...others].flatMap((inputs) => [...inputs.keys()].map((target) => symbolOfTrial(target) ?? target)));
  const same = (target: string): boolean => others.every((inputs) => inputs.get(target) === own.get(target));
  return [...all].filter((target) => own.has(target) && !(same(target) && same(trialOf(target))));
}

function inputRow(target: string, all: readonly PresentContext[], compared: HeldContext | undefined): HeldRow {
  const [context] = all;
  const choice = context && cellIn(findCell(context.document, target), 'choice');
  if (context === undefined || choice !== undefined) {
    const label = choice?.label ?? target;
    return { symbol: target, label, isQuantity: false, cells: all.map((one) => ({ text: chosenText(target, one) })) };
  }
  return { symbol: target, label: labelOf(target, context), isQuantity: true, cells: all.map((one) => resultCell(target, one, compared)) };
}

function chosenText(target: string, { document }: PresentContext): string {
  const cell = cellIn(findCell(document, target), 'choice');
  if (cell === undefined) return '';
  return cell.options.find(({ key }) => key === cell.chosen)?.label ?? cell.chosen;
}

function resultCell(symbol: string, context: PresentContext, compared: HeldContext | undefined): HeldRow['cells'][number] {
  if (isSymbolHidden(symbol, context)) return { text: withheldWords(context.states.definedBy(symbol) ?? '', context) };
  const result = presentSymbol(symbol, context);
  if (result === undefined || result.kind === 'problem') return { text: 'no value' };
  const given = cellIn(definingCell(symbol, context), 'given');
  const tried = given !== undefined && trialText(given) !== undefined ? `${result.text} (trial value)` : result.text;
  const text = isMovedBySlips(symbol, context) ? `${tried} ${SLIP_MARK}` : tried;
  const shift = compared === undefined || compared.document === context.document ? undefined : shiftFrom(compared, symbol, context);
  return shift === undefined ? { text } : { text, shift };
}

function labelOf(symbol: string, context: PresentContext): string {
  return definingCell(symbol, context)?.cell.label ?? symbol;
}

/** The table as delimited text (RFC 4180): one line a quantity, its value in each state and how far that is from the reference. */
export function heldTableCsv(context: PresentContext): string {
  const table = presentHeldTable(context);
  if (table === undefined) return '';
  const reference = table.columns.find(({ isReference }) => isReference);
  const heads = table.columns.flatMap(({ name, isReference }) => (reference === undefined || isReference ? [name] : [name, `${name} from ${reference.name}`]));
  const line = ({ symbol, label, cells }: HeldRow): readonly string[] => [label, symbol, ...cells.flatMap(({ text, shift }, i) =>
    (reference === undefined || table.columns[i]?.isReference === true ? [text] : [text, shift?.text ?? '']))];
  return [['Quantity', 'Symbol', ...heads], ...[...table.inputs, ...table.results].map(line)].map((fields) => `${writeOutgoing(fields, ',')}\r\n`).join('');
}
