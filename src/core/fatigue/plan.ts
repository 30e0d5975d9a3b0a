import { normalCumulative, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { onScale } from './line.ts';
import * as problems from './problems.ts';
import { percentReplication } from './specimens.ts';
import type { Replication, StressScale } from './types.ts';

/** A straight line that is expected: from pilot tests, an earlier class, or an estimate from the tensile strength. */
export interface ExpectedLine {
  readonly A: number;
  readonly B: number;
  /** Standard deviation of log10 N. */
  readonly s: number;
  readonly stress: StressScale;
}

export interface PlannedLevel {
  readonly stressMpa: number;
  readonly specimens: number;
}

export interface PlanOptions {
  /** Cycles at which an unbroken test is stopped; none where left out. */
  readonly runoutCycles?: number;
  /** Cycles per minute; in rotating bending the speed in rev/min. */
  readonly cyclesPerMinute?: number;
  readonly confidence?: number;
}

export interface PlanRow extends PlannedLevel {
  /** Median life, not cut off at the runout life. */
  readonly medianCycles: number;
  /** Chance that a specimen reaches the runout life unbroken. */
  readonly runoutChance: number;
  /** Mean cycles of one test, stopped at the runout life. */
  readonly meanCycles: number;
  /** Cycles that nine tests in ten don't pass. */
  readonly longCycles: number;
  /** Mean hours of all tests at this level; null without a speed. */
  readonly hours: number | null;
}

export interface Plan {
  readonly rows: readonly PlanRow[];
  readonly specimens: number;
  readonly replication: Replication;
  /** Half width of the two-sided limits of B, were all specimens to break. */
  readonly halfWidthB: number;
  /** Sum of the rows' hours, null without a speed: machine time, set-up not included. */
  readonly hours: number | null;
  /** Specimens expected to end as runouts; they tell less than broken ones, so that the limits come out wider. */
  readonly expectedRunouts: number;
}

/** Most specimens per level that the search for a number goes to. */
const MOST_PER_LEVEL = 500;

/**
 * What a plan of levels and specimens will give: precision of B, percent replication with its class, cycles and time.
 * Problems: `specimens-too-few`, `levels-too-few`.
 * @source ASTM E739, 7 and 8.1 (se of B is s/√Σ(X − X̄)²); mean of a cut-off lognormal life: its partial expectation.
 */
export function planTests(line: ExpectedLine, levels: readonly PlannedLevel[], options: PlanOptions = {}): Result<Plan> {
  const spread = spreadOf(line, levels);
  if (spread.n < 3) return fail(problems.tooFewSpecimens(spread.n, 3, 'A line'));
  if (!(spread.sum > 0)) return fail(problems.tooFewLevels(1, 2, 'A line'));
  const rows = levels.map((level) => rowOf(line, level, options));
  const hours = rows.reduce<number | null>((sum, row) => (sum === null || row.hours === null ? null : sum + row.hours), 0);
  return ok(Object.freeze({
    rows: Object.freeze(rows),
    specimens: spread.n,
    replication: percentReplication(new Set(levels.map(({ stressMpa }) => stressMpa)).size, spread.n),
    halfWidthB: factorOf(options.confidence, spread.n) * (line.s / Math.sqrt(spread.sum)),
    hours,
    expectedRunouts: rows.reduce((sum, { specimens, runoutChance }) => sum + specimens * runoutChance, 0),
  }));
}

/** Half width, in log10 cycles, of the two-sided limits of the median life at a stress that a plan will give. */
export function plannedHalfWidth(line: ExpectedLine, levels: readonly PlannedLevel[], stressMpa: number, confidence = 0.95): number {
  const { n, mean, sum } = spreadOf(line, levels);
  const distance = onScale(stressMpa, line.stress) - mean;
  return factorOf(confidence, n) * line.s * Math.sqrt(1 / n + (distance * distance) / sum);
}

/** The precision wanted: half width of the limits of B, or of log10 of the median life at a stress. */
export type WantedPrecision =
  | { readonly of: 'B'; readonly halfWidth: number }
  | { readonly of: 'life'; readonly stressMpa: number; readonly log10HalfWidth: number };

/**
 * The smallest equal number of specimens at each of the levels that reaches the wanted precision; null where not even 500
 * at each do.
 */
export function specimensPerLevel(line: ExpectedLine, stressesMpa: readonly number[], wanted: WantedPrecision, confidence = 0.95): number | null {
  for (let each = 1; each <= MOST_PER_LEVEL; each++) {
    const levels = stressesMpa.map((stressMpa) => ({ stressMpa, specimens: each }));
    const { n, sum } = spreadOf(line, levels);
    if (n < 3 || !(sum > 0)) continue;
    const reached = wanted.of === 'B'
      ? (factorOf(confidence, n) * line.s) / Math.sqrt(sum) <= wanted.halfWidth
      : plannedHalfWidth(line, levels, wanted.stressMpa, confidence) <= wanted.log10HalfWidth;
    if (reached) return each;
  }
  return null;
}

function factorOf(confidence = 0.95, n: number): number {
  return studentQuantile((1 + confidence) / 2, n - 2);
}

function spreadOf(line: ExpectedLine, levels: readonly PlannedLevel[]): { n: number; mean: number; sum: number } {
  const n = levels.reduce((total, { specimens }) => total + specimens, 0);
  const weighted = (of: (x: number) => number): number =>
    levels.reduce((total, { stressMpa, specimens }) => total + specimens * of(onScale(stressMpa, line.stress)), 0);
  const mean = weighted((x) => x) / n;
  return { n, mean, sum: weighted((x) => (x - mean) ** 2) };
}

function rowOf(line: ExpectedLine, level: PlannedLevel, { runoutCycles = Infinity, cyclesPerMinute }: PlanOptions): PlanRow {
  const log10Median = line.A + line.B * onScale(level.stressMpa, line.stress);
  const z = (Math.log10(runoutCycles) - log10Median) / line.s;
  const sigma = line.s * Math.LN10;
  const runoutChance = normalCumulative(-z);
  const broken = 10 ** log10Median * Math.exp((sigma * sigma) / 2) * normalCumulative(z - sigma);
  const meanCycles = broken + (runoutChance > 0 ? runoutCycles * runoutChance : 0);
  return Object.freeze({
    ...level,
    medianCycles: 10 ** log10Median,
    runoutChance,
    meanCycles,
    longCycles: Math.min(runoutCycles, 10 ** (log10Median + normalQuantile(0.9) * line.s)),
    hours: cyclesPerMinute === undefined ? null : (level.specimens * meanCycles) / (60 * cyclesPerMinute),
  });
}
