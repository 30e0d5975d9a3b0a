/** A revolution counter as it is read: each unit of it stands for `multiplier` cycles, and it shows `digits` digits. */
interface Counter {
  readonly multiplier: number;
  readonly digits: number;
}

export interface CountedCycles {
  /** Exact for whole readings below 2⁵³. */
  readonly cycles: number;
  /** Standard uncertainty: two readings, each within one unit of the counter. */
  readonly standardUncertainty: number;
  /** How often it went past its last number to zero. */
  readonly rollOvers: number;
}

/**
 * Cycles between the first and the last of some readings, in order. Where one is below that before it, the counter has
 * gone past its last number once since, unless it is said how often: more than once can't be told from readings alone.
 * A whole reading R stands for R up to R + 1 units, so that the difference of two has a triangular distribution of half
 * width one unit. @source JCGM 100:2008, 4.3.9: u² = a²/6; a single reading's is multiplier/√12 (4.3.7).
 * @param rolled how often it did so before each reading, where that is known
 */
export function countedCycles(readings: readonly number[], { multiplier, digits }: Counter, rolled: readonly (number | undefined)[] = []): CountedCycles {
  const span = 10 ** digits;
  let units = 0;
  let rollOvers = 0;
  readings.slice(1).forEach((reading, i) => {
    const before = readings[i] ?? reading;
    const times = rolled[i + 1] ?? (reading < before ? 1 : 0);
    rollOvers += times;
    units += reading - before + times * span;
  });
  return { cycles: units * multiplier, standardUncertainty: multiplier / Math.sqrt(6), rollOvers };
}

/** Speeds drift and stops go unnoted, but hardly by more than this factor (common practice, no published source). */
const FAR = 2;

/** Whether cycles by a counter can be what speed and time give; `slack` cycles are lost in reading both. */
export function isPlausibleCount(cycles: number, expected: number, slack: number): boolean {
  return cycles <= FAR * expected + slack && cycles >= expected / FAR - slack;
}

/** So near to speed and time, as a share of them, a count has to come for its roll-overs to be guessed at (common practice, no published source). */
const BORNE_OUT = 0.02;

/**
 * How often a counter went past its last number between two readings, as far as speed and time bear it out: days between two readings may hold
 * several. Where no number of times fits, as few as there must have been.
 */
export function rollOversBetween(before: number, reading: number, expected: number, { multiplier, digits }: Counter): number {
  const span = 10 ** digits;
  const least = reading < before ? 1 : 0;
  const times = Math.max(least, Math.round((expected / multiplier - (reading - before)) / span));
  const cycles = (reading - before + times * span) * multiplier;
  return Math.abs(cycles - expected) <= BORNE_OUT * expected + multiplier ? times : least;
}

/** Something that would explain why the counter and speed times time differ. */
export type CountSuspicion = 'factor 60' | 'factor 3600' | 'power of ten' | 'factor 2' | 'roll-over' | 'start not taken off' | 'clock as decimal' | 'speed not steady';

interface CountComparison {
  /** Counter over speed times time. */
  readonly ratio: number;
  /** Whether they differ by less than twice their combined standard uncertainty. */
  readonly agree: boolean;
  /** What would explain the difference, likeliest first; empty where they agree. */
  readonly suspicions: readonly CountSuspicion[];
}

/** What the two counts rest on. */
interface CountedTwice extends Counter {
  readonly counted: CountedCycles;
  readonly lastReading: number;
  readonly firstReading: number;
  /** Speed times running time, cycles, with its standard uncertainty. */
  readonly expected: number;
  readonly expectedUncertainty: number;
  /** Running time, hours. */
  readonly hours: number;
}

/** How near a ratio has to come to what would explain it. */
const NEAR = 0.03;

/** Compares the counter with speed times time. The factors are those of usual slips (common practice, no published source). */
export function compareCounts(counts: CountedTwice): CountComparison {
  const { counted, expected, expectedUncertainty } = counts;
  const ratio = expected > 0 ? counted.cycles / expected : Number.POSITIVE_INFINITY;
  const agree = Math.abs(counted.cycles - expected) <= 2 * Math.hypot(counted.standardUncertainty, expectedUncertainty);
  return { ratio, agree, suspicions: agree ? [] : suspicionsOf(counts, ratio) };
}

function suspicionsOf({ counted, multiplier, digits, lastReading, firstReading, expected, hours }: CountedTwice, ratio: number): readonly CountSuspicion[] {
  const found: CountSuspicion[] = [];
  const near = (wanted: number): boolean => Math.abs(ratio / wanted - 1) < NEAR;
  const either = (factor: number): boolean => near(factor) || near(1 / factor);
  if (firstReading > 0 && Math.abs((lastReading * multiplier) / expected - 1) < NEAR) found.push('start not taken off');
  const missing = (expected - counted.cycles) / (10 ** digits * multiplier);
  if (Math.round(missing) >= 1 && Math.abs(counted.cycles + Math.round(missing) * 10 ** digits * multiplier - expected) < NEAR * expected) found.push('roll-over');
  if ([10, 100, 1000].some(either)) found.push('power of ten');
  if (either(60)) found.push('factor 60');
  if (either(3600)) found.push('factor 3600');
  if (either(2)) found.push('factor 2');
  const whole = Math.floor(hours);
  const asDecimal = whole + ((hours - whole) * 60) / 100;
  if (Math.abs(asDecimal / hours - 1) > NEAR && either(asDecimal / hours)) found.push('clock as decimal');
  if (ratio >= 0.9 && ratio <= 1.1) found.push('speed not steady');
  return found;
}
