import { standardUncertainty } from '../../core/estimate/index.ts';
import { fail, ok, type Problem, type Result } from '../../core/problem/index.ts';
import { fromSI, intervalFromSI, intervalToSI, numberText, ONE, quantityText, readQuantity, toSI, type Unit } from '../../core/units/index.ts';
import { trialText } from '../../sheet/index.ts';
import type { SheetDocument, RecordCell } from '../../sheet/types.ts';
import type { SheetStates, SymbolState } from '../types.ts';

/** A predicted quantity as it was kept. SI. */
export interface FrozenValue {
  readonly value: number;
  readonly standardUncertainty: number;
  readonly unit: Unit;
}

/** A value with its standard uncertainty and unit, in digits that read back to the same double: `318400.5 ± 2100.25 cycles`. */
function frozenText(state: SymbolState | undefined): string {
  if (state?.status === 'range') return state.word;
  if (state?.status !== 'value') return 'no value';
  const { unit, estimate } = state;
  const number = fromSI(estimate.value, unit);
  const u = intervalFromSI(standardUncertainty(estimate), unit);
  if (u === 0) return quantityText(number, unit);
  return `${numberText(number)} ± ${quantityText(u, unit)}`;
}

/** Reads it back. Undefined where there was no value at the start. Problem: `frozen-unread`. */
export function readFrozen(symbol: string, text: string): Result<FrozenValue | undefined> {
  if (!/\d/.test(text)) return ok(undefined);
  const [, left = text, u = '0', rest = ''] = /^(.*\S)\s*±\s*(\S+)(.*)$/.exec(text) ?? [];
  const read = readQuantity(`${left}${rest}`, 'ask');
  const spread = Number(u);
  if (!read.ok || !Number.isFinite(spread)) return fail(unread(symbol, text));
  const unit = read.value.unit ?? ONE;
  return ok({ value: toSI(read.value.number, unit), standardUncertainty: intervalToSI(spread, unit), unit });
}

/**
 * What is predicted now, and all that is typed: symbol, or `choice ID`, to text. A symbol that the record asks for stands
 * there with its value, any other given as it was typed.
 */
export function predictionNow({ watches }: RecordCell, document: SheetDocument, states: SheetStates): ReadonlyMap<string, string> {
  const texts = new Map<string, string>([...watches.values()].map((symbol) => [symbol, frozenText(states.symbol(symbol))]));
  for (const block of document.blocks) {
    if (block.kind !== 'cell') continue;
    const { cell } = block;
    if (cell.kind === 'choice') texts.set(`choice ${cell.id}`, cell.chosen);
    // What is known only after the test is no input of the prediction.
    if (cell.kind !== 'given' || cell.symbol === '' || cell.optional === true || texts.has(cell.symbol)) continue;
    const [typed, trial] = [(cell.readings ?? cell.value ?? '').trim(), trialText(cell)];
    const counts = trial === undefined ? typed : `trial value ${trial}`;
    texts.set(cell.symbol, counts === '' ? frozenText(states.symbol(cell.symbol)) : counts);
  }
  return texts;
}

export interface ChangedInput {
  /** Symbol, or `choice ID`. */
  readonly name: string;
  readonly atStart: string;
  /** '' where it is no longer in the sheet. */
  readonly now: string;
}

/** What stands otherwise in the sheet than it did at the start; what came into the sheet since is not among it. */
export function changedSince(cell: RecordCell, document: SheetDocument, states: SheetStates): readonly ChangedInput[] {
  const present = predictionNow(cell, document, states);
  return [...cell.frozen].flatMap(([name, atStart]) => {
    const now = present.get(name) ?? '';
    return now === atStart ? [] : [{ name, atStart, now }];
  });
}

function unread(symbol: string, text: string): Problem {
  return {
    code: 'frozen-unread',
    what: `What was predicted for ${symbol} at the start, “${text}”, can't be read any more.`,
    mend: 'Put back what stood there, for instance with undo.',
    key: 'frozen',
  };
}
