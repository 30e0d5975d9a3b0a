/** What the browser gives while it keeps the screen on. */
interface Held {
  release(): Promise<void>;
  addEventListener(name: 'release', hear: () => void): void;
}

/** The browser's own lock; absent where it has none. */
export interface ScreenLock {
  request(type: 'screen'): Promise<Held>;
}

export interface Awake {
  /** Whether the screen is to stay on. */
  want(isWanted: boolean): void;
  /** The page was shown or hidden: a browser takes the lock away with a page that is hidden, and it is asked for anew. */
  look(): void;
  dispose(): void;
}

/** Keeps the screen on while somebody watches a test, where the browser can. One that refuses is asked again when the page is shown next. */
export function createAwake(lock: ScreenLock | undefined, isVisible: () => boolean): Awake {
  let wanted = false;
  let held: Held | undefined;
  let isAsking = false;
  const follow = async (): Promise<void> => {
    if (isAsking || lock === undefined) return;
    if (wanted && held === undefined && isVisible()) {
      isAsking = true;
      const given = await lock.request('screen').catch(() => undefined);
      isAsking = false;
      if (given === undefined) return;
      held = given;
      given.addEventListener('release', () => {
        if (held === given) held = undefined;
      });
      // No longer wanted, perhaps, by the time it was given.
      return follow();
    }
    if (!wanted && held !== undefined) {
      const before = held;
      held = undefined;
      await before.release().catch(() => undefined);
    }
  };
  return {
    want: (isWanted) => {
      if (wanted === isWanted) return;
      wanted = isWanted;
      void follow();
    },
    look: () => void follow(),
    dispose: () => {
      wanted = false;
      void follow();
    },
  };
}
