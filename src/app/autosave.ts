import { forgetAside, setAside } from './last-words.ts';
import { freshSheetId, type KeptSheet, type ShelfStore } from './shelf-store.ts';

/** How keeping stands, for the line at the top of the page. */
export type KeepingState =
  | { readonly state: 'unchanged' }
  | { readonly state: 'waiting' }
  | { readonly state: 'kept'; readonly at: Date }
  /** Another window changed the same sheet: this one goes on as a copy. */
  | { readonly state: 'copied'; readonly at: Date }
  | { readonly state: 'failed'; readonly reason: string };

/** Longest wait after the last key before the sheet is kept, in milliseconds. */
const QUIET = 400;
/** That of a sheet that takes long to keep: so many times what it took last. */
const REST = 20;
const LONGEST_QUIET = 3000;

export const KEEPS_NOTHING = 'this browser keeps nothing for this page';

export interface Autosave {
  /** Something changed: keep the sheet soon. */
  touch(): void;
  /** Keep it now, if anything is waiting. */
  flush(): Promise<void>;
  /** The page is being hidden or closed: set aside at once what is not kept yet, and keep it if there is still time. */
  leave(): void;
  readonly sheetId: () => string;
  dispose(): void;
}

export interface AutosaveOptions {
  readonly store: ShelfStore | undefined;
  readonly sheet: Pick<KeptSheet, 'id' | 'revision' | 'isCopy'>;
  readonly read: () => Pick<KeptSheet, 'title' | 'detail' | 'text'>;
  readonly now: () => Date;
  readonly report: (state: KeepingState) => void;
}

/** Keeps the sheet in the browser within half a second of the last key, a long one within some seconds, one saving at a time. */
export function createAutosave(options: AutosaveOptions): Autosave {
  const { store, read, now, report } = options;
  let { id, revision, isCopy } = options.sheet;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> = Promise.resolve();
  /** Changes so far, and how many of them have been kept. */
  let changes = 0;
  let keptChanges = 0;
  /** Milliseconds that keeping took last. */
  let took = 0;
  const window = freshSheetId();

  const keep = async (): Promise<void> => {
    if (store === undefined) return report({ state: 'failed', reason: KEEPS_NOTHING });
    const at = now();
    const begun = performance.now();
    const upTo = changes;
    const sheet = { ...read(), changed: at.toISOString() };
    try {
      let saved = await store.save({ ...sheet, id, isCopy }, revision);
      const branched = !saved.done;
      if (branched) {
        id = freshSheetId();
        isCopy = true;
        saved = await store.save({ ...sheet, id, isCopy }, 0);
      }
      if (saved.done) revision = saved.revision;
      keptChanges = upTo;
      took = performance.now() - begun;
      if (changes === upTo) forgetAside(window);
      report({ state: branched ? 'copied' : 'kept', at });
    } catch (error) {
      report({ state: 'failed', reason: reasonOf(error) });
    }
  };

  const flush = (): Promise<void> => {
    if (timer === undefined) return running;
    clearTimeout(timer);
    timer = undefined;
    running = running.then(keep);
    return running;
  };

  return {
    touch: () => {
      changes += 1;
      report({ state: 'waiting' });
      clearTimeout(timer);
      timer = setTimeout(() => void flush(), Math.max(QUIET, Math.min(LONGEST_QUIET, REST * took)));
    },
    flush,
    leave: () => {
      if (changes === keptChanges) return;
      setAside(window, { ...read(), id, revision, isCopy, changed: now().toISOString() });
      void flush();
    },
    sheetId: () => id,
    dispose: () => clearTimeout(timer),
  };
}

function reasonOf(error: unknown): string {
  if (error instanceof DOMException && error.name === 'QuotaExceededError') return 'there is no room left for it in this browser';
  return 'the browser refused to keep it';
}
