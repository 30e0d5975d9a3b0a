import type { SampledResult, SamplingProgress, SamplingRequest } from '../graph/along/index.ts';

/** From the page to the worker that leads a sampling: it has a port to each of its helpers. */
export type ToSamplingWorker =
  | { readonly do: 'sample'; readonly request: SamplingRequest; readonly helpers: readonly MessagePort[] }
  | { readonly do: 'stop' }
  /** A helper failed: what it was at is made by others. */
  | { readonly do: 'without'; readonly helper: number }
  /** To a helper: blocks of this request are asked for over the port. */
  | { readonly do: 'help'; readonly request: SamplingRequest; readonly port: MessagePort };

/** And back. */
export type FromSamplingWorker =
  | { readonly tells: 'progress'; readonly progress: SamplingProgress }
  | { readonly tells: 'done'; readonly result: SampledResult };

/** From the leading worker to a helper: numbers of blocks. */
export type ToHelper = readonly number[];

/** And back: each block with its values. */
export type FromHelper = readonly (readonly [block: number, values: Float64Array])[];
