import { orderStatistic } from '../numeric/index.ts';

/** What the draws of a result say of it; unit of the draws. */
export interface DrawSummary {
  readonly mean: number;
  readonly standardDeviation: number;
  /** Ends of the 95 % coverage interval that leaves out as much below as above. */
  readonly low: number;
  readonly high: number;
}

const COVERAGE = 0.95;

/**
 * Mean, standard deviation and probabilistically symmetric 95 % interval of draws.
 * @param values at least 2, no NaN; left as they are
 * @source JCGM 101:2008, 7.6 (estimate, standard uncertainty with M − 1) and 7.7.2 (coverage interval).
 */
export function summariseDraws(values: Float64Array): DrawSummary {
  const count = values.length;
  const origin = values[0] ?? Number.NaN;
  let sum = 0;
  for (const value of values) sum += value - origin;
  const mean = origin + sum / count;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  const inside = Math.round(COVERAGE * count);
  const below = Math.max(1, Math.floor((count - inside + 1) / 2));
  const work = values.slice();
  const high = orderStatistic(work, Math.min(count, below + inside) - 1);
  const low = orderStatistic(work, below - 1);
  return { mean, standardDeviation: Math.sqrt(squares / (count - 1)), low, high };
}
