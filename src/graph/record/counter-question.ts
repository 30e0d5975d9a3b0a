import { countedCycles, isPlausibleCount, rollOversBetween, runningTime, type CountedCycles, type Pause } from '../../core/fatigue/index.ts';
import type { Problem } from '../../core/problem/index.ts';
import { counterAhead, counterBehind, counterLower } from './record-problems.ts';
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
  /** Up to the first reading that is below that before it and was not confirmed. */
  readonly counter: readonly (CounterEntry & { readonly rolled: number | undefined })[];
  readonly counted?: CountedCycles;
  readonly question?: CounterQuestion;
  readonly warnings: readonly Problem[];
}

/** A confirmation holds for these two readings only: when one of them is corrected, it is asked anew. */
export function rollOverText(before: number, reading: number, times = 1): string {
  return `${before} to ${reading}${times === 1 ? '' : `, ${times} times`}`;
}

const SEVERAL = /, (\d{1,6}) times$/;

/** How often the counter went past its last number before a reading, as it was confirmed; undefined where it was not, or for other readings. */
function rolledBefore({ reading, confirmed = '' }: CounterEntry, before: number): number | undefined {
  const times = Number(SEVERAL.exec(confirmed)?.[1] ?? 1);
  return confirmed === rollOverText(before, reading, times) ? times : undefined;
}

/**
 * A reading below that before it is a slip of the pen as often as a counter that has gone past its last number, and the second
 * is believed only when the reader has confirmed it. One that speed and time don't bear out is used, and told; where roll-overs would explain it, they are asked about.
 */
export function believe(entries: readonly CounterEntry[], setting: Setting): BelievedCounter {
  const rolled = entries.map((entry, i) => rolledBefore(entry, entries[i - 1]?.reading ?? entry.reading));
  const lower = entries.findIndex(({ reading }, i) => reading < (entries[i - 1]?.reading ?? reading) && rolled[i] === undefined);
  const counter = (lower < 0 ? entries : entries.slice(0, lower)).map((entry, i) => ({ ...entry, rolled: rolled[i] }));
  const told = counter.flatMap((entry, i) => {
    const earlier = counter[i - 1];
    return earlier === undefined ? [] : toldOf(earlier, entry, setting);
  });
  const [before, asked] = [entries[lower - 1], entries[lower]];
  const isLower = before !== undefined && asked !== undefined && asked.place !== 'start';
  const last = isLower ? [lowerTold(before, asked, setting)] : [];
  const all = [...told, ...last];
  const question = all.find((one) => one.question !== undefined)?.question;
  const counted = isLower || counter.length < 2 ? undefined : countedCycles(counter.map(({ reading }) => reading), setting, rolled);
  return { counter, ...(question === undefined ? {} : { question }), warnings: all.map(({ warning }) => warning), ...(counted === undefined ? {} : { counted }) };
}

/** What is said of a reading, and asked about it. */
interface Told {
  readonly warning: Problem;
  readonly question?: CounterQuestion;
}

/** A reading that is used: whether speed and time bear it out, and what would explain it. */
function toldOf(earlier: CounterEntry, entry: CounterEntry & { readonly rolled: number | undefined }, setting: Setting): readonly Told[] {
  if (entry.place === 'start') return [];
  const gained = gainOf(earlier, entry, entry.rolled, setting);
  const { cycles, expected } = gained;
  if (expected === undefined || gained.isPlausible) return [];
  const times = entry.rolled === undefined ? rollOversBetween(earlier.reading, entry.reading, expected, setting) : 0;
  if (times > 0) {
    const question = { place: entry.place, before: earlier.reading, reading: entry.reading, times };
    return [{ warning: counterBehind(question, cycles, expected), question }];
  }
  // Of the end it is said when counter and clock are compared.
  return entry.place === 'end' ? [] : [{ warning: counterAhead(entry.place, cycles, expected) }];
}

function lowerTold(before: CounterEntry, asked: CounterEntry, setting: Setting): Told {
  const { expected } = gainOf(before, asked, undefined, setting);
  const times = expected === undefined ? 1 : rollOversBetween(before.reading, asked.reading, expected, setting);
  const question = { place: asked.place as CounterQuestion['place'], before: before.reading, reading: asked.reading, ...(times === 1 ? {} : { times }) };
  return { question, warning: counterLower(question, asked.at - before.at, gainOf(before, asked, times, setting)) };
}

/** Cycles up to the last counter reading that counts; undefined without two of them. */
export function countedSoFar({ counter, multiplier, digits }: Pick<RecordState, 'counter' | 'multiplier' | 'digits'>): CountedCycles | undefined {
  return counter.length < 2 ? undefined : countedCycles(counter.map(({ reading }) => reading), { multiplier, digits }, counter.map(({ rolled }) => rolled));
}

function gainOf(earlier: CounterEntry, later: CounterEntry, rolled: number | undefined, { multiplier, digits, speed, pauses }: Setting): CounterGain {
  const { cycles } = countedCycles([earlier.reading, later.reading], { multiplier, digits }, [undefined, rolled]);
  if (speed === undefined) return { cycles, isPlausible: true };
  const expected = (speed.value * runningTime(earlier.at, later.at, pauses)) / 1000;
  return { cycles, expected, isPlausible: isPlausibleCount(cycles, expected, multiplier + speed.value) };
}
