import { sampleInputs, inputUncertainty, type Input } from '../../core/estimate/index.ts';
import type { Random } from '../../core/numeric/index.ts';
import type { CompiledSheet } from '../compiled-types.ts';
import type { SheetStates } from '../types.ts';
import { chainOf, evaluateAlong, type Columns } from './chain.ts';

/** Samples of every symbol that has a value; a plain number where nothing in it is uncertain. SI. */
export type Samples = Columns;

/**
 * Propagates distributions through the whole sheet (JCGM 101:2008, clause 7): the inputs are sampled once, and every
 * formula is evaluated on the same samples, so that symbols stay paired.
 * A sample for which a formula has no value is NaN in that symbol's column.
 */
export function sampleSheet(compiled: CompiledSheet, states: SheetStates, random: Random, count: number): Samples {
  const sampled = sampleInputs(uncertainInputs(compiled, states), random, count);
  const wanted = compiled.order.filter((symbol) => states.symbol(symbol)?.status === 'value');
  return evaluateAlong(chainOf(compiled, states), sampled, count, { wanted });
}

/** The inputs of the sheet that have an uncertainty, by the symbols they stand for, in the order of reading. */
export function uncertainInputs(compiled: CompiledSheet, states: SheetStates): readonly Input[] {
  const inputs: Input[] = [];
  for (const symbol of compiled.order) {
    const state = states.symbol(symbol);
    if (state?.status !== 'value') continue;
    const own = state.estimate.sensitivities.get(symbol)?.input;
    if (own !== undefined && inputUncertainty(own) > 0) inputs.push(own);
  }
  return inputs;
}
