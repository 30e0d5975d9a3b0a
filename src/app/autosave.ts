import { isFull } from './connection.ts';
import type { KeptSheet } from './kept-sheet.ts';
import { forgetAside, setAside } from './last-words.ts';
import { freshSheetId, type ShelfStore } from './shelf-store.ts';

/** How keeping stands, for the line at the top of the page. */
export type KeepingState =
  | { readonly state: 'unchanged' }
  | { readonly state: 'waiting' }
  | { readonly state: 'kept'; readonly at: Date }
  /** Another window changed the same sheet: this one goes on as a copy. */
  | { readonly state: 'copied'; readonly at: Date; readonly otherId: string }
  | { readonly state: 'failed'; readonly reason: string };

/** Rest after the last key before the sheet is kept, ms, and how long anything typed waits at most while typing goes on. */
const QUIET = 300;
const LONGEST_WAIT = 600;
/** What could not be kept is tried again after so long, ms, then after twice as long, and so on. */
const FIRST_RETRY = 1000;
const LONGEST_RETRY = 30_000;

export const KEEPS_NOTHING = 'this browser keeps nothing for this page';

export interface Autosave {
  /** Something changed: keep the sheet soon. */
  touch(): void;
  /** Keep it now, if anything is waiting. */
  flush(): Promise<void>;
  /** The page is being hidden or closed: set aside at once what is not kept yet, and keep it if there is still time. */
  leave(): void;
  readonly sheetId: () => string;
  /** Counts the savings of the sheet as this window knows it. */
  readonly revision: () => number;
  dispose(): void;
}

export interface AutosaveOptions {
  readonly store: ShelfStore;
  readonly sheet: Pick<KeptSheet, 'id' | 'revision' | 'isCopy' | 'origin'>;
  readonly read: () => Pick<KeptSheet, 'title' | 'detail' | 'text' | 'draft'>;
  readonly now: () => Date;
  readonly report: (state: KeepingState) => void;
}

/** Keeps the sheet in the browser within a second of any key, however fast others follow, one saving at a time. */
export function createAutosave({ store, sheet, read, now, report: tell }: AutosaveOptions): Autosave {
  let { id, revision, isCopy } = sheet;
  const { origin } = sheet;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let running: Promise<void> | undefined;
  /** Changes so far, and how many of them have been kept. */
  let changes = 0;
  let keptChanges = 0;
  /** When the oldest change that waits was made. */
  let since: number | undefined;
  let retry = FIRST_RETRY;
  let isOver = false;
  const window = freshSheetId();
  // How keeping stands is said of the sheet that lies open, not of one that was left.
  const report = (state: KeepingState): void => {
    if (!isOver) tell(state);
  };
  const content = () => ({ ...read(), id, isCopy, changed: now().toISOString(), ...(origin === undefined ? {} : { origin }) });

  const keep = async (): Promise<void> => {
    const at = now();
    const upTo = changes;
    since = undefined;
    try {
      const state = await saved(at);
      keptChanges = upTo;
      retry = FIRST_RETRY;
      if (changes === upTo) forgetAside(window);
      // Of what was typed while this was being kept, nothing is said yet.
      report(changes === upTo || state.state === 'copied' ? state : { state: 'waiting' });
      if (changes !== upTo) plan();
    } catch (error) {
      report({ state: 'failed', reason: reasonOf(error) });
      since = undefined;
      if (!isOver) planIn(retry);
      retry = Math.min(LONGEST_RETRY, 2 * retry);
    }
  };
  const saved = async (at: Date): Promise<KeepingState> => {
    const first = await store.save(content(), revision);
    if (first.done) {
      revision = first.revision;
      return { state: 'kept', at };
    }
    const otherId = id;
    const freshId = freshSheetId();
    const copy = await store.save({ ...content(), id: freshId, isCopy: true }, 0);
    id = freshId;
    isCopy = true;
    if (copy.done) revision = copy.revision;
    return { state: 'copied', at, otherId };
  };

  const run = (): Promise<void> => {
    clearTimeout(timer);
    timer = undefined;
    running ??= keep().finally(() => void (running = undefined));
    return running;
  };
  const planIn = (milliseconds: number): void => {
    clearTimeout(timer);
    timer = setTimeout(() => void run(), milliseconds);
  };
  /** While one saving runs, the next is planned at its end. */
  const plan = (): void => {
    const present = performance.now();
    since ??= present;
    if (running === undefined || changes !== keptChanges) planIn(Math.max(0, Math.min(QUIET, since + LONGEST_WAIT - present)));
  };

  return {
    touch: () => {
      // A file that is handed out to many is changed by each for himself.
      if (id === origin) id = freshSheetId();
      changes += 1;
      report({ state: 'waiting' });
      plan();
    },
    flush: async () => {
      // What was typed while a saving ran waits for the next one.
      while (changes !== keptChanges || running !== undefined) {
        const before = keptChanges;
        await run();
        if (keptChanges === before && changes !== keptChanges) return;
      }
    },
    leave: () => {
      if (changes === keptChanges) return;
      setAside(window, { ...content(), revision });
      void run();
    },
    sheetId: () => id,
    revision: () => revision,
    dispose: () => {
      isOver = true;
      clearTimeout(timer);
    },
  };
}

function reasonOf(error: unknown): string {
  return isFull(error) ? 'there is no room left for it in this browser' : 'the browser refused to keep it';
}
