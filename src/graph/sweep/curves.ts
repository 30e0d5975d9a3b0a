import { standardUncertainty } from '../../core/estimate/index.ts';
import type { Unit } from '../../core/units/types.ts';
import type { GivenCell, SheetDocument } from '../../sheet/types.ts';
import { sheetElsewhere, type Elsewhere, type StatesThere } from '../elsewhere.ts';
import { compileSheet } from '../compile.ts';
import { stateAsRead } from '../slips/as-read.ts';
import type { SheetStates, SymbolState } from '../types.ts';
import { movedGiven, unitOfGiven } from './moving.ts';

/** Results against one given. SI. */
interface SweepAsk {
  readonly of: readonly string[];
  readonly against: GivenCell;
  /** At which the sheet is evaluated, ascending; what lies between the first and the last is the sweep. */
  readonly places: readonly number[];
}

export interface SweepFound {
  /** Places of the given, ascending, the same for all curves: those asked for, and more where a curve bends or ends. */
  readonly xs: Float64Array;
  readonly curves: readonly SweptCurve[];
  /** Checks that turn along the way. */
  readonly turns: readonly CheckTurn[];
  /** The given as it is. */
  readonly present?: number;
}

export interface SweptCurve {
  readonly symbol: string;
  /** In which it is shown; absent where nothing says it. */
  readonly unit?: Unit;
  /** NaN where there is no value. */
  readonly values: Float64Array;
  /** Standard uncertainty there, all inputs as sure as they are now. */
  readonly uncertainties: Float64Array;
  readonly gaps: readonly SweepGap[];
  readonly present?: number;
}

/** A stretch without a value, and what stands there in its place. */
export interface SweepGap {
  readonly from: number;
  readonly to: number;
  readonly why: SymbolState | undefined;
}

export interface CheckTurn {
  readonly cellId: string;
  readonly at: number;
  /** Whether it holds beyond that place, towards larger values of the given. */
  readonly holdsAbove: boolean;
}

const HALVINGS = 40;
/** Each halves the stretches beside a kink. */
const BENDING_ROUNDS = 5;
/** A curve that leaves the chord of its neighbours by this part of its range is looked at more closely. */
const BEND = 0.002;

/**
 * The sheet evaluated anew at places of one given, by its own nodes. Where a result begins or ceases to have a value, and
 * where a check turns, is found by halving.
 */
export function sweepCurves(document: SheetDocument, states: SheetStates, ask: SweepAsk): SweepFound {
  const unit = unitOfGiven(ask.against, states);
  const [from, to] = [ask.places[0], ask.places.at(-1)];
  if (unit === undefined || from === undefined || to === undefined) return { xs: new Float64Array(0), curves: [], turns: [] };
  const { symbol } = ask.against;
  const elsewhere = sheetElsewhere(compileSheet(document), states, [symbol], ask.of);
  const move = movedGiven(ask.against, states, unit);
  const at = (x: number): StatesThere => elsewhere.at(new Map([[symbol, move(x)]]));
  const now = stateAsRead(symbol, states);
  const present = now?.status === 'value' && now.estimate.value >= from && now.estimate.value <= to ? now.estimate.value : undefined;
  const places = new Map(ask.places.map((x) => [x, at(x)]));
  if (present !== undefined) places.set(present, at(present));
  for (const name of ask.of) addEnds(places, at, name);
  for (let round = 0; round < BENDING_ROUNDS; round++) for (const name of ask.of) addBends(places, at, name);
  const xs = [...places.keys()].toSorted((a, b) => a - b);
  const found = xs.map((x) => places.get(x));
  return {
    xs: Float64Array.from(xs),
    curves: ask.of.map((name) => curveOf(name, xs, found, states)),
    turns: turnsOf(elsewhere, xs, found, at),
    ...(present === undefined ? {} : { present }),
  };
}

/** Adds the last places with and without a value on both sides of where that changes. */
function addEnds(places: Map<number, StatesThere>, at: (x: number) => StatesThere, symbol: string): void {
  const xs = [...places.keys()].toSorted((a, b) => a - b);
  for (const [i, x] of xs.entries()) {
    const next = xs[i + 1];
    if (next === undefined || reasonOf(places.get(x)?.symbol(symbol)) === reasonOf(places.get(next)?.symbol(symbol))) continue;
    const reason = reasonOf(places.get(x)?.symbol(symbol));
    const [low, high] = halved(x, next, (middle) => reasonOf(at(middle).symbol(symbol)) === reason);
    places.set(low, at(low));
    places.set(high, at(high));
  }
}

