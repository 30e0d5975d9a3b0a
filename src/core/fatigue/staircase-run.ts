import { fail, ok, type Result } from '../problem/index.ts';
import * as problems from './staircase-problems.ts';
import type { Outcome, StaircaseTests } from './types.ts';

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
  const rows = rowsThatCount(outcomes);
  const suspended = outcomes.filter((outcome) => outcome === 'suspended').length;
  const wrong = rows.find((row) => !((levels[row] ?? Number.NaN) > 0 && (levels[row] ?? 0) < Infinity));
  if (wrong !== undefined) return fail(problems.levelNotPositive(wrong));
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

/** Rows that tell of the strength at the full life, in order. */
function rowsThatCount(outcomes: readonly Outcome[]): readonly number[] {
  return [...outcomes.keys()].filter((row) => outcomes[row] === 'fracture' || outcomes[row] === 'runout');
}

/** Where the next specimen is to be tested. */
export interface NextTest {
  readonly level: number;
  readonly step: number;
  /** The last test that counts, which decides: its place in the table, its level and what became of it. */
  readonly row: number;
  readonly from: number;
  readonly after: 'fracture' | 'runout';
}

/**
 * The rule of the staircase: one step below after a fracture, one above after a runout; null where there is no test or no
 * step yet, or where one step below there is nothing left. One test is enough where the step is given.
 */
export function nextTest({ levels, outcomes }: StaircaseTests, step?: number): NextTest | null {
  const rows = rowsThatCount(outcomes).filter((row) => (levels[row] ?? 0) > 0);
  const row = rows.at(-1);
  if (row === undefined) return null;
  const found = step ?? (rows.length < 2 ? Number.NaN : smallestDifference(rows.map((place) => levels[place] ?? 0)));
  const from = levels[row] ?? 0;
  const after = outcomes[row] === 'fracture' ? 'fracture' : 'runout';
  const level = from + (after === 'fracture' ? -found : found);
  return found > 0 && level > 0 && level < Infinity ? Object.freeze({ level, step: found, row, from, after }) : null;
}

/**
 * The step that a machine can set which is nearest to the one wanted: a whole number of its own smallest steps, at least one; of two as near the
 * smaller. It is one and the same up and down, so that the levels stay whole steps apart, as counting needs them. 0: any step can be set.
 */
export function settableStep(wanted: number, smallest: number): number {
  // Steps so small that the figures of the step don't show them can't be told from none.
  if (!(wanted > 0) || !(smallest > wanted * 10 ** -TYPED_FIGURES)) return wanted;
  // A quotient that is half a step but for its last figures is half a step.
  const steps = Math.max(1, Math.ceil(Number((wanted / smallest - 0.5).toPrecision(TYPED_FIGURES))));
  return Number((steps * smallest).toPrecision(TYPED_FIGURES));
}

/** Figures of what was typed; a product or a quotient of such numbers is elsewhere by a little. */
const TYPED_FIGURES = 12;

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
