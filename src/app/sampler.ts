import type { Sampler } from '../view/index.ts';
import type { FromSamplingWorker, ToSamplingWorker } from './sampling-messages.ts';
import SamplingWorker from './sampling-worker.ts?worker&inline';

/** The last worker that came to an end by itself: its loops are compiled, the next samples take half as long. */
let idle: Worker | undefined;

/** A worker for each sampling; one that is cancelled is gone at once, whatever it is at. */
export const sampler: Sampler = {
  sample: (request, listener) => {
    let worker: Worker;
    try {
      worker = idle ?? new SamplingWorker();
    } catch {
      // Some settings forbid workers altogether.
      queueMicrotask(listener.failed);
      return { stop: () => undefined, cancel: () => undefined };
    }
    idle = undefined;
    let isOver = false;
    const tell = (message: ToSamplingWorker): void => {
      if (!isOver) worker.postMessage(message);
    };
    worker.onmessage = ({ data }: MessageEvent<FromSamplingWorker>) => {
      if (data.tells === 'progress') return listener.progress(data.progress);
      isOver = true;
      if (idle === undefined) idle = worker;
      else worker.terminate();
      listener.done(data.result);
    };
    worker.onerror = () => {
      isOver = true;
      worker.terminate();
      listener.failed();
    };
    tell({ do: 'sample', request });
    return {
      stop: () => tell({ do: 'stop' }),
      cancel: () => {
        if (!isOver) worker.terminate();
        isOver = true;
      },
    };
  },
};
