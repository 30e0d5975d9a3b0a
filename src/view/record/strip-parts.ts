import { createAwake, type Awake, type ScreenLock } from './awake.ts';
import { createClockWatch, type ClockWatch } from './clock-watch.ts';
import type { TestsElsewhere } from './elsewhere.ts';

/** What stands behind the strip of a running test, as long as its sheet lies open. */
export interface StripParts {
  readonly awake: Awake;
  readonly clock: ClockWatch;
  /** Tests on other sheets, where the page keeps any. */
  readonly elsewhere: TestsElsewhere | undefined;
  dispose(): void;
}

/** @param shown called when the page is shown again, after whatever was between */
export function createStripParts(elsewhere: TestsElsewhere | undefined, now: () => Date, shown: () => void): StripParts {
  const { wakeLock } = navigator as { readonly wakeLock?: ScreenLock };
  const awake = createAwake(wakeLock, () => !document.hidden);
  let wasHidden = document.hidden;
  const clock = createClockWatch(() => {
    const wasSeen = !wasHidden && !document.hidden;
    wasHidden = document.hidden;
    return { wall: now().getTime(), steady: performance.now(), wasSeen };
  });
  const look = (): void => {
    if (document.hidden) wasHidden = true;
    else shown();
    awake.look();
  };
  document.addEventListener('visibilitychange', look);
  return {
    awake, clock, elsewhere,
    dispose: () => {
      document.removeEventListener('visibilitychange', look);
      awake.dispose();
    },
  };
}
