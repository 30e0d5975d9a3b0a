import { fail, ok, type Result } from '../problem/index.ts';
import * as problems from './staircase-problems.ts';
import type { StaircaseTests } from './types.ts';

/** The tests that count, in order. */
export interface StaircaseRun {
  readonly levels: readonly number[];
  readonly broken: readonly boolean[];
  /** Place in the table of each. */
  readonly rows: readonly number[];
  readonly step: number;
  readonly suspended: number;
  /** Rows whose level is not a whole number of steps from the lowest. */
  readonly offSteps: readonly number[];
}

/** Levels may stray by this share of a step: measured stresses do. */
const STRAY = 0.1;

export function readStaircase({ levels, outcomes }: StaircaseTests, step: number | undefined): Result<StaircaseRun> {
  const rows: number[] = [];
  let suspended = 0;
  for (const [row, outcome] of outcomes.entries()) {
    if (outcome === 'suspended') suspended++;
    if (outcome === 'suspended' || outcome === 'invalid') continue;
    const level = levels[row] ?? Number.NaN;
    if (!(level > 0 && level < Infinity)) return fail(problems.levelNotPositive(row));
    rows.push(row);
  }
  const used = rows.map((row) => levels[row] ?? 0);
  if (used.length < 2) return fail(problems.tooShort(used.length));
  const found = step ?? smallestDifference(used);
  if (!(found > 0 && found < Infinity)) return fail(problems.oneLevel());
  const lowest = Math.min(...used);
  return ok({
    levels: used,
    broken: rows.map((row) => outcomes[row] === 'fracture'),
    rows,
    step: found,
    suspended,
    offSteps: rows.filter((row) => {
      const steps = ((levels[row] ?? 0) - lowest) / found;
      return Math.abs(steps - Math.round(steps)) > STRAY;
    }),
  });
}

/** Smallest difference between levels that is more than straying. */
function smallestDifference(levels: readonly number[]): number {
  const sorted = [...levels].sort((a, b) => a - b);
  const gaps = sorted.slice(1).map((level, i) => level - (sorted[i] ?? level));
  const largest = Math.max(...gaps);
  return Math.min(...gaps.filter((gap) => gap > STRAY * largest));
}

/** Rows whose level doesn't follow from the test before. */
export function wrongMoves({ levels, broken, rows, step }: StaircaseRun): readonly number[] {
  return rows.filter((_, i) => {
    if (i === 0) return false;
    const expected = (levels[i - 1] ?? 0) + (broken[i - 1] === true ? -step : step);
    return Math.abs((levels[i] ?? 0) - expected) > 2 * STRAY * step;
  });
}
