import type { SampledResult, SamplingProgress, SamplingRequest } from '../graph/along/index.ts';

/** From the page to the worker that samples. */
export type ToSamplingWorker = { readonly do: 'sample'; readonly request: SamplingRequest } | { readonly do: 'stop' };

/** And back. */
export type FromSamplingWorker =
  | { readonly tells: 'progress'; readonly progress: SamplingProgress }
  | { readonly tells: 'done'; readonly result: SampledResult };
