import { possibleBounds, stateAsRead } from '../../graph/index.ts';
import type { Handle } from '../../figures/drawings/index.ts';
import type { Desk } from '../desk.ts';
import { givensOf, stepOfPlace, type MovedGiven } from './move.ts';

/** How many steps a place may go to the left (down), at most 0, and to the right (up), at least 0. */
export interface Reach {
  readonly back: number;
  readonly on: number;
}

/** Of a step: what is nearer to an end is at it. */
const AT_END = 1e-6;

const nowhere: Reach = { back: 0, on: 0 };

/**
 * How far a place may go: every given behind it stays what it says that it can be, and the place within what it stands between.
 * Where it is beyond that already, it may come back.
 */
export function reachOf(handle: Handle, desk: Desk): Reach {
  const givens = givensOf(handle, desk);
  if (givens.length === 0) return nowhere;
  const { size } = stepOfPlace(handle, desk);
  const { position, reach } = handle;
  const own = stepsBetween((reach.from - position) / size, (reach.to - position) / size);
  return givens.reduce((narrowed, given) => {
    const steps = possibleSteps(given, size, desk);
    return { back: Math.max(narrowed.back, steps.back), on: Math.min(narrowed.on, steps.on) };
  }, own);
}

function possibleSteps({ cell, sign }: MovedGiven, size: number, desk: Desk): Reach {
  const state = stateAsRead(cell.symbol, desk.context().states);
  if (state?.status !== 'value') return nowhere;
  const bounds = possibleBounds(cell, state.unit);
  if (bounds === undefined) return { back: -Infinity, on: Infinity };
  const at = state.estimate.value;
  const [low, high] = [(bounds.low - at) / size + (bounds.lowIncluded ? 0 : 2 * AT_END), (bounds.high - at) / size - (bounds.highIncluded ? 0 : 2 * AT_END)];
  return sign === 1 ? stepsBetween(low, high) : stepsBetween(-high, -low);
}

/** Whole steps between two ends, which are given in steps. */
function stepsBetween(from: number, to: number): Reach {
  return { back: Math.min(0, Math.ceil(from - AT_END)), on: Math.max(0, Math.floor(to + AT_END)) };
}

/** Whether a place can be moved at all; only then it is shown as one. */
export function canMove(handle: Handle, desk: Desk): boolean {
  const { back, on } = reachOf(handle, desk);
  return back < on;
}

export function within({ back, on }: Reach, steps: number): number {
  return Math.max(back, Math.min(on, steps));
}
