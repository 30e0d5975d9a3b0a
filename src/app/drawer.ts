import type { Drawer } from '../view/index.ts';
import type { FromDrawWorker, ToDrawWorker } from './draw-messages.ts';
import DrawWorker from './draw-worker.ts?worker&inline';

/** Draws in a worker of its own each time: one that is cancelled is gone at once, whatever it is at. */
export const drawer: Drawer = {
  draw: (request, listener) => {
    let worker: Worker;
    try {
      worker = new DrawWorker();
    } catch {
      // Some settings forbid workers altogether.
      queueMicrotask(listener.failed);
      return { stop: () => undefined, cancel: () => undefined };
    }
    const tell = (message: ToDrawWorker): void => worker.postMessage(message);
    worker.onmessage = ({ data }: MessageEvent<FromDrawWorker>) => {
      if (data.tells === 'progress') return listener.progress(data.progress);
      worker.terminate();
      listener.done(data.result);
    };
    worker.onerror = () => {
      worker.terminate();
      listener.failed();
    };
    tell({ do: 'draw', request });
    return { stop: () => tell({ do: 'stop' }), cancel: () => worker.terminate() };
  },
};
