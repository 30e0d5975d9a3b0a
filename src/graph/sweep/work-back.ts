import { findCrossings } from '../../core/numeric/index.ts';
import type { GivenCell, SheetDocument } from '../../sheet/types.ts';
import { chainOf, evaluateAlong } from '../along/index.ts';
import { sheetElsewhere, type StatesThere } from '../elsewhere.ts';
import { compileSheet } from '../compile.ts';
import { exactAlong } from './exact-along.ts';
import type { SheetStates, SymbolState } from '../types.ts';
import { rootOf, type SweepGap } from './curves.ts';
import { nameInChain, possibleReach, typedGiven, typedText, unitOfGiven } from './moving.ts';

/** A wanted result and the one given that may move, between two values. SI. */
export interface WorkBackAsk {
  readonly result: string;
  readonly wanted: number;
  readonly input: GivenCell;
  readonly from: number;
  readonly to: number;
}

export interface WorkBackFound {
  /** Ascending. */
  readonly answers: readonly WorkBackAnswer[];
  /** Stretches of the given over which the result stays as wanted. */
  readonly stretches: readonly (readonly [from: number, to: number])[];
  /** Places at which the result jumps over what is wanted. */
  readonly jumps: readonly number[];
  /** Least and greatest result met between `from` and `to`; absent where it has no value anywhere there. */
  readonly between?: readonly [least: WorkBackPlace, greatest: WorkBackPlace];
  /** Where there is no result, in order; the edges are those of the search's own places. */
  readonly gaps: readonly SweepGap[];
  /** Whether the result hangs on the given at all. */
  readonly hangsOnIt: boolean;
}

interface WorkBackPlace {
  readonly at: number;
  readonly value: number;
}

export interface WorkBackAnswer {
  /** Of the given, SI, as typed text gives it. */
  readonly value: number;
  /** What is to be typed for it: the fewest figures with which the sheet gives what is wanted, to 1e-10. */
  readonly text: string;
  /** The result touches what is wanted there and turns back. */
  readonly isTouch: boolean;
  /** The result with this text in the sheet. */
  readonly result: SymbolState & { readonly status: 'value' };
  /** d result / d given there. */
  readonly slope: number;
  /** Checks that hold now and would not hold there. */
  readonly fails: readonly string[];
}

const PLACES = 4097;
/** Where each place takes the whole sheet: some symbol on the way has no formula, or reads an uncertainty that moves. */
const FEW_PLACES = 257;
const WIDE = 30;
/** What the sheet gives with the answer typed in may miss what is wanted by this, relatively. */
const CLOSE = 1e-10;
const MOST_FIGURES = 17;

/**
 * Every value of a given, between two values, with which the sheet gives a wanted result. The function that is solved is the
 * sheet with that value typed in, so that an answer holds once it is put there: instrument kept, readings dropped.
 */
