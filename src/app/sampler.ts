import type { SamplingInHand, SamplingListener, Sampler } from '../view/index.ts';
import type { FromSamplingWorker, ToSamplingWorker } from './sampling-messages.ts';

/** The most workers for one sampling: from here on what one of them does for all takes longer than what the others make. */
const MOST_WORKERS = 4;

/** Workers without work: their loops are compiled, the next samples take half as long. */
const idle: Worker[] = [];

/** Some workers for each sampling, of which the first leads; a lead that is cancelled is gone at once, whatever it is at. */
export const sampler: Sampler = {
  sample: (request, listener) => {
    let wanted: 'all' | 'what there is' | 'nothing' = 'all';
    let inHand: SamplingInHand | undefined;
    const begin = (workers: readonly Worker[]): void => {
      if (wanted === 'nothing') return workers.forEach(released);
      inHand = atWork(workers, request, listener);
      if (wanted === 'what there is') inHand.stop();
    };
    const count = wantedWorkers();
    if (idle.length >= count) begin(idle.splice(0, count));
    else {
      // Rejected too where some settings forbid workers altogether.
      void hired(count).then(begin, () => {
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

/** One for each processor, as far as the browser tells. */
function wantedWorkers(): number {
  return Math.max(1, Math.min(MOST_WORKERS, navigator.hardwareConcurrency));
}

/** So many workers, new ones where none are idle. Their script is a part of the page by itself. */
async function hired(count: number): Promise<readonly Worker[]> {
  const { default: SamplingWorker } = await import('./sampling-worker.ts?worker&inline');
  return Array.from({ length: count }, () => idle.pop() ?? new SamplingWorker());
}

/** Gives a worker back; as many are kept as one sampling has. */
function released(worker: Worker): void {
  worker.onmessage = null;
  worker.onerror = null;
  if (idle.length < wantedWorkers()) idle.push(worker);
  else worker.terminate();
}

function atWork([leader, ...helpers]: readonly Worker[], request: Parameters<Sampler['sample']>[0], listener: SamplingListener): SamplingInHand {
  if (leader === undefined) throw new Error('a sampling has a worker that leads');
  let isOver = false;
  const working = new Set(helpers);
  const tell = (worker: Worker, message: ToSamplingWorker, ports: MessagePort[] = []): void => {
    if (!isOver) worker.postMessage(message, ports);
  };
  const finish = (): void => {
    isOver = true;
    for (const helper of working) released(helper);
    working.clear();
  };
  leader.onmessage = ({ data }: MessageEvent<FromSamplingWorker>) => {
    if (data.tells === 'progress') return listener.progress(data.progress);
    finish();
    released(leader);
    listener.done(data.result);
  };
  leader.onerror = () => {
    finish();
    leader.terminate();
    listener.failed();
  };
  const ports = helpers.map((helper, place) => {
    const { port1, port2 } = new MessageChannel();
    tell(helper, { do: 'help', request, port: port1 }, [port1]);
    helper.onerror = () => {
      helper.terminate();
      working.delete(helper);
      tell(leader, { do: 'without', helper: place });
    };
    return port2;
  });
  tell(leader, { do: 'sample', request, helpers: ports }, ports);
  return {
    stop: () => tell(leader, { do: 'stop' }),
    cancel: () => {
      if (isOver) return;
      finish();
      leader.terminate();
    },
  };
}
