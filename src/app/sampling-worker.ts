/** The worker that makes samples: a request in, progress and a result out; any other message stops it early. */
import { SampleRoom, startSampling, type SamplingRequest } from '../graph/along/index.ts';
import type { FromSamplingWorker, ToSamplingWorker } from './sampling-messages.ts';

/** Between two looks at the clock and at what has come in, ms. */
const SLICE = 40;
/** Between two reports; each makes the page draw its cell again, ms. */
const REPORT = 120;

interface WorkerScope {
  onmessage: ((event: { readonly data: ToSamplingWorker }) => void) | null;
  postMessage(message: FromSamplingWorker): void;
}

const scope = globalThis as unknown as WorkerScope;
let isStopped = false;
const room = new SampleRoom();

scope.onmessage = ({ data }) => {
  if (data.do === 'sample') make(data.request);
  else isStopped = true;
};

function make(request: SamplingRequest): void {
  isStopped = false;
  const sampling = startSampling(request, room);
  // A message to ourselves lets those of the page come in between, without the pause that a timer makes.
  const { port1, port2 } = new MessageChannel();
  let reported = performance.now();
  const slice = (): void => {
    const until = performance.now() + SLICE;
    let more = true;
    while (more && performance.now() < until) more = sampling.advance();
    if (!more || isStopped) {
      port1.close();
      scope.postMessage({ tells: 'done', result: sampling.result() });
      return;
    }
    if (performance.now() - reported > REPORT) {
      reported = performance.now();
      scope.postMessage({ tells: 'progress', progress: sampling.progress() });
    }
    port2.postMessage(undefined);
  };
  port1.onmessage = slice;
  slice();
}
