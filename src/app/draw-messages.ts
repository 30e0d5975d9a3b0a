import type { DrawnResult, DrawProgress, DrawRequest } from '../graph/along/index.ts';

/** From the page to the worker that draws. */
export type ToDrawWorker = { readonly do: 'draw'; readonly request: DrawRequest } | { readonly do: 'stop' };

/** And back. */
export type FromDrawWorker =
  | { readonly tells: 'progress'; readonly progress: DrawProgress }
  | { readonly tells: 'done'; readonly result: DrawnResult };
