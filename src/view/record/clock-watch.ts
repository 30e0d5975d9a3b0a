/** Both clocks of a page: that of the wall, which can be set, and one that only goes on. Milliseconds. */
export interface Clocks {
  readonly wall: number;
  readonly steady: number;
  /** Whether the page was in view all the time since it was looked at last. */
  readonly wasSeen: boolean;
}

/** The clock of the wall went otherwise than time does. */
export interface ClockJump {
  /** Milliseconds forward; below 0 where it was set back. */
  readonly by: number;
  /** What it says afterwards. */
  readonly at: number;
}

/** Browsers round their clocks and networks mend them by less, ms. */
const LEAST = 5000;

/**
 * Whether the clock was set between two looks. A device that sleeps stops the steady clock, so that a jump ahead may be a sleep: of a page that was
 * out of view nothing is said then, since a telephone in a pocket sleeps all the time.
 */
export function clockJump(before: Clocks, now: Clocks): ClockJump | undefined {
  const by = now.wall - before.wall - (now.steady - before.steady);
  if (Math.abs(by) < LEAST || (by > 0 && !now.wasSeen)) return undefined;
  return { by, at: now.wall };
}

export interface ClockWatch {
  /** What was found and is neither written down nor put away; several jumps are one. */
  readonly jump: () => ClockJump | undefined;
  /** Looks at the clocks; whether something was found. */
  look(): boolean;
  putAway(): void;
}

export function createClockWatch(clocks: () => Clocks): ClockWatch {
  let before = clocks();
  let found: ClockJump | undefined;
  return {
    jump: () => found,
    look: () => {
      const now = clocks();
      const jump = clockJump(before, now);
      before = now;
      if (jump === undefined) return false;
      const by = (found?.by ?? 0) + jump.by;
      // Set, and set right again.
      found = Math.abs(by) < LEAST ? undefined : { by, at: jump.at };
      return true;
    },
    putAway: () => void (found = undefined),
  };
}
