import { BLOCK, BlockProgram, type Operand } from './block-program.ts';
import type { Expression } from './types.ts';

/**
 * The formula for `length` samples at once (JCGM 101:2008, clause 7), SI; agrees with `evaluate` sample by sample to 1e-12
 * relative of the largest intermediate value. A sample for which the formula has no value is NaN, for the caller to count.
 * A condition gives 1 and 0.
 * @param columns for each symbol its samples, at least `length` of them, or the one value that all samples share
 * @param best for each symbol its best estimate; can be left out where no formula reads one
 */
export function evaluateBlock(
  e: Expression,
  columns: (name: string) => Float64Array | number,
  standardUncertainty: (name: string) => number,
  length: number,
  best: (name: string) => number = noEstimate,
): Float64Array {
  const program = new BlockProgram(Math.min(BLOCK, Math.max(1, length)));
  const read = new Map<string, { readonly from: Float64Array; readonly block: Float64Array }>();
  const column = (name: string): Operand => {
    const known = read.get(name);
    if (known !== undefined) return known.block;
    const from = columns(name);
    if (typeof from === 'number') return from;
    if (from.length < length) throw new Error(`The column of ${name} is too short.`);
    const block = program.column();
    read.set(name, { from, block });
    return block;
  };
  const found = program.add(e, { column, standardUncertainty, best });
  const result = new Float64Array(length);
  if (typeof found === 'number') return result.fill(found);
  for (let start = 0; start < length; start += program.length) {
    const count = Math.min(program.length, length - start);
    for (const { from, block } of read.values()) block.set(from.subarray(start, start + count));
    program.run(count);
    result.set(found.subarray(0, count), start);
  }
  return result;
}

function noEstimate(name: string): number {
  throw new Error(`best(${name}) needs the best estimate.`);
}
