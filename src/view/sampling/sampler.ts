import type { SampledResult, SamplingProgress, SamplingRequest } from '../../graph/index.ts';

/** Makes samples beside the page, so that the sheet goes on while they are made. */
export interface Sampler {
  sample(request: SamplingRequest, listener: SamplingListener): SamplingInHand;
}

export interface SamplingListener {
  readonly progress: (progress: SamplingProgress) => void;
  /** Not after `cancel`. */
  readonly done: (result: SampledResult) => void;
  /** The browser did not let them be made. */
  readonly failed: () => void;
}

export interface SamplingInHand {
  /** Ends with what there is: `done` follows. */
  stop(): void;
  /** Ends without a result. */
  cancel(): void;
}
