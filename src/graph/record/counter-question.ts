import { countedCycles, isPlausibleCount, runningTime, type CountedCycles, type Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { counterAhead, counterLower } from './record-problems.ts';
import type { CounterGain, CounterQuestion, RecordState } from './types.ts';

/** A reading of the counter, and where it stands: at the start, at the end, or the n-th of those noted between. */
export interface CounterEntry {
  readonly at: number;
  readonly reading: number;
  readonly place: 'start' | 'end' | number;
  /** The roll-over that was confirmed for it, as `rollOverText` writes it. */
  readonly confirmed: string | undefined;
}

interface Setting {
  readonly multiplier: number;
  readonly digits: number;
  readonly speed: RecordState['speed'];
  readonly pauses: readonly Pause[];
}

/** What is believed of a counter's readings, in order of time. */
interface BelievedCounter {
  /** Up to the first reading that has to be asked about. */
  readonly counter: readonly CounterEntry[];
  readonly counted?: CountedCycles;
  readonly question?: CounterQuestion;
  readonly warnings: readonly Problem[];
}

/** A confirmation holds for these two readings only: when one of them is corrected, it is asked anew. */
export function rollOverText(before: number, reading: number): string {
  return `${before} to ${reading}`;
}

/**
 * A reading below that before it is a slip of the pen as often as a counter that has gone past its last number, and the second
 * is believed only when the reader has confirmed it. One that speed and time don't bear out is used, and told.
 */
export function believe(entries: readonly CounterEntry[], setting: Setting): BelievedCounter {
  const lower = entries.findIndex(({ reading, confirmed }, i) => {
    const before = entries[i - 1]?.reading ?? reading;
    return reading < before && confirmed !== rollOverText(before, reading);
  });
  const counter = lower < 0 ? entries : entries.slice(0, lower);
  const [before, asked] = [entries[lower - 1], entries[lower]];
  const ahead = counter.flatMap((entry, i) => {
    const earlier = counter[i - 1];
    const gained = earlier === undefined || typeof entry.place !== 'number' ? undefined : gainOf(earlier, entry, setting);
    return gained === undefined || gained.expected === undefined || gained.isPlausible ? [] : [counterAhead(entry.place as number, gained.cycles, gained.expected)];
  });
  if (before === undefined || asked === undefined || asked.place === 'start') {
    return { counter, warnings: ahead, ...(counter.length < 2 ? {} : { counted: countedCycles(counter.map(({ reading }) => reading), setting) }) };
  }
  const question = { place: asked.place, before: before.reading, reading: asked.reading };
  return { counter, question, warnings: [...ahead, counterLower(question, asked.at - before.at, gainOf(before, asked, setting))] };
}

function gainOf(earlier: CounterEntry, later: CounterEntry, { multiplier, digits, speed, pauses }: Setting): CounterGain {
  const { cycles } = countedCycles([earlier.reading, later.reading], { multiplier, digits });
  if (speed === undefined) return { cycles, isPlausible: true };
  const expected = (speed.value * runningTime(earlier.at, later.at, pauses)) / 1000;
  return { cycles, expected, isPlausible: isPlausibleCount(cycles, expected, multiplier + speed.value) };
}
