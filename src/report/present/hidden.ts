import { rightStates } from '../../graph/index.ts';
import type { SheetStates } from '../../graph/types.ts';
import { asKind, asksForStep, isOwnWorking } from '../../sheet/index.ts';
import type { Cell, SheetDocument, StepCell } from '../../sheet/types.ts';
import { findCell, givenBehind } from './lookup.ts';
import { asked } from './asked.ts';
import { standingOf, standingsOf } from './standing-of.ts';
import type { PresentContext, WholeContext } from './types.ts';

/** Whether the reader is asked for a step's result. */
export function isAsked(step: StepCell, context: PresentContext): boolean {
  return step.asked ?? asked(context, asksAll, undefined);
}

const asksAll = ({ document }: WholeContext) => isOwnWorking(document);

interface Hiding {
  readonly document: SheetDocument;
  readonly told: ReadonlySet<string>;
  readonly cells: ReadonlySet<string>;
}

/** Worked out once for one state of the sheet. */
const hidings = new WeakMap<SheetStates, Hiding>();

/**
 * Whether a cell keeps its result to itself: an asked step that has not been told beside the reader's own; and whatever rests on such a
 * step and is not asked itself (a step, a check). Drawings and prose ask symbol by symbol.
 */
export function isHidden(cellId: string, context: PresentContext): boolean {
  return asked(context, hidesCell, cellId);
}

const hidesCell = (whole: WholeContext, cellId: string) => whole.reveal !== true && (awaitsGuess(cellId, whole) || hiddenCells(whole).has(cellId));

/** Whether the reader's own working comes before a step's result, and is not done with; also where a lecture has told it since. */
export function isToBeWorked(step: StepCell, context: PresentContext): boolean {
  return isAsked(step, context) && standingOf(step.id, context)?.isTold !== true;
}

/** Whether a class guesses. */
export function isGuessing(context: PresentContext): boolean {
  return asked(context, guesses, undefined);
}

const guesses = ({ guess }: WholeContext) => guess !== undefined;

/** Whether a cell holds its result back while the class guesses. What only names a given is none: `l_1 = s_1`. */
export function awaitsGuess(cellId: string, context: PresentContext): boolean {
  return asked(context, holdsBack, cellId);
}

function holdsBack(context: WholeContext, cellId: string): boolean {
  if (context.guess === undefined || context.guess.shown.has(cellId)) return false;
  const cell = findCell(context.document, cellId)?.cell;
  const step = asKind(cell, 'step');
  return cell !== undefined && TELLS_RESULTS[cell.kind] && (step === undefined || givenBehind(step.symbol, context) === undefined);
}

/** Kinds that tell what came out. */
const TELLS_RESULTS: Readonly<Record<Cell['kind'], boolean>> = {
  given: false, choice: false, step: true, check: true, table: true, fit: true, figure: true, checklist: false, photo: false, question: false, remark: false, record: true, aside: false, end: false, unknown: false,
};

/** What stands in the place of a hidden result. */
export function withheldWords(cellId: string, context: PresentContext): string {
  return awaitsGuess(cellId, context) ? 'held back for a guess' : 'after your own working';
}

/** The same for a symbol, as prose and number lines show it. */
export function isSymbolHidden(symbol: string, context: PresentContext): boolean {
  return asked(context, hidesSymbol, symbol);
}

function hidesSymbol(whole: WholeContext, symbol: string): boolean {
  const cellId = whole.states.definedBy(symbol);
  return cellId !== undefined && hidesCell(whole, cellId);
}

const NOTHING_TOLD: ReadonlySet<string> = new Set();
const NOTHING_HIDDEN: ReadonlySet<string> = new Set();

function hiddenCells(whole: WholeContext): ReadonlySet<string> {
  const { document, states, told = NOTHING_TOLD } = whole;
  const known = hidings.get(states);
  if (known?.document === document && known.told === told) return known.cells;
  const cells = findHidden(whole, told);
  hidings.set(states, { document, told, cells });
  return cells;
}

/** Spreads from the steps not yet told to their readers; one that is told, also in a lecture, is shown, but what it rests on taints on. */
function findHidden(whole: WholeContext, told: ReadonlySet<string>): ReadonlySet<string> {
  const { document, states } = whole;
  const standing = standingsOf(whole);
  if (standing.size === 0) return NOTHING_HIDDEN;
  // What a slip no longer reads is not given away by switching it on.
  const right = rightStates(document, states);
  const readers = new Map<string, string[]>();
  const answered = new Set<string>();
  const tainted: string[] = [];
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    // A drawing stays and withholds single figures; its lengths give none away.
    if (asKind(cell, 'figure') !== undefined) continue;
    for (const symbol of [...(states.cell(block.id)?.reads ?? []), ...(right === states ? [] : (right.cell(block.id)?.reads ?? []))]) {
      const source = states.definedBy(symbol);
      if (source === undefined) continue;
      const known = readers.get(source);
      if (known === undefined) readers.set(source, [block.id]);
      else known.push(block.id);
    }
    const step = asKind(cell, 'step');
    if (step === undefined || !asksForStep(step, document)) continue;
    if (told.has(block.id) || standing.get(block.id)?.isTold === true) answered.add(block.id);
    else tainted.push(block.id);
  }
  const reached = new Set(tainted);
  for (let next = tainted.pop(); next !== undefined; next = tainted.pop()) {
    for (const reader of readers.get(next) ?? []) {
      if (reached.has(reader)) continue;
      reached.add(reader);
      tainted.push(reader);
    }
  }
  for (const cellId of answered) reached.delete(cellId);
  return reached;
}
