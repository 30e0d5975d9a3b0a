import type { SampledResult, SamplingProgress, SymbolState } from '../../graph/index.ts';
import type { SamplingInHand } from './sampler.ts';

/** Samples of one result: what is asked for, what is being made and what there is. */
export interface SamplingUi {
  seed: number;
  digits: 1 | 2;
  /** A seed as it was typed that is none, until another is typed. */
  refusedSeed: string | undefined;
  /** What the sampling in hand, or the last one begun, is of. */
  begun: { readonly state: SymbolState; readonly seed: number; readonly digits: 1 | 2 } | undefined;
  inHand: SamplingInHand | undefined;
  progress: SamplingProgress | undefined;
  /** The last samples that came to an end, with the result as it was when they were begun. */
  sampled: { readonly result: SampledResult; readonly state: SymbolState } | undefined;
  hasFailed: boolean;
  waiting: ReturnType<typeof setTimeout> | undefined;
}

export function createSamplingUi(): SamplingUi {
  return {
    seed: 1,
    digits: 2,
    refusedSeed: undefined,
    begun: undefined,
    inHand: undefined,
    progress: undefined,
    sampled: undefined,
    hasFailed: false,
    waiting: undefined,
  };
}

/** Ends what is in hand without a result. */
export function cancelSampling(ui: SamplingUi): void {
  clearTimeout(ui.waiting);
  ui.inHand?.cancel();
  ui.inHand = undefined;
  ui.progress = undefined;
}