/** Adds places beside those at which the curve bends sharply, so that a kink is drawn where it is. */
function addBends(places: Map<number, StatesThere>, at: (x: number) => StatesThere, symbol: string): void {
  const xs = [...places.keys()].toSorted((a, b) => a - b);
  const values = xs.map((x) => {
    const state = places.get(x)?.symbol(symbol);
    return state?.status === 'value' && Number.isFinite(state.estimate.value) ? state.estimate.value : Number.NaN;
  });
  const there = values.filter((value) => !Number.isNaN(value));
  const range = there.reduce((most, value) => Math.max(most, value), -Infinity) - there.reduce((least, value) => Math.min(least, value), Infinity);
  const width = (xs.at(-1) ?? 0) - (xs[0] ?? 0);
  xs.forEach((x, i) => {
    const [left, right] = [xs[i - 1], xs[i + 1]];
    const [before = Number.NaN, here = Number.NaN, after = Number.NaN] = values.slice(Math.max(0, i - 1), i + 2);
    if (left === undefined || right === undefined || right - left < 1e-5 * width) return;
    const chord = before + ((x - left) / (right - left)) * (after - before);
    if (!(Math.abs(here - chord) > BEND * range)) return;
    for (const middle of [(left + x) / 2, (x + right) / 2]) places.set(middle, at(middle));
  });
}

/** @param isLow whether a place still belongs to the lower end */
function halved(from: number, to: number, isLow: (x: number) => boolean): [number, number] {
  let [low, high] = [from, to];
  for (let i = 0; i < HALVINGS && high - low > 1e-12 * Math.max(Math.abs(low), Math.abs(high)); i++) {
    const middle = (low + high) / 2;
    if (isLow(middle)) low = middle;
    else high = middle;
  }
  return [low, high];
}

/** The same for two states that have a value, or lack one for the same reason. */
export function reasonOf(state: SymbolState | undefined): string {
  if (state === undefined) return 'none';
  if (state.status === 'value') return Number.isFinite(state.estimate.value) ? '' : 'not finite';
  return state.status === 'range' ? state.word : `${state.problem.code} ${state.origin ?? ''}`;
}

function curveOf(symbol: string, xs: readonly number[], found: readonly (StatesThere | undefined)[], states: SheetStates): SweptCurve {
  const values = new Float64Array(xs.length).fill(Number.NaN);
  const uncertainties = new Float64Array(xs.length);
  const gaps: { from: number; to: number; why: SymbolState | undefined; reason: string }[] = [];
  xs.forEach((x, i) => {
    const there = found[i];
    const state = there?.symbol(symbol);
    if (state?.status === 'value' && Number.isFinite(state.estimate.value)) {
      values[i] = state.estimate.value;
      uncertainties[i] = standardUncertainty(state.estimate);
      return;
    }
    const last = gaps.at(-1);
    const reason = reasonOf(state);
    if (last?.reason === reason && last.to === xs[i - 1]) last.to = x;
    else gaps.push({ from: x, to: x, why: rootOf(state, there), reason });
  });
  const present = states.symbol(symbol);
  const unit = present?.unit ?? found.map((there) => there?.symbol(symbol)?.unit).find((one) => one !== undefined);
  return {
    symbol, ...(unit === undefined ? {} : { unit }), values, uncertainties, gaps: gaps.map(({ from, to, why }) => ({ from, to, why })),
    ...(present?.status === 'value' && Number.isFinite(present.estimate.value) ? { present: present.estimate.value } : {}),
  };
}

/** The state where the trouble began. */
export function rootOf(state: SymbolState | undefined, there: StatesThere | undefined): SymbolState | undefined {
  if (state?.status !== 'problem' || state.origin === undefined) return state;
  return there?.symbol(state.origin) ?? state;
}

function turnsOf(elsewhere: Elsewhere, xs: readonly number[], found: readonly (StatesThere | undefined)[], at: (x: number) => StatesThere): CheckTurn[] {
  return elsewhere.checks.flatMap((cellId) => xs.flatMap((x, i) => {
    const next = xs[i + 1];
    const [here, beyond] = [found[i], found[i + 1]].map((there) => there?.cell(cellId)?.check?.holds);
    if (next === undefined || here === undefined || beyond === undefined || here === beyond) return [];
    const [, above] = halved(x, next, (middle) => at(middle).cell(cellId)?.check?.holds === here);
    return [{ cellId, at: above, holdsAbove: beyond }];
  })).toSorted((a, b) => a.at - b.at);
}
