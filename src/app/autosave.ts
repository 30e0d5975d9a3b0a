import type { KeptSheet, ShelfStore } from './shelf-store.ts';

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

export interface Autosave {
  /** Something changed: keep the sheet soon. */
  touch(): void;
  /** Keep it now, if anything is waiting; for a page that is being hidden. */
  flush(): Promise<void>;
  readonly sheetId: () => string;
  dispose(): void;
}

export interface AutosaveOptions {
  readonly store: ShelfStore | undefined;
  readonly sheet: Pick<KeptSheet, 'id' | 'revision'>;
  readonly read: () => { readonly title: string; readonly text: string };
  readonly freshId: () => string;
  readonly now: () => Date;
  readonly report: (state: KeepingState) => void;
}

/** Keeps the sheet in the browser within half a second of the last key, one saving at a time. */
export function createAutosave(options: AutosaveOptions): Autosave {
  const { store, read, now, report } = options;
  let { id, revision } = options.sheet;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> = Promise.resolve();

  const keep = async (): Promise<void> => {
    if (store === undefined) return report({ state: 'failed', reason: 'this browser keeps nothing for this page' });
    const at = now();
    const sheet = { id, ...read(), changed: at.toISOString() };
    try {
      let saved = await store.save(sheet, revision);
      const isCopy = !saved.done;
      if (!saved.done) {
        id = options.freshId();
        saved = await store.save({ ...sheet, id, title: `${sheet.title} (copy)` }, 0);
      }
      if (saved.done) revision = saved.revision;
      report({ state: isCopy ? 'copied' : 'kept', at });
    } catch (error) {
      report({ state: 'failed', reason: error instanceof Error ? error.message : String(error) });
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
      report({ state: 'waiting' });
      clearTimeout(timer);
      timer = setTimeout(() => void flush(), QUIET);
    },
    flush,
    sheetId: () => id,
    dispose: () => clearTimeout(timer),
  };
}
