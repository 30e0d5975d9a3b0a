import type { Expression } from './types.ts';
import {
  arithmeticDraws, chosenDraws, comparisonDraws, extremeDraws, functionDraws, negativeDraws, reversalsDraws, rootDraws, type Draws,
} from './block-operations.ts';
import { BLOCK, Scratch } from './block-scratch.ts';

interface BlockRun {
  readonly columns: (name: string) => Float64Array | number;
  readonly standardUncertainty: (name: string) => number;
  readonly best: (name: string) => number;
  start: number;
  length: number;
}

/** Shared by all calls: between two of them every buffer is spare. */
const scratch = new Scratch();
const ONE = Float64Array.of(1);
const ZERO = Float64Array.of(0);

/**
 * The formula for `length` draws at once (JCGM 101:2008, clause 7), SI; agrees with `evaluate` draw by draw to 1e-12
 * relative of the largest intermediate value. A draw for which the formula has no value is NaN, for the caller to count.
 * A condition gives 1 and 0.
 * @param columns for each symbol its draws, at least `length` of them, or the one value that all draws share
 * @param best for each symbol its best estimate; can be left out where no formula reads one
 */
export function evaluateBlock(
  e: Expression,
  columns: (name: string) => Float64Array | number,
  standardUncertainty: (name: string) => number,
  length: number,
  best: (name: string) => number = noEstimate,
): Float64Array {
  const known = new Map<string, Float64Array | number>();
  const remembered = (name: string): Float64Array | number => {
    const column = known.get(name) ?? columns(name);
    known.set(name, column);
    return column;
  };
  const result = new Float64Array(length);
  const run: BlockRun = { columns: remembered, standardUncertainty, best, start: 0, length: 0 };
  for (let start = 0; start < length; start += BLOCK) {
    run.start = start;
    run.length = Math.min(BLOCK, length - start);
    const draws = drawsOf(e, run);
    if (draws.length === 1) result.fill(draws[0] ?? NaN, start, start + run.length);
    else result.set(draws.length === run.length ? draws : draws.subarray(0, run.length), start);
    scratch.release(draws);
  }
  return result;
}

function noEstimate(name: string): number {
  throw new Error(`best(${name}) needs the best estimate.`);
}

function drawsOf(e: Expression, run: BlockRun): Draws {
  switch (e.kind) {
    case 'number':
      return Float64Array.of(e.value);
    case 'unit':
      return Float64Array.of(e.unit.factor);
    case 'symbol':
      return symbolDraws(e.name, run);
    case 'negative':
      return negativeDraws(scratch, drawsOf(e.operand, run), run.length);
    case 'arithmetic':
      return arithmeticDraws(scratch, e.operator, drawsOf(e.left, run), drawsOf(e.right, run), run.length);
    case 'call':
      return callDraws(e.name, e.arguments, run);
    case 'comparison':
      return comparisonDraws(scratch, e.operator, drawsOf(e.left, run), drawsOf(e.right, run), run.length);
    case 'and':
      return chosenDraws(scratch, drawsOf(e.left, run), drawsOf(e.right, run), ZERO, run.length);
    case 'or':
      return chosenDraws(scratch, drawsOf(e.left, run), ONE, drawsOf(e.right, run), run.length);
    case 'not':
      return chosenDraws(scratch, drawsOf(e.operand, run), ZERO, ONE, run.length);
  }
}

function symbolDraws(name: string, run: BlockRun): Draws {
  const column = run.columns(name);
  if (typeof column === 'number') return Float64Array.of(column);
  const end = run.start + run.length;
  if (column.length < end) throw new Error(`The column of ${name} is too short.`);
  return column.subarray(run.start, end);
}

function callDraws(name: string, parts: readonly Expression[], run: BlockRun): Draws {
  const [first, ...others] = parts;
  if (first === undefined) throw new Error(`${name} lacks its argument.`);
  switch (name) {
    case 'u':
      return Float64Array.of(first.kind === 'symbol' ? run.standardUncertainty(first.name) : NaN);
    case 'best':
      return Float64Array.of(first.kind === 'symbol' ? run.best(first.name) : NaN);
    case 'if':
      return ifDraws(first, others, run);
    case 'min':
    case 'max':
      return others.reduce((best, part) => extremeDraws(scratch, name, best, drawsOf(part, run), run.length), drawsOf(first, run));
    case 'mean': {
      const total = others.reduce((sum, part) => arithmeticDraws(scratch, '+', sum, drawsOf(part, run), run.length), drawsOf(first, run));
      return arithmeticDraws(scratch, '/', total, Float64Array.of(parts.length), run.length);
    }
    case 'reversals':
      return reversalsDraws(scratch, parts.map((part) => drawsOf(part, run)), run.length);
    case 'sqrt':
      return rootDraws(scratch, drawsOf(first, run), run.length);
    case 'macaulay':
      return extremeDraws(scratch, 'max', drawsOf(first, run), ZERO, run.length);
    default:
      return functionDraws(scratch, name, drawsOf(first, run), run.length);
  }
}

/** Both branches for all draws, then each draw's own; a condition that is the same for all spares the other branch. */
function ifDraws(condition: Expression, branches: readonly Expression[], run: BlockRun): Draws {
  const [a, b] = branches;
  if (a === undefined || b === undefined) throw new Error('if lacks a branch.');
  const holds = drawsOf(condition, run);
  if (holds.length === 1 && holds[0] === 1) return drawsOf(a, run);
  if (holds.length === 1 && holds[0] === 0) return drawsOf(b, run);
  return chosenDraws(scratch, holds, drawsOf(a, run), drawsOf(b, run), run.length);
}
