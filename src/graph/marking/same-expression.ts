import { checkDimensions, evaluate, referencedSymbols } from '../../core/formula/index.ts';
import type { Expression } from '../../core/formula/types.ts';
import { createRandom, seedOfText } from '../../core/numeric/index.ts';
import { sameDimension } from '../../core/units/index.ts';
import type { SheetStates } from '../types.ts';
import { cellOf, valueFrom } from './working.ts';

const POINTS = 16;
/** With fewer points at which both have a value nothing is proven. */
const LEAST_POINTS = 6;
/** Givens are moved by up to this factor each way. */
const REACH = 1.6;
/** Of two ways to reckon one thing. */
const ROUNDING = 1e-9;

type Sameness = 'same' | 'other' | 'other dimension';

/**
 * Whether two expressions say the same of a sheet: of one dimension, and equal wherever its givens are moved, with what is worked out of them following. So 32M/(πd³)
 * is Mc/I where the sheet has c and I from d. Which points are tried depends on the two alone, so that a verdict never changes by itself.
 * Undefined where they have a value together at too few points.
 */
export function sameExpression(yours: Expression, right: Expression, states: SheetStates): Sameness | undefined {
  const [ours, theirs] = [right, yours].map((expression) => checkDimensions(expression, (name) => states.symbol(name)?.unit?.dimension));
  if (ours?.ok === true && theirs?.ok === true && !areOfOneKind(ours.value, theirs.value)) return 'other dimension';
  if (theirs?.ok === false) return 'other dimension';
  const symbols = [...new Set([...referencedSymbols(yours), ...referencedSymbols(right)])];
  const leaves = leavesBehind(symbols, states);
  const random = createRandom(seedOfText(symbols.join(' ')));
  let count = 0;
  for (let point = 0; point < POINTS; point += 1) {
    const moved = new Map(leaves.map((name) => [name, (valueOf(name, states) ?? 1) * REACH ** (2 * random.uniform() - 1)]));
    const value = (name: string): number => moved.get(name) ?? valueFrom(moved, name, states)?.value ?? valueOf(name, states) ?? Number.NaN;
    const [a, b] = [yours, right].map((expression) => evaluate(expression, { value, standardUncertainty: () => 0 })).map((result) => (result.ok ? result.value : Number.NaN));
    if (a === undefined || b === undefined || (!Number.isFinite(a) && !Number.isFinite(b))) continue;
    // What has a value where the other has none says something else.
    if (!(Math.abs(a - b) <= ROUNDING * Math.max(Math.abs(a), Math.abs(b)))) return 'other';
    count += 1;
  }
  return count < LEAST_POINTS ? undefined : 'same';
}

type OfKind = Extract<ReturnType<typeof checkDimensions>, { ok: true }>['value'];

function areOfOneKind(one: OfKind, other: OfKind): boolean {
  return one === 'truth' || other === 'truth' ? one === other : sameDimension(one, other);
}

/** A value that can be moved: neither open nor zero. */
function valueOf(symbol: string, states: SheetStates): number | undefined {
  const state = states.symbol(symbol);
  return state?.status === 'value' && Number.isFinite(state.estimate.value) && state.estimate.value !== 0 ? state.estimate.value : undefined;
}

/** What symbols come from in the end, and is worked out of nothing. */
function leavesBehind(symbols: readonly string[], states: SheetStates): readonly string[] {
  const met = new Set<string>();
  const leaves: string[] = [];
  const next = [...symbols];
  for (let name = next.pop(); name !== undefined; name = next.pop()) {
    if (met.has(name)) continue;
    met.add(name);
    const cell = cellOf(name, states);
    if (cell?.expression === undefined) leaves.push(name);
    else next.push(...cell.reads);
  }
  return leaves;
}
