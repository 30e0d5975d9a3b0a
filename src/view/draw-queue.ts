import type { Block } from '../sheet/index.ts';
import { whenStill } from './still.ts';

/** Time for what is out of view, ms, before the page is given back to the reader; then slice by slice. */
const AT_ONCE = 16;
const SLICE = 12;
/** The same while the sheet first comes into the page, when nobody types yet: each slice costs a frame. */
const FIRST_SLICE = 40;
/** Rest after an edit, ms, before heavy blocks out of view follow. */
const REST = 600;

/** Blocks that are still to be drawn: those out of view, in slices; then those that take long by themselves, one in a task. */
interface DrawQueue {
  /** Takes the place of what still waited. */
  put(waiting: readonly Block[], heavy: readonly Block[]): void;
  /** Draws for a moment, and the rest in the tasks after this one. */
  begin(): void;
  /** The same when the sheet first comes into the page, all of it in the tasks after this one. */
  beginLater(): void;
  /** Those that wait; not the heavy ones. */
  waiting(): readonly Block[];
  /** Draws now all that is left. */
  finish(): void;
  stop(): void;
}

interface QueueHands {
  readonly draw: (block: Block) => void;
  readonly isInView: (block: Block) => boolean;
  /** All are drawn but the heavy ones. */
  readonly whenDrawn: () => void;
}

export function createDrawQueue({ draw, isInView, whenDrawn }: QueueHands): DrawQueue {
  let waiting: readonly Block[] = [];
  let heavy: readonly Block[] = [];
  let slice = SLICE;
  let task: ReturnType<typeof setTimeout> | undefined;

  const drawHeavy = (): void => {
    const next = heavy.find(isInView) ?? heavy[0];
    if (next === undefined) return;
    heavy = heavy.filter((block) => block !== next);
    draw(next);
    followLater();
  };
  const followLater = (): void => {
    if (heavy.length > 0) task = setTimeout(() => whenStill(drawHeavy, drawHeavy), heavy.some(isInView) ? 0 : REST);
  };
  const drawWaiting = (milliseconds: number): void => {
    clearTimeout(task);
    const until = performance.now() + milliseconds;
    let drawn = 0;
    for (const block of waiting) {
      draw(block);
      drawn++;
      if (performance.now() > until) break;
    }
    waiting = waiting.slice(drawn);
    if (waiting.length > 0) drawWaitingLater();
    else {
      whenDrawn();
      followLater();
    }
  };
  const drawWaitingLater = (): void => {
    task = setTimeout(() => whenStill(drawWaitingLater, () => drawWaiting(slice)));
  };
  return {
    put: (later, long) => {
      waiting = later;
      heavy = long;
    },
    begin: () => {
      slice = SLICE;
      drawWaiting(AT_ONCE);
    },
    beginLater: () => {
      slice = FIRST_SLICE;
      drawWaitingLater();
    },
    waiting: () => waiting,
    finish: () => {
      if (waiting.length > 0) drawWaiting(Number.POSITIVE_INFINITY);
      clearTimeout(task);
      while (heavy.length > 0) drawHeavy();
      clearTimeout(task);
    },
    stop: () => clearTimeout(task),
  };
}
