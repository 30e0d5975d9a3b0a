import type { Drawer } from '../view/index.ts';
import type { FromDrawWorker, ToDrawWorker } from './draw-messages.ts';
import DrawWorker from './draw-worker.ts?worker&inline';

/** The last worker that came to an end by itself: its loops are compiled, the next draws take half as long. */
let idle: Worker | undefined;

/** A worker for each drawing; one that is cancelled is gone at once, whatever it is at. */
export const drawer: Drawer = {
  draw: (request, listener) => {
    let worker: Worker;
    try {
      worker = idle ?? new DrawWorker();
    } catch {
      // Some settings forbid workers altogether.
      queueMicrotask(listener.failed);
      return { stop: () => undefined, cancel: () => undefined };
    }
    idle = undefined;
    let isOver = false;
    const tell = (message: ToDrawWorker): void => {
      if (!isOver) worker.postMessage(message);
    };
    worker.onmessage = ({ data }: MessageEvent<FromDrawWorker>) => {
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
    tell({ do: 'draw', request });
    return {
      stop: () => tell({ do: 'stop' }),
      cancel: () => {
        if (!isOver) worker.terminate();
        isOver = true;
      },
    };
  },
};
