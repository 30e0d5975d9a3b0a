import { cellIn, type Block } from '../sheet/index.ts';
import type { BlockList } from './block-list.ts';
import type { Desk } from './desk.ts';
import type { LongSheet } from './long-sheet.ts';

/** Where a reader is in a sheet. */
export interface ReadingPlace {
  /** The block at the head of the window, then some that stand before it, the nearest first: it may be gone when the reader comes again. */
  readonly blocks: readonly string[];
  /** So far the first of them has gone by, px. */
  readonly offset: number;
}

/** Keeps the place as long as the browser keeps anything; undefined at the head of the sheet. */
export interface PlaceMemory {
  read(): ReadingPlace | undefined;
  write(place: ReadingPlace | undefined): void;
}

export interface PlaceKeeper {
  /** Once the sheet is in the page: puts the reader where they left, unless a link leads to a line. */
  restore(): void;
  dispose(): void;
}

/** Blocks before the one in view that are kept along. */
const BEFORE = 12;
/** Below that much, px, the sheet counts as seen from its head. */
const AT_HEAD = 120;
/** Rest after scrolling, ms, before the place is kept. */
const REST = 250;
/** Blocks that fill a window below a place, drawn before it is shown. */
const FILLING = 14;
/** Rest, ms, after all is drawn and nothing about it has moved, before the place is let go: equations are set late, and lines get their height then. */
const SETTLING = 1500;
/** Longest time, ms, in which the place is held while lines about it get their height: on a slow telephone with much else to do. */
const LONGEST = 30_000;

interface Places {
  readonly list: Pick<BlockList, 'element' | 'drawIfChanged'>;
  readonly long: Pick<LongSheet, 'reach'>;
  readonly desk: Pick<Desk, 'folds'>;
  readonly now: { readonly blocks: ReadonlyMap<string, Block>; readonly order: ReadonlyMap<string, number> };
}

export function createPlaceKeeper(work: () => Places, memory: PlaceMemory): PlaceKeeper {
  const watch = new AbortController();
  const { signal } = watch;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let isShown = false;
  const keep = (): void => {
    clearTimeout(timer);
    timer = undefined;
    if (document.documentElement.classList.contains('in-lecture')) return;
    memory.write(placeNow(work()));
    // The browser would go back to where the window was, by pixels of another layout; it may where nothing is remembered.
    history.scrollRestoration = memory.read() === undefined ? 'auto' : 'manual';
  };
  const keepWaiting = (): void => {
    if (timer !== undefined) keep();
  };
  const scrolled = (): void => {
    if (!isShown) return;
    clearTimeout(timer);
    timer = setTimeout(keep, REST);
  };
  window.addEventListener('scroll', scrolled, { passive: true, signal });
  window.addEventListener('pagehide', keepWaiting, { signal });
  document.addEventListener('visibilitychange', keepWaiting, { signal });
  return {
    restore: () => {
      const linked = document.getElementById(decodeURIComponent(location.hash.slice(1)));
      const place = location.hash === '' || linked === null ? memory.read() : undefined;
      isShown = true;
      if (linked !== null && location.hash !== '') linked.scrollIntoView({ block: 'center', behavior: 'instant' });
      else if (place !== undefined) show(place, work(), signal);
    },
    dispose: () => {
      keepWaiting();
      watch.abort();
    },
  };
}

function placeNow({ list, now, desk }: Places): ReadingPlace | undefined {
  if (scrollY < AT_HEAD) return undefined;
  const ids = [...now.blocks.keys()].filter((id) => !desk.folds.isAway(id));
  const bottomOf = (id: string | undefined): number => list.element(id ?? '')?.getBoundingClientRect().bottom ?? Number.NEGATIVE_INFINITY;
  let [gone, seen] = [-1, ids.length - 1];
  while (seen - gone > 1) {
    const middle = Math.floor((gone + seen) / 2);
    if (bottomOf(ids[middle]) > 0) seen = middle;
    else gone = middle;
  }
  const top = list.element(ids[seen] ?? '')?.getBoundingClientRect().top;
  return top === undefined ? undefined : { blocks: ids.slice(Math.max(0, seen - BEFORE), seen + 1).toReversed(), offset: Math.round(-top) };
}

/** Shows the place in the same task, and holds it there until all is drawn or the reader moves. */
function show({ blocks, offset }: ReadingPlace, { list, long, now, desk }: Places, signal: AbortSignal): void {
  const index = blocks.findIndex((id) => now.order.has(id) && !desk.folds.isAway(id));
  const id = blocks[index];
  if (id === undefined) return;
  long.reach(now.order.get(id) ?? 0);
  const all = [...now.blocks.values()];
  const from = all.findIndex((block) => block.id === id);
  // What the window shows is drawn first, so that it does not move under the eye.
  for (const block of all.slice(from, from + FILLING)) if (cellIn(block, 'table') === undefined) list.drawIfChanged(block);
  const hold = new AbortController();
  const options = { capture: true, passive: true, signal: AbortSignal.any([hold.signal, signal]) };
  const isOver = (): boolean => hold.signal.aborted || signal.aborted;
  let last = { at: Number.NaN, height: 0, scroll: 0 };
  let moved = 0;
  const put = (): void => {
    const there = list.element(id);
    if (there === undefined) return;
    const off = there.getBoundingClientRect().top + (index === 0 ? offset : 0);
    const now = { at: scrollY + off, height: document.documentElement.scrollHeight, scroll: scrollY };
    // All stands where it stood and the window doesn't: somebody else has scrolled, as reading aids do without a key. A page that is short for a moment scrolls by itself.
    const isElsewhere = Math.abs(now.at - last.at) < 1 && now.height === last.height && Math.abs(now.scroll - last.scroll) > 1;
    if (isElsewhere) return hold.abort();
    if (Math.abs(off) >= 1) {
      scrollTo({ top: now.at, behavior: 'instant' });
      moved = performance.now();
    }
    last = { ...now, scroll: scrollY };
  };
  for (const name of ['wheel', 'touchstart', 'keydown', 'pointerdown']) window.addEventListener(name, () => hold.abort(), options);
  let settled = Infinity;
  const frames = (): void => {
    // Since the frame was asked for the reader may have moved, or another sheet may have been opened.
    if (isOver()) return;
    put();
    if (performance.now() - Math.max(settled, moved) > SETTLING) hold.abort();
    requestAnimationFrame(frames);
  };
  frames();
  window.addEventListener('spanlife:settled', () => void (settled = performance.now()), { ...options, once: true });
  setTimeout(() => hold.abort(), LONGEST);
}
