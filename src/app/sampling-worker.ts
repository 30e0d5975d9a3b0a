/**
 * A worker that makes samples. One leads: a request in, progress and a result out; it makes blocks itself, has others made by its helpers, and puts all in
 * their order, so that the result is the same with any number of helpers. A stop ends it early.
 */
import { blockMaker, SampleRoom, startSampling, type Sampling, type SamplingRequest } from '../graph/along/index.ts';
import type { FromHelper, FromSamplingWorker, ToHelper, ToSamplingWorker } from './sampling-messages.ts';

/** Between two looks at the clock and at what has come in, ms: helpers wait no longer for their next blocks. */
const SLICE = 4;
/** Between two reports; each makes the page draw its cell again, ms. */
const REPORT = 120;
/** Blocks that a helper makes for one message; while it is at these it has as many more waiting. */
const AT_ONCE = 3;

interface WorkerScope {
  onmessage: ((event: { readonly data: ToSamplingWorker }) => void) | null;
  postMessage(message: FromSamplingWorker): void;
}

const scope = globalThis as unknown as WorkerScope;
const room = new SampleRoom();
/** The sampling that this worker leads. */
let led: { readonly stop: () => void; readonly without: (helper: number) => void } | undefined;

scope.onmessage = ({ data }) => {
  switch (data.do) {
    case 'sample': return lead(data.request, data.helpers);
    case 'help': return help(data.request, data.port);
    case 'stop': return led?.stop();
    case 'without': return led?.without(data.helper);
  }
};

function help(request: SamplingRequest, port: MessagePort): void {
  const make = blockMaker(request);
  port.onmessage = ({ data }: MessageEvent<ToHelper>) => {
    const made: FromHelper = data.map((block) => [block, make(block).slice()]);
    port.postMessage(made, made.map(([, values]) => values.buffer));
  };
}

/** A helper as the leading worker sees it: what it was asked for and has not handed in. */
class Helper {
  readonly #sampling: Sampling;
  readonly #port: MessagePort;
  /** All that make samples, with the one that leads. */
  readonly #workers: number;
  #asked: number[] = [];

  constructor(sampling: Sampling, port: MessagePort, workers: number, onHanded: () => void) {
    this.#sampling = sampling;
    this.#workers = workers;
    this.#port = port;
    port.onmessage = ({ data }: MessageEvent<FromHelper>) => {
      for (const [block, values] of data) sampling.hand(block, values);
      this.#asked = this.#asked.filter((block) => !data.some(([made]) => made === block));
      this.ask();
      onHanded();
    };
  }

  ask(): void {
    if (this.#asked.length > AT_ONCE) return;
    // Of the last ones no more than a fair share, with those that it is at already, so that all end together.
    const share = Math.ceil((this.#sampling.left() - (this.#workers - 1) * this.#asked.length) / this.#workers);
    const blocks = this.#sampling.claim(Math.min(AT_ONCE, share));
    if (blocks.length === 0) return;
    this.#asked.push(...blocks);
    this.#port.postMessage(blocks);
  }

  end(): void {
    this.#port.close();
    this.#sampling.giveBack(this.#asked);
    this.#asked = [];
  }
}

function lead(request: SamplingRequest, ports: readonly MessagePort[]): void {
  const sampling = startSampling(request, room);
  // A message to ourselves lets those of the page and the helpers come in between, without the pause that a timer makes.
  const { port1, port2 } = new MessageChannel();
  let reported = performance.now();
  let isEnded = false;
  let isWaiting = false;
  const end = (): void => {
    if (isEnded) return;
    isEnded = true;
    led = undefined;
    for (const helper of helpers) helper.end();
    port1.close();
    scope.postMessage({ tells: 'done', result: sampling.result() });
  };
  const goOn = (): void => {
    if (isEnded || isWaiting) return;
    isWaiting = true;
    port2.postMessage(undefined);
  };
  const slice = (): void => {
    isWaiting = false;
    const until = performance.now() + SLICE;
    let more = true;
    while (more && performance.now() < until) more = sampling.advance();
    if (sampling.isOver()) return end();
    if (performance.now() - reported > REPORT) {
      reported = performance.now();
      scope.postMessage({ tells: 'progress', progress: sampling.progress() });
    }
    // With nothing left to make here, what the helpers hand in goes on.
    if (more) goOn();
  };
  const helpers = ports.map((port) => new Helper(sampling, port, ports.length + 1, () => (sampling.isOver() ? end() : goOn())));
  led = {
    stop: end,
    without: (helper) => {
      helpers[helper]?.end();
      goOn();
    },
  };
  port1.onmessage = slice;
  for (const helper of helpers) for (let ahead = 0; ahead < 2; ahead++) helper.ask();
  slice();
}