export function workBack(document: SheetDocument, states: SheetStates, ask: WorkBackAsk): WorkBackFound {
  const nothing = { answers: [], stretches: [], jumps: [], gaps: [], hangsOnIt: false };
  const unit = unitOfGiven(ask.input, states);
  const compiled = compileSheet(document);
  const elsewhere = sheetElsewhere(compiled, states, [ask.input.symbol], [ask.result]);
  const reach = unit === undefined ? undefined : possibleReach(ask.input, unit);
  const [from, to] = [Math.max(ask.from, reach?.low ?? -Infinity), Math.min(ask.to, reach?.high ?? Infinity)];
  if (unit === undefined || !elsewhere.way.includes(ask.result) || !(to > from)) return nothing;
  const typed = (text: string, checks: boolean): StatesThere => elsewhere.at(new Map([[ask.input.symbol, typedGiven(ask.input, text)]]), { checks });
  const at = (x: number): StatesThere => typed(typedText(x, unit, MOST_FIGURES), false);
  const valueAt = (x: number): number => valueOf(at(x), ask.result);

  const chain = chainOf(compiled, states);
  const moved = nameInChain(ask.input, states);
  const isExact = exactAlong(chain, elsewhere.way, [moved]);
  const xs = placesBetween(from, to, isExact ? PLACES : FEW_PLACES);
  const values = isExact ? alongChain(evaluateAlong(chain, new Map([[moved, xs]]), xs.length, { wanted: [ask.result], within: true }).get(ask.result), xs.length)
    : xs.map(valueAt);
  const miss = missOf(ask.wanted, values);
  const crossings = findCrossings((x) => miss(valueAt(x)), xs, values.map(miss));
  const answerAt = (x: number, isTouch: boolean): WorkBackAnswer | undefined => {
    for (let figures = 3; figures <= MOST_FIGURES; figures++) {
      const text = typedText(x, unit, figures);
      const given = typedGiven(ask.input, text);
      const there = typed(text, true);
      const state = there.symbol(ask.result);
      if (state?.status !== 'value' || given.status !== 'value') continue;
      if (Math.abs(miss(state.estimate.value)) > CLOSE && figures < MOST_FIGURES) continue;
      return {
        value: given.estimate.value, text, isTouch,
        result: state,
        slope: state.estimate.sensitivities.get(ask.input.symbol)?.derivative ?? Number.NaN,
        fails: elsewhere.checks.filter((cellId) => states.cell(cellId)?.check?.holds === true && there.cell(cellId)?.check?.holds === false),
      };
    }
    return undefined;
  };
  const answers = [
    ...crossings.roots.flatMap((x) => answerAt(x, false) ?? []), ...crossings.touches.flatMap((x) => answerAt(x, true) ?? []),
  ];
  const between = extremes(xs, values);
  return {
    answers: answers.toSorted((a, b) => a.value - b.value),
    stretches: crossings.flats,
    jumps: crossings.jumps,
    ...(between === undefined ? {} : { between }),
    gaps: gapsOf(xs, values, at, ask.result),
    hangsOnIt: true,
  };
}

function alongChain(found: Float64Array | number | undefined, count: number): Float64Array {
  const column = typeof found === 'object' ? found : new Float64Array(count).fill(found ?? Number.NaN);
  return column.map((value) => (Number.isFinite(value) ? value : Number.NaN));
}

function valueOf(there: StatesThere, symbol: string): number {
  const state = there.symbol(symbol);
  return state?.status === 'value' && Number.isFinite(state.estimate.value) ? state.estimate.value : Number.NaN;
}

/** Evenly spaced, by factors where the ends lie far apart. */
function placesBetween(from: number, to: number, count: number): Float64Array {
  const byFactor = from > 0 && to / from > WIDE;
  return Float64Array.from({ length: count }, (_, i) => {
    const share = i / (count - 1);
    if (i === 0 || i === count - 1) return i === 0 ? from : to;
    return byFactor ? from * (to / from) ** share : from + share * (to - from);
  });
}

/** How far a result is from the wanted one: by factors where all are positive, since lives run over decades. */
function missOf(wanted: number, values: Float64Array): (value: number) => number {
  const own = values.filter((value) => !Number.isNaN(value));
  if (wanted > 0 && own.every((value) => value > 0)) return (value) => Math.log(value / wanted);
  const size = wanted === 0 ? own.reduce((most, value) => Math.max(most, Math.abs(value)), 0) : Math.abs(wanted);
  return (value) => (value - wanted) / (size > 0 ? size : 1);
}

function extremes(xs: Float64Array, values: Float64Array): readonly [WorkBackPlace, WorkBackPlace] | undefined {
  let [least, greatest]: (WorkBackPlace | undefined)[] = [];
  values.forEach((value, i) => {
    const at = xs[i];
    if (Number.isNaN(value) || at === undefined) return;
    if (least === undefined || value < least.value) least = { at, value };
    if (greatest === undefined || value > greatest.value) greatest = { at, value };
  });
  return least === undefined || greatest === undefined ? undefined : [least, greatest];
}

/** Each stretch without values, with what stands in its middle. */
function gapsOf(xs: Float64Array, values: Float64Array, at: (x: number) => StatesThere, symbol: string): SweepGap[] {
  const gaps: { from: number; to: number }[] = [];
  xs.forEach((x, i) => {
    if (!Number.isNaN(values[i])) return;
    const last = gaps.at(-1);
    if (last !== undefined && i > 0 && Number.isNaN(values[i - 1])) last.to = x;
    else gaps.push({ from: x, to: x });
  });
  return gaps.map(({ from, to }) => {
    const there = at((from + to) / 2);
    return { from, to, why: rootOf(there.symbol(symbol), there) };
  });
}
