import { fail, ok, type Result } from '../problem/index.ts';
import * as problems from './staircase-problems.ts';
import type { Outcome, StaircaseTests } from './types.ts';

/** The tests that count, in order. */
export interface StaircaseRun {
  readonly levels: readonly number[];
  readonly broken: readonly boolean[];
  /** Place in the table of each. */
  readonly rows: readonly number[];
  /** By which levels are counted; where they come from a list, the mean distance between neighbours of those that were used. */
  readonly step: number;
  readonly rule: StaircaseRule;
  readonly suspended: number;
  /** Rows whose level is not a whole number of steps from the lowest. */
  readonly offSteps: readonly number[];
}

/** Where the next level lies: one step away, or the level nearest to that in the list of those that the machine can set. */
export interface StaircaseRule {
  /** As stated; with a list and without it the neighbour in the list. */
  readonly step?: number;
  /** Levels that the machine can set, in any order, any distance apart; any level where left out. */
  readonly settable?: readonly number[];
}

/** Levels may stray by this share of a step: measured stresses do. */
const STRAY = 0.1;

export function readStaircase({ levels, outcomes }: StaircaseTests, rule: StaircaseRule): Result<StaircaseRun> {
  const rows = rowsThatCount(outcomes);
  const suspended = outcomes.filter((outcome) => outcome === 'suspended').length;
  const wrong = rows.find((row) => !((levels[row] ?? Number.NaN) > 0 && (levels[row] ?? 0) < Infinity));
  if (wrong !== undefined) return fail(problems.levelNotPositive(wrong));
  const used = rows.map((row) => levels[row] ?? 0);
  if (used.length < 2) return fail(problems.tooShort(used.length));
  const found = stepAmong(used, rule);
  if (!(found > 0 && found < Infinity)) return fail(problems.oneLevel());
  const lowest = Math.min(...used);
  return ok({
    levels: used,
    broken: rows.map((row) => outcomes[row] === 'fracture'),
    rows,
    step: found,
    rule: rule.settable === undefined ? { step: found } : rule,
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
 * step yet, or where there is nothing left that way. One test is enough where the step, or a list of levels, is given.
 */
export function nextTest({ levels, outcomes }: StaircaseTests, rule: StaircaseRule = {}): NextTest | null {
  const rows = rowsThatCount(outcomes).filter((row) => (levels[row] ?? 0) > 0);
  const row = rows.at(-1);
  if (row === undefined) return null;
  const found = rule.step ?? (rows.length < 2 ? Number.NaN : smallestDifference(rows.map((place) => levels[place] ?? 0)));
  const from = levels[row] ?? 0;
  const after = outcomes[row] === 'fracture' ? 'fracture' : 'runout';
  const level = levelAfter(from, after === 'fracture', rule.settable === undefined ? { step: found } : rule);
  const step = rule.settable === undefined ? found : Math.abs(level - from);
  return step > 0 && level > 0 && level < Infinity ? Object.freeze({ level, step, row, from, after }) : null;
}

/** The level after a test, by the rule; NaN where no step is known, or where the list has nothing farther that way. */
export function levelAfter(from: number, broken: boolean, { step = 0, settable }: StaircaseRule): number {
  const wanted = from + (broken ? -step : step);
  if (settable === undefined) return wanted;
  // A level that was measured strays from the one in the list, and is the same all the same.
  const apart = STRAY * smallestDifference(settable);
  const farther = settable.filter((level) => (broken ? from - level : level - from) > (apart < Infinity ? apart : 0));
  return farther.reduce((best, level) => {
    const gain = Math.abs(best - wanted) - Math.abs(level - wanted);
    // Of two as near the one with the smaller move.
    return Number.isNaN(gain) || gain > 0 || (gain === 0 && Math.abs(level - from) < Math.abs(best - from)) ? level : best;
  }, Number.NaN);
}

/** By what the levels are counted: the step as stated, or what the levels show. From a list they are counted by their mean distance. */
function stepAmong(levels: readonly number[], { step, settable }: StaircaseRule): number {
  if (settable === undefined) return step ?? smallestDifference(levels);
  const [low, high] = [Math.min(...levels), Math.max(...levels)];
  const apart = STRAY * smallestDifference(settable);
  const sorted = [...levels].sort((a, b) => a - b);
  const gaps = sorted.slice(1).filter((level, i) => level - (sorted[i] ?? level) > (apart < Infinity ? apart : 0)).length;
  return gaps === 0 ? step ?? Number.NaN : (high - low) / gaps;
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
export function wrongMoves({ levels, broken, rows, step, rule }: StaircaseRun): readonly number[] {
  return rows.filter((_, i) => {
    if (i === 0) return false;
    const expected = levelAfter(levels[i - 1] ?? 0, broken[i - 1] === true, rule);
    // At the end of a list the rule can't be kept, and any level is another one.
    return !(Math.abs((levels[i] ?? 0) - expected) <= 2 * STRAY * step);
  });
}
