import type { SamplingInHand, SamplingListener, Sampler } from '../view/index.ts';
import type { FromSamplingWorker, ToSamplingWorker } from './sampling-messages.ts';

/** The last worker that came to an end by itself: its loops are compiled, the next samples take half as long. */
let idle: Worker | undefined;

/** A worker for each sampling; one that is cancelled is gone at once, whatever it is at. */
export const sampler: Sampler = {
  sample: (request, listener) => {
    let wanted: 'all' | 'what there is' | 'nothing' = 'all';
    let inHand: SamplingInHand | undefined;
    const begin = (worker: Worker): void => {
      if (wanted === 'nothing') return worker.terminate();
      inHand = atWork(worker, request, listener);
      if (wanted === 'what there is') inHand.stop();
    };
    if (idle !== undefined) {
      begin(idle);
      idle = undefined;
    } else {
      // Rejected too where some settings forbid workers altogether.
      void newWorker().then(begin, () => {
        if (wanted !== 'nothing') listener.failed();
      });
    }
    return {
      stop: () => {
        wanted = 'what there is';
        inHand?.stop();
      },
      cancel: () => {
        wanted = 'nothing';
        inHand?.cancel();
      },
    };
  },
};

/** The worker's script is a part of the page by itself. */
async function newWorker(): Promise<Worker> {
  const { default: SamplingWorker } = await import('./sampling-worker.ts?worker&inline');
  return new SamplingWorker();
}

function atWork(worker: Worker, request: Parameters<Sampler['sample']>[0], listener: SamplingListener): SamplingInHand {
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
}
