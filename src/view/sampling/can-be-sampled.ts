import { inputUncertainty } from '../../core/estimate/index.ts';
import type { Desk } from '../desk.ts';

/** Whether a result hangs on anything uncertain, be it only beyond first order. */
export function canBeSampled(symbol: string, desk: Desk): boolean {
  const state = desk.context().states.symbol(symbol);
  return state?.status === 'value' && [...state.estimate.sensitivities.values()].some(({ input }) => inputUncertainty(input) > 0);
}
