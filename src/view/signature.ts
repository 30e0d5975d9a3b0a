import {
  definingCell, isHeldBack, isSymbolHidden, isTouchedBySlips, liveParts, numberSheet, presentRowsThen, presentShift, presentSlipMark, presentTurned, referenceContext,
  type PresentContext,
} from '../report/index.ts';
import { isMissing } from '../graph/index.ts';
import { groupsBehind, type Block, type Cell } from '../sheet/index.ts';
import type { CellUi, Desk } from './desk.ts';
import { lightSignature } from './lighting.ts';

/** Everything that a block's picture depends on; while all of it is the same, the block is not drawn again. */
export type Signature = readonly unknown[];

export function signatureOf(block: Block, ui: CellUi, desk: Desk): Signature {
  const context = desk.context();
  const { states, system, document } = context;
  const state = states.cell(block.id);
  const numbers = numberSheet(document);
  const common = [block, ui.version, system, state, ui.refused, lightSignature(block.id, desk), isHeldBack(block.id, context), ...slipMarks(block, context)];
  const read = symbolsShown(block, context).flatMap((symbol) => [states.symbol(symbol), isSymbolHidden(symbol, context), definingCell(symbol, context)?.cell.label]);
  if (block.kind === 'prose') return [...common, (numbers.sections.get(block.id) ?? []).join(), ...read];
  const own = state?.symbol === undefined
    ? []
    : [desk.moved(state.symbol)?.text, desk.moved(state.symbol)?.direction, isSymbolHidden(state.symbol, context)];
  const published = [...(state?.results?.keys() ?? [])].flatMap((symbol) => [desk.moved(symbol)?.text, desk.moved(symbol)?.direction]);
  const elsewhere = looksElsewhere(block, ui) ? [states, document] : [];
  return [...common, ...elsewhere, numbers.equations.get(block.id), numbers.insideSection.has(block.id), ...own, ...published, ...read, ...againstReference(block, context), ...neighbours(block, desk)];
}

/** A sweep hangs on everything behind its results, conditions too; a chain back to the inputs and a budget call what they name as its own line does. */
function looksElsewhere(block: Block, { open }: CellUi): boolean {
  return open.has('against') || open.has('work back') || open.has('derivation') || open.has('budget') || (block.kind === 'cell' && block.cell.kind === 'figure' && block.cell.drawing === 'sweep');
}

export function sameSignature(a: Signature | undefined, b: Signature): boolean {
  return a !== undefined && a.length === b.length && a.every((part, i) => part === b[i]);
}

/** What a slip switched on says at a block. */
function slipMarks(block: Block, context: PresentContext): readonly unknown[] {
  const marks = [isTouchedBySlips(block.id, context)];
  if (block.kind !== 'cell' || (block.cell.kind !== 'given' && block.cell.kind !== 'step')) return marks;
  const mark = presentSlipMark(block.cell, context);
  return [...marks, mark?.slip?.id, mark?.right, mark?.effect];
}

/** What a comparison says at a block: how far its symbols are from the reference, and what a drawing shows of that behind. */
function againstReference(block: Block, context: PresentContext): readonly unknown[] {
  const reference = referenceContext(context);
  if (reference === undefined || block.kind !== 'cell') return [];
  const state = context.states.cell(block.id);
  const symbols = [...(state?.symbol === undefined ? [] : [state.symbol]), ...(state?.results?.keys() ?? [])];
  const shifts = symbols.map((symbol) => presentShift(symbol, context)?.text);
  const turned = block.cell.kind === 'check' ? presentTurned(block.cell, context) : undefined;
  const behind = block.cell.kind === 'figure' ? symbolsShown(block, context).map((symbol) => reference.states.symbol(symbol)) : [];
  const rows = block.cell.kind === 'table' ? presentRowsThen(block.cell, context) : undefined;
  return [reference.held.name, turned, rows, ...shifts, ...behind];
}

const sentenceSymbols = new WeakMap<Block, readonly string[]>();

/** Symbols whose values stand in a block: those it reads, and the live values of its sentences. */
function symbolsShown(block: Block, context: PresentContext): readonly string[] {
  const reads = context.states.cell(block.id)?.reads ?? [];
  let more = sentenceSymbols.get(block);
  if (more === undefined) {
    more = block.kind === 'prose' ? [] : symbolsOfSentences(block.cell, context);
    sentenceSymbols.set(block, more);
  }
  return more.length === 0 ? reads : [...reads, ...more];
}

function symbolsOfSentences(cell: Cell, context: PresentContext): readonly string[] {
  const sentences = [cell.note, ...(cell.kind === 'check' ? [cell.holds, cell.otherwise] : cell.kind === 'remark' ? [cell.text] : [])];
  const live = sentences.flatMap((text) =>
    (text?.includes('{=') === true ? liveParts(text, context).flatMap(({ symbol }) => symbol ?? []) : []));
  return [...live, ...(cell.kind === 'step' ? (cell.clock ?? []) : [])];
}

/** Other blocks that a cell names: the choice that sets a step, the cells that a choice sets, the choices that may use a line. */
function neighbours(block: Block, desk: Desk): readonly unknown[] {
  if (block.kind !== 'cell') return [];
  const { cell } = block;
  const context = desk.context();
  if (cell.kind === 'step') return [cell.by === undefined ? undefined : desk.block(cell.by), context.document.frontMatter.entries.get('own_working')];
  if (cell.kind === 'fit') return cell.snapshot === undefined ? [] : context.document.blocks.filter((other) => other.kind === 'cell' && other.cell.kind === 'choice');
  // What has changed since the start, and what is open before it, is asked of the whole sheet.
  if (cell.kind === 'record') return [context.document, context.states];
  if (cell.kind !== 'choice') return [];
  const defining = cell.options.flatMap(({ sets }) => [...sets.keys()].map((symbol) => {
    const found = definingCell(symbol, context);
    return found?.cell.kind === 'given' ? found : found?.cellKind;
  }));
  return [...defining, ...cell.options.map((option) => isMissing(option, context.document)), ...groupsBehind(context.document, cell.id)];
}
