import { composed, isolated } from '../../core/problem/index.ts';
import { remembered } from '../../core/remembered/index.ts';
import { asRead, holdsReadings, type SheetStates } from '../../graph/index.ts';
import { cellsOf, trialText } from '../../sheet/index.ts';
import type { GivenCell, SheetDocument } from '../../sheet/types.ts';
import { withUnit } from './number.ts';
import { presentResult } from './result.ts';
import { asked } from './asked.ts';
import type { PresentContext, PresentedTrial, WholeContext } from './types.ts';

/** In the names of files, and at the head of a column that says so in every row. */
export const TRIALS_IN_NAME = 'trial values';
export const TRIALS_HEAD = 'trial values, not what was measured';

/** The trial value of a given; undefined where none stands. */
export function presentTrial(cell: GivenCell, context: PresentContext): PresentedTrial | undefined {
  const typed = trialText(cell);
  if (typed === undefined) return undefined;
  const state = context.states.cell(cell.id);
  const read = state?.results?.get(asRead(cell.symbol)) ?? state?.result;
  const result = read === undefined ? undefined : presentResult(read, context.system, { ownUnit: true });
  const uncertainty = result?.kind === 'value' && result.uncertainty !== undefined ? withUnit(result.uncertainty, result.unit) : undefined;
  return { cellId: cell.id, symbol: cell.symbol, where: isolated(cell.label ?? cell.symbol), typed, stays: staying(cell, context), ...(uncertainty === undefined ? {} : { uncertainty }) };
}

function staying(cell: GivenCell, { states }: PresentContext): PresentedTrial['stays'] {
  if (holdsReadings(cell)) return 'your readings';
  if ((cell.value ?? '').trim() === '') return states.cell(cell.id)?.reading?.filledBy === undefined ? 'nothing' : 'the value filled in';
  return 'the value typed';
}

/** Every trial value of the sheet, in its order. */
export function presentTrials(context: PresentContext): readonly PresentedTrial[] {
  return cellsOf(context.document, 'given').flatMap((cell) => presentTrial(cell, context) ?? []);
}

/** `One trial value stands in place of what was measured`, for headings. */
export function trialHeading(trials: readonly PresentedTrial[]): string {
  return trials.length === 1 ? 'A trial value stands in place of what was measured' : `${trials.length} trial values stand in place of what was measured`;
}

/** One sentence that names the trial values, for the head of files; undefined where there is none. */
export function trialSentence(context: PresentContext): string | undefined {
  const trials = presentTrials(context);
  if (trials.length === 0) return undefined;
  return `${trialHeading(trials)} (${trials.map(({ where, symbol, typed }) => composed`${where}: ${symbol} = ${typed}`).join('; ')}). The readings are kept beside; what follows is not of what was measured.`;
}

/** Whether a cell hangs on a trial value. */
export function restsOnTrial(cellId: string, context: PresentContext): boolean {
  return asked(context, restsOn, cellId);
}

function restsOn({ document, states }: WholeContext, cellId: string): boolean {
  const tried = givensTried(document);
  return tried.length > 0 && cellsBehind(tried, document, states).has(cellId);
}

/** Ids of the givens with a trial value; asked of every line of the sheet, so each document is looked through once. */
const givensTried = remembered((document: SheetDocument): readonly string[] =>
  cellsOf(document, 'given').flatMap((cell) => (trialText(cell) === undefined ? [] : [cell.id])));

const found = new WeakMap<SheetStates, { readonly of: SheetDocument; readonly cells: ReadonlySet<string> }>();

/** These cells and all that read them, near and far; kept for as long as the sheet does not move. */
function cellsBehind(first: readonly string[], document: SheetDocument, states: SheetStates): ReadonlySet<string> {
  const known = found.get(states);
  if (known?.of === document) return known.cells;
  const readers = new Map<string, string[]>();
  for (const { id } of document.blocks) {
    for (const symbol of states.cell(id)?.reads ?? []) {
      const read = states.definedBy(symbol);
      if (read !== undefined) push(readers, read, id);
    }
  }
  const cells = new Set(first);
  for (const id of cells) for (const reader of readers.get(id) ?? []) cells.add(reader);
  found.set(states, { of: document, cells });
  return cells;
}

function push(lists: Map<string, string[]>, key: string, item: string): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [item]);
  else list.push(item);
}
