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

interface AutosaveOptions {
  readonly store: ShelfStore;
  readonly sheet: Pick<KeptSheet, 'id' | 'revision' | 'isCopy' | 'origin'>;
  readonly read: () => Pick<KeptSheet, 'title' | 'detail' | 'text' | 'draft'>;
  readonly now: () => Date;
  readonly report: (state: KeepingState) => void;
}

/** Where the sheet stands in the store: its id, and the counter of its savings as this window knows it. */
interface Place {
  readonly id: () => string;
  readonly revision: () => number;
  /** What would be kept now. */
  readonly content: () => Omit<KeptSheet, 'revision' | 'order'>;
  /** A file that is handed out to many is changed by each for himself. */
  readonly makeOwn: () => void;
  /** Keeps it; as a copy where another window has changed the same sheet. Rejects where the browser refuses. */
  readonly save: (at: Date) => Promise<KeepingState>;
}

function placeOf({ store, sheet, read, now }: AutosaveOptions): Place {
  let { id, revision, isCopy } = sheet;
  const { origin } = sheet;
  const content = () => ({ ...read(), id, isCopy, changed: now().toISOString(), ...(origin === undefined ? {} : { origin }) });
  return {
    id: () => id,
    revision: () => revision,
    content,
    makeOwn: () => {
      if (id === origin) id = freshSheetId();
    },
    save: async (at) => {
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
    },
  };
}

/** The clock of keeping: runs soon after the last key, and no later than the longest wait after the first that waits. */
interface Wait {
  readonly soon: () => void;
  readonly in: (milliseconds: number) => void;
  /** What waits from now on is new. */
  readonly begin: () => void;
  readonly stop: () => void;
}

function waitBefore(run: () => void): Wait {
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** When the oldest change that waits was made. */
  let since: number | undefined;
  const saveIn = (milliseconds: number): void => {
    clearTimeout(timer);
    timer = setTimeout(run, milliseconds);
  };
  return {
    soon: () => {
      const present = performance.now();
      since ??= present;
      saveIn(Math.max(0, Math.min(QUIET, since + LONGEST_WAIT - present)));
    },
    in: saveIn,
    begin: () => void (since = undefined),
    stop: () => clearTimeout(timer),
  };
}

/** Keeps the sheet in the browser within a second of any key, however fast others follow, one saving at a time. Longer than a screen, since all it does counts the same changes. */
export function createAutosave(options: AutosaveOptions): Autosave {
  const { now } = options;
  const place = placeOf(options);
  let running: Promise<void> | undefined;
  /** Changes so far, and how many of them have been kept. */
  let changes = 0;
  let keptChanges = 0;
  let retry = FIRST_RETRY;
  let isOver = false;
  const window = freshSheetId();
  // How keeping stands is said of the sheet that lies open, not of one that was left.
  const report = (state: KeepingState): void => {
    if (!isOver) options.report(state);
  };
  const run = (): Promise<void> => {
    wait.stop();
    running ??= keep().finally(() => void (running = undefined));
    return running;
  };
  const wait = waitBefore(() => void run());
  const keep = async (): Promise<void> => {
    const upTo = changes;
    wait.begin();
    try {
      const state = await place.save(now());
      keptChanges = upTo;
      retry = FIRST_RETRY;
      if (changes === upTo) forgetAside(window);
      // Of what was typed while this was being kept, nothing is said yet.
      report(changes === upTo || state.state === 'copied' ? state : { state: 'waiting' });
      if (changes !== upTo) wait.soon();
    } catch (error) {
      report({ state: 'failed', reason: reasonOf(error) });
      wait.begin();
      if (!isOver) wait.in(retry);
      retry = Math.min(LONGEST_RETRY, 2 * retry);
    }
  };

  return {
    touch: () => {
      place.makeOwn();
      changes += 1;
      report({ state: 'waiting' });
      wait.soon();
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
      setAside(window, { ...place.content(), revision: place.revision() });
      void run();
    },
    sheetId: place.id,
    revision: place.revision,
    dispose: () => {
      isOver = true;
      wait.stop();
    },
  };
}

function reasonOf(error: unknown): string {
  return isFull(error) ? 'there is no room left for it in this browser' : 'the browser refused to keep it';
}
