import { findRoot, noncentralStudentQuantile, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { countLevels, type CountedLevels } from './dixon-mood.ts';
import { fitProbit, type ProbitFit } from './probit.ts';
import * as problems from './staircase-problems.ts';
import { weighStrength } from './staircase-likelihood.ts';
import { levelAfter, readStaircase, wrongMoves, type StaircaseRun } from './staircase-run.ts';
import type { StaircaseTests } from './types.ts';

export interface StaircaseOptions {
  /** The step; the smallest difference between levels where left out. */
  readonly step?: number;
  /** Levels that the machine can set, where it can't set any: the rule is judged by them, and the tests are counted by the mean distance of those used. */
  readonly settable?: readonly number[];
  /** Which event is counted; the less frequent where left out (fractures where both are as frequent). */
  readonly count?: 'less frequent' | 'fracture' | 'runout';
  /** Share of specimens that is to survive the lower limit, 0.9 where left out. */
  readonly share?: number;
  /** Confidence of the lower limit, 0.95 where left out. */
  readonly confidence?: number;
}

/** Strength at the life of the runouts. Levels, mean, standard deviation and limits in the unit of the levels. */
export interface Staircase {
  readonly tests: number;
  readonly fractures: number;
  readonly runouts: number;
  readonly step: number;
  /** Estimates by counting, after Dixon and Mood. */
  readonly counted: CountedLevels;
  readonly share: number;
  readonly confidence: number;
  /** Strength that the share exceeds with the confidence, by what all tests say of median and standard deviation together; null where that can't be summed. */
  readonly lowerLimit: number | null;
  /** Ends that hold the median with 95 %, in the same way. */
  readonly median: readonly [low: number, high: number] | null;
  /** Mean − k·sd of the counted estimates, k with as many degrees of freedom as events counted less one; null below two. It holds far less often than it says. */
  readonly factorLimit: { readonly k: number; readonly value: number } | null;
  /** Degrees of freedom by which a standard error of the median reaches as far as `median` does; of each way to find it. */
  readonly degreesOfFreedom: { readonly counting: number; readonly probit: number };
  /** Maximum likelihood beside it; null where fractures and runouts don't overlap, or lie the wrong way round. */
  readonly probit: ProbitFit | null;
  /** Mean of the levels from the first change of outcome on, that of the next, untested specimen included. */
  readonly meanOfLevels: number;
  /** Level for the next test: one step below after a fracture, above after a runout. */
  readonly nextLevel: number;
  readonly warnings: readonly Problem[];
}

/** Tests for a first estimate of the strength at a life; ISO 12107 (from memory). */
const EXPLORATORY = 15;
/** Degrees of freedom from which on Student's t is taken as normal. */
const MOST_FREEDOM = 1000;

/**
 * Median strength at a life and its standard deviation from a staircase, by counting and by probit maximum likelihood.
 *
 * Problems: `staircase-too-short`, `staircase-one-outcome`, `staircase-one-level`, `staircase-level`. Warnings:
 * `staircase-few`, `-suspended`, `-off-steps`, `-unequal`, `-wrong-move`, `-spread-small`, `-step`, `-separated`.
 * @source Dixon and Mood, JASA 43 (1948) 109; ISO 12107, staircase method (index of a level counted from the lowest at which
 * the counted event occurred); mean of levels: Brownlee, Hodges and Rosenblatt, JASA 48 (1953) 262; from memory.
 */
export function analyseStaircase(tests: StaircaseTests, options: StaircaseOptions = {}): Result<Staircase> {
  const { step, settable } = options;
  const read = readStaircase(tests, { ...(step === undefined ? {} : { step }), ...(settable === undefined ? {} : { settable }) });
  if (!read.ok) return read;
  const run = read.value;
  const fractures = run.broken.filter(Boolean).length;
  if (run.levels.length < 2) return fail(problems.tooShort(run.levels.length));
  if (fractures === 0 || fractures === run.levels.length) return fail(problems.oneOutcome(fractures > 0));
  const runouts = run.levels.length - fractures;
  const fewer = fractures <= runouts;
  const choice = options.count ?? 'less frequent';
  const counted = countLevels(run, choice === 'less frequent' ? fewer : choice === 'fracture');
  const { share = 0.9, confidence = 0.95 } = options;
  const probit = fitProbit(run);
  const weights = weighStrength(run);
  const median = between(weights?.exceeded(0, 0.975), weights?.exceeded(0, 0.025));
  return ok(Object.freeze({
    tests: run.levels.length,
    fractures,
    runouts,
    step: run.step,
    counted,
    share,
    confidence,
    lowerLimit: between(weights?.exceeded(normalQuantile(share), confidence), 0)?.[0] ?? null,
    median,
    factorLimit: factorLimit(counted, share, confidence),
    degreesOfFreedom: Object.freeze({
      counting: degreesOfFreedom(median, counted.errors?.seMean),
      probit: degreesOfFreedom(median, probit?.seMu),
    }),
    probit,
    meanOfLevels: meanOfLevels(run),
    nextLevel: nextLevel(run),
    warnings: warningsOf(run, counted, probit),
  }));
}

/** Both, where both are numbers. */
function between(low: number | undefined, high: number | undefined): readonly [number, number] | null {
  return low !== undefined && high !== undefined && Number.isFinite(low) && Number.isFinite(high) ? Object.freeze([low, high] as const) : null;
}

function degreesOfFreedom(median: Staircase['median'], standardError: number | undefined): number {
  if (median === null || standardError === undefined) return Infinity;
  const factor = (median[1] - median[0]) / (2 * standardError);
  if (factor >= studentQuantile(0.975, 1)) return 1;
  return findRoot((dof) => studentQuantile(0.975, dof) - factor, 1, MOST_FREEDOM, 1e-9) ?? Infinity;
}

function factorLimit(counted: CountedLevels, share: number, confidence: number): Staircase['factorLimit'] {
  const { n, mean, sd } = counted;
  if (n < 2) return null;
  const root = Math.sqrt(n);
  const k = noncentralStudentQuantile(confidence, n - 1, normalQuantile(share) * root) / root;
  return Object.freeze({ k, value: mean - k * sd });
}

/** Where the list has no such level, the one that it would be by the step. */
function nextLevel({ levels, broken, step, rule }: StaircaseRun): number {
  const [last, isBroken] = [levels.at(-1) ?? 0, broken.at(-1) === true];
  const level = levelAfter(last, isBroken, rule);
  return Number.isNaN(level) ? levelAfter(last, isBroken, { step }) : level;
}

function meanOfLevels(run: StaircaseRun): number {
  const change = run.broken.findIndex((one, i) => i > 0 && one !== run.broken[i - 1]);
  const used = [...run.levels.slice(change), nextLevel(run)];
  return used.reduce((sum, level) => sum + level, 0) / used.length;
}

function warningsOf(run: StaircaseRun, counted: CountedLevels, probit: ProbitFit | null): readonly Problem[] {
  const ratio = run.step / (probit?.sigma ?? counted.sd);
  const wrong = wrongMoves(run);
  const offGrid = run.offSteps[0];
  const isListed = run.rule.settable !== undefined;
  const moves = wrong.length > 0 ? [problems.wrongMove(wrong, isListed)] : [];
  const highestRunout = Math.max(...run.levels.filter((_, i) => run.broken[i] === false));
  const lowestFracture = Math.min(...run.levels.filter((_, i) => run.broken[i] === true));
  return Object.freeze([
    ...(run.levels.length < EXPLORATORY ? [problems.fewTests(run.levels.length, EXPLORATORY)] : []),
    ...(run.suspended > 0 ? [problems.suspendedLeftOut(run.suspended)] : []),
    ...(offGrid === undefined ? moves : isListed ? [problems.unequalSteps(run.levels, run.step), ...moves] : [problems.offSteps(offGrid, run.step)]),
    ...(counted.formulaHolds ? [] : [problems.spreadTooSmall(counted.spread)]),
    ...(probit === null ? [problems.separatedLevels(highestRunout, lowestFracture)] : []),
    ...(counted.formulaHolds && (ratio > 2 || ratio < 0.5) ? [problems.stepUnsuitable(ratio)] : []),
  ]);
}
