import { exactly, fromInput, type Input } from '../../core/estimate/index.ts';
import { composed } from '../../core/problem/index.ts';
import { fromSI, parseUnit, type Unit } from '../../core/units/index.ts';
import { cellsOf } from '../../sheet/index.ts';
import type { GivenCell, SheetDocument } from '../../sheet/types.ts';
import { parseBounds, satisfies, type Bounds } from '../bounds.ts';
import { symbolsBehind } from '../elsewhere.ts';
import type { CompiledSheet } from '../compiled-types.ts';
import { asOneValue, readGiven } from '../read-given.ts';
import { asRead, stateAsRead } from '../slips/as-read.ts';
import type { AskedStates, SheetStates, SymbolState } from '../types.ts';

/** Givens that a symbol hangs on, in the order of the sheet. */
export function givensBehind(compiled: CompiledSheet, document: SheetDocument, states: SheetStates, symbol: string): readonly GivenCell[] {
  const behind = new Set(symbolsBehind(compiled, states, symbol));
  return cellsOf(document, 'given').filter((cell) => states.definedBy(cell.symbol) === cell.id && behind.has(cell.symbol) && cell.symbol !== symbol);
}

/** The unit a given was typed in, or is to be typed in. */
export function unitOfGiven(cell: GivenCell, states: AskedStates): Unit | undefined {
  const state = stateAsRead(cell.symbol, states);
  if (state?.unit !== undefined) return state.unit;
  const own = parseUnit(cell.unit === '' ? '1' : cell.unit);
  return own.ok ? own.value : undefined;
}

/** Values that a given can have, and those that it usually has; SI. */
export interface Reach {
  readonly low: number;
  readonly high: number;
}

/** What a given says that it can be; undefined where that can't be read. */
export function possibleBounds(cell: GivenCell, unit: Unit): Bounds | undefined {
  const bounds = parseBounds(cell.possible ?? '> 0', unit);
  return bounds.ok ? bounds.value : undefined;
}

export function possibleReach(cell: GivenCell, unit: Unit): Reach {
  const bounds = possibleBounds(cell, unit);
  return bounds === undefined ? { low: -Infinity, high: Infinity } : { low: bounds.low, high: bounds.high };
}

export function plausibleReach(cell: GivenCell, unit: Unit): Reach | undefined {
  const bounds = cell.plausible === undefined ? undefined : parseBounds(cell.plausible, unit);
  return bounds?.ok === true && Number.isFinite(bounds.value.high - bounds.value.low) ? { low: bounds.value.low, high: bounds.value.high } : undefined;
}

/** A given at another value, as sure as it is now; where that is impossible, the state says so. */
export function movedGiven(cell: GivenCell, states: SheetStates, unit: Unit): (value: number) => SymbolState {
  const state = stateAsRead(cell.symbol, states);
  const input = state?.status === 'value' ? state.estimate.sensitivities.get(cell.symbol)?.input : undefined;
  const bounds = possibleBounds(cell, unit);
  return (value) => {
    if (bounds !== undefined && !satisfies(value, bounds)) {
      const what = composed`${cell.label ?? cell.symbol} must be ${bounds.words}.`;
      return { status: 'problem', problem: { code: 'sweep-not-possible', what, mend: 'Take values within that.', cell: cell.id }, unit };
    }
    return { status: 'value', estimate: input === undefined ? exactly(value) : fromInput(inputAt(input, value)), unit };
  };
}

function inputAt(input: Input, value: number): Input {
  return { ...input, value };
}

/** A given as it reads once this text stands in it, or beside its readings as a trial value. */
export function typedGiven(cell: GivenCell, text: string): SymbolState {
  return readGiven(asOneValue(cell, text), undefined).result;
}

/** A value as it would be typed, to so many figures. */
export function typedText(value: number, unit: Unit, figures: number): string {
  const number = plainNumber(Number(fromSI(value, unit).toPrecision(figures)));
  return unit.name === '1' ? number : `${number} ${unit.name}`;
}

/** Without a power of ten where it reads well without one. */
function plainNumber(value: number): string {
  const size = Math.abs(value);
  if (size !== 0 && size < 1e-6 && size >= 1e-9) return value.toFixed(20).replace(/0+$/, '');
  return String(value);
}

/** The name by which a chain knows what is read at a given: one of its own where a slip acts on it. */
export function nameInChain({ symbol }: GivenCell, states: SheetStates): string {
  return states.definedBy(asRead(symbol)) === undefined ? symbol : asRead(symbol);
}
