import { endValues } from '../numeric/index.ts';

/** What the samples of a result say of it; unit of the samples. */
export interface SampleSummary {
  readonly mean: number;
  readonly standardDeviation: number;
  /** Ends of the 95 % coverage interval that leaves out as much below as above. */
  readonly low: number;
  readonly high: number;
  /** The shortest 95 % coverage interval; of several as short, the lowest. */
  readonly shortest: { readonly low: number; readonly high: number };
}

const COVERAGE = 0.95;

/**
 * Mean, standard deviation and 95 % intervals of samples.
 * @param values at least 2, no NaN; left as they are
 * @param moments of all these values, where they are known already
 * @source JCGM 101:2008, 7.6 (estimate, standard uncertainty with M − 1), 7.7.2 and 7.7.4 (coverage intervals).
 */
export function summariseSamples(values: Float64Array, { mean, squares }: Moments = momentsOf(values)): SampleSummary {
  const count = values.length;
  const { outside, below } = intervalPlaces(count);
  const { lowest, highest } = endValues(values, outside);
  const at = (ends: Float64Array, place: number): number => ends[Math.min(place, outside) - 1] ?? Number.NaN;
  let shortest = 1;
  for (let r = 2; r <= outside; r++) {
    if (at(highest, r) - at(lowest, r) < at(highest, shortest) - at(lowest, shortest)) shortest = r;
  }
  return {
    mean,
    standardDeviation: Math.sqrt(squares / (count - 1)),
    low: at(lowest, below),
    high: at(highest, below),
    shortest: { low: at(lowest, shortest), high: at(highest, shortest) },
  };
}

/**
 * Places of interval ends among so many samples, counted from 1: the interval from the r-th value runs to the (r + q)-th with
 * q = 0.95 M, so that all ends lie among the `outside` = M − q values at either side; the probabilistically symmetric one begins
 * at place `below` and ends at place `above` from the top.
 */
export function intervalPlaces(count: number): { readonly outside: number; readonly below: number; readonly above: number } {
  const inside = Math.round(COVERAGE * count);
  const outside = Math.max(1, count - inside);
  const below = Math.max(1, Math.floor((count - inside + 1) / 2));
  return { outside, below, above: Math.max(1, outside - below + 1) };
}

/** Mean and sum of squared deviations from it. */
export interface Moments {
  readonly mean: number;
  readonly squares: number;
}

export function momentsOf(values: Float64Array): Moments {
  const count = values.length;
  const origin = values[0] ?? Number.NaN;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += (values[i] as number) - origin;
  const mean = origin + sum / count;
  let squares = 0;
  for (let i = 0; i < count; i++) squares += ((values[i] as number) - mean) ** 2;
  return { mean, squares };
}

/** How many samples lie in equal steps between two values, and beyond them. */
export interface Histogram {
  readonly from: number;
  readonly to: number;
  readonly counts: readonly number[];
  readonly below: number;
  readonly above: number;
}

/**
 * Counts samples in `bins` equal steps from `from` to `to`; a sample on the last edge counts in the last step.
 * @param values no NaN; @param to above `from`
 */
export function histogramOf(values: Float64Array, from: number, to: number, bins: number): Histogram {
  const counts = new Float64Array(bins);
  const perUnit = bins / (to - from);
  let [below, above] = [0, 0];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (value < from) below++;
    else if (value > to) above++;
    else {
      const bin = Math.min(bins - 1, Math.floor((value - from) * perUnit));
      counts[bin] = (counts[bin] as number) + 1;
    }
  }
  return { from, to, counts: [...counts], below, above };
}
