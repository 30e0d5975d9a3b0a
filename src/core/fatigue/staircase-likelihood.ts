import { findPeak, findRoot, legendreRule, normalCumulative } from '../numeric/index.ts';
import { logSurvival } from './life-distribution.ts';
import type { StaircaseRun } from './staircase-run.ts';

/**
 * Standard deviations that are thought possible, in steps: the step lies between a quarter and eight standard deviations. The method is
 * made for 0.5 to 2; the bounds stand off from that so far that limits hold there as they say.
 * @source chosen by tests/bench/coverage-staircase.bench.ts, no published source
 */
const POSSIBLE = [1 / 8, 4] as const;
/** Log likelihood below the greatest from which on nothing adds. */
const NOTHING = 32;
/** Standard deviations beyond which a tail is left to its series. */
const FAR = 30;
/** Standard deviations that are looked at to find where the likelihood lies, and those that are summed over. */
const [LOOKED_AT, SUMMED] = [17, 24];
/** Where log likelihoods that fall on both sides have their top: so many standard deviations beyond the levels at most. */
const BEYOND = 9;
const POINTS = 8;
/** Pieces of one integral, fewest and most; fractures and runouts that lie farther apart are no staircase. */
const PIECES = [6, 200] as const;
/** Steps within which a strength is first looked for. */
const NEAR = 0.01;
/** Different levels beyond which the sums take too long for a page. */
const MOST_LEVELS = 100;

/** How many broke and how many did not at a level, which is in steps from the middle. */
interface Level {
  readonly at: number;
  broken: number;
  unbroken: number;
}

/** The weights of all medians for one standard deviation, in steps from the middle. */
interface Slice {
  readonly sigma: number;
  /** Of each unit of the integral. */
  readonly weight: number;
  readonly low: number;
  readonly width: number;
  /** Integral up to the end of each piece. */
  readonly upTo: Float64Array;
  readonly density: (mu: number) => number;
}

/** What all tests say of a quantile of the strength, the standard deviation being unknown. Levels in the unit of the table. */
interface StrengthWeights {
  /** The strength that mu − z·sigma exceeds with the weight p. */
  exceeded(z: number, p: number): number;
}

/**
 * The likelihood of every pair of median mu and standard deviation sigma of a normally distributed strength, integrated over both: all mu
 * are alike before the tests, and all ln sigma between the bounds in steps above. So a limit takes in that few tests hardly tell the
 * standard deviation; where fractures and runouts do not overlap there is one too. The rule of the staircase plays no part: only what
 * became of each test at its level. How often such limits hold is counted by simulation (`staircase-coverage.ts`).
 *
 * Undefined for more than 100 different levels, and where fractures and runouts lie some hundred steps apart.
 * @source Berger, Liseo and Wolpert, Statistical Science 14 (1999) 1, integrated likelihood (from memory); weights over sigma our own.
 */
export function weighStrength(run: StaircaseRun): StrengthWeights | undefined {
  const centre = (Math.min(...run.levels) + Math.max(...run.levels)) / 2;
  const levels = levelsOf(run, centre);
  if (levels.length > MOST_LEVELS) return undefined;
  const slices = slicesOf(levels);
  if (slices === undefined) return undefined;
  const total = slices.reduce((sum, { weight, upTo }) => sum + weight * (upTo.at(-1) ?? 0), 0);
  const share = (at: number, z: number, upTo: typeof integralUpTo): number => slices.reduce((sum, slice) => sum + slice.weight * upTo(slice, at + z * slice.sigma), 0) / total;
  return {
    exceeded: (z, p) => {
      const low = Math.min(...slices.map((slice) => slice.low - z * slice.sigma));
      const high = Math.max(...slices.map((slice) => slice.low + slice.width * slice.upTo.length - z * slice.sigma));
      // Straight between the ends of the pieces first, which costs nothing; then exactly, close by.
      const near = findRoot((at) => share(at, z, straightUpTo) - (1 - p), low, high, NEAR) ?? Number.NaN;
      const left = (at: number): number => share(at, z, integralUpTo) - (1 - p);
      let reach = NEAR;
      while (reach < high - low && left(near - reach) * left(near + reach) > 0) reach *= 4;
      return centre + run.step * (findRoot(left, near - reach, near + reach, 1e-9) ?? Number.NaN);
    },
  };
}

function levelsOf({ levels, broken, step }: StaircaseRun, centre: number): readonly Level[] {
  const found = new Map<number, Level>();
  for (const [i, level] of levels.entries()) {
    const one = found.get(level) ?? { at: (level - centre) / step, broken: 0, unbroken: 0 };
    if (broken[i] === true) one.broken++;
    else one.unbroken++;
    found.set(level, one);
  }
  return [...found.values()];
}

function logLikelihood(levels: readonly Level[], mu: number, sigma: number): number {
  let sum = 0;
  for (const { at, broken, unbroken } of levels) {
    const z = (at - mu) / sigma;
    const [weaker, stronger] = z > 0 ? [unbroken, broken] : [broken, unbroken];
    const far = Math.abs(z);
    // One tail serves both: this is where all the time goes.
    const tail = normalCumulative(-far);
    if (weaker > 0) sum += weaker * (far < FAR ? Math.log(tail) : logSurvival(far)[0]);
    if (stronger > 0) sum += stronger * Math.log1p(-tail);
  }
  return sum;
}

/** The standard deviations that add anything, by the rule of Gauss and Legendre over their logarithm. */
function slicesOf(levels: readonly Level[]): readonly Slice[] | undefined {
  const [from, to] = [Math.log(POSSIBLE[0]), Math.log(POSSIBLE[1])];
  const wide = bestOver(levels, from, to);
  // Of few tests nearly all are left; of very many a narrow part, which is looked at once more.
  const near = wide.to - wide.from > (to - from) / 2 ? wide : bestOver(levels, wide.from, wide.to);
  const { nodes, weights } = legendreRule(SUMMED);
  const half = (near.to - near.from) / 2;
  const slices: Slice[] = [];
  for (const [i, node] of nodes.entries()) {
    const slice = sliceOf(levels, { sigma: Math.exp(near.from + half * (1 + node)), weight: half * (weights[i] ?? 0), top: near.top });
    if (slice === undefined) return undefined;
    slices.push(slice);
  }
  return slices;
}

/** The greatest log likelihood with ln sigma between two bounds, and the part of it in which there is more than nothing. */
function bestOver(levels: readonly Level[], from: number, to: number): { readonly from: number; readonly to: number; readonly top: number } {
  const gap = (to - from) / (LOOKED_AT - 1);
  const values = Array.from({ length: LOOKED_AT }, (_, i) => bestMedian(levels, Math.exp(from + i * gap)).value);
  const top = Math.max(...values);
  const enough = values.map((value) => value > top - NOTHING);
  return {
    from: from + gap * Math.max(0, enough.indexOf(true) - 1),
    to: from + gap * Math.min(LOOKED_AT - 1, enough.lastIndexOf(true) + 1),
    top,
  };
}

function bestMedian(levels: readonly Level[], sigma: number): { readonly at: number; readonly value: number } {
  const places = levels.map(({ at }) => at);
  const [low, high] = [Math.min(...places) - BEYOND * sigma, Math.max(...places) + BEYOND * sigma];
  return findPeak((mu) => logLikelihood(levels, mu, sigma), low, high, sigma / 100);
}

function sliceOf(levels: readonly Level[], { sigma, weight, top }: { readonly sigma: number; readonly weight: number; readonly top: number }): Slice | undefined {
  const peak = bestMedian(levels, sigma);
  const left = (mu: number): number => logLikelihood(levels, mu, sigma) - (peak.value - NOTHING);
  const end = (direction: number): number => {
    let reach = sigma;
    while (left(peak.at + direction * reach) > 0) reach *= 2;
    return findRoot(left, peak.at, peak.at + direction * reach, sigma / 100) ?? peak.at;
  };
  const [low, high] = [end(-1), end(1)];
  const pieces = Math.max(PIECES[0], Math.ceil((high - low) / (2 * sigma)));
  if (!(pieces <= PIECES[1])) return undefined;
  const width = (high - low) / pieces;
  const density = (mu: number): number => Math.exp(logLikelihood(levels, mu, sigma) - top);
  const upTo = new Float64Array(pieces);
  let sum = 0;
  for (let i = 0; i < pieces; i++) upTo[i] = sum += integral(density, low + i * width, low + (i + 1) * width);
  return { sigma, weight, low, width, upTo, density };
}

function integralUpTo({ low, width, upTo, density }: Slice, mu: number): number {
  const piece = Math.floor((mu - low) / width);
  if (piece < 0) return 0;
  if (piece >= upTo.length) return upTo.at(-1) ?? 0;
  return (upTo[piece - 1] ?? 0) + integral(density, low + piece * width, mu);
}

/** The same, the integral growing evenly within each piece. */
function straightUpTo({ low, width, upTo }: Slice, mu: number): number {
  const pieces = (mu - low) / width;
  const piece = Math.floor(pieces);
  if (piece < 0) return 0;
  if (piece >= upTo.length) return upTo.at(-1) ?? 0;
  const before = upTo[piece - 1] ?? 0;
  return before + (pieces - piece) * ((upTo[piece] ?? 0) - before);
}

function integral(f: (x: number) => number, from: number, to: number): number {
  const { nodes, weights } = legendreRule(POINTS);
  const half = (to - from) / 2;
  let sum = 0;
  for (let i = 0; i < POINTS; i++) sum += (weights[i] ?? 0) * f(from + half * (1 + (nodes[i] ?? 0)));
  return half * sum;
}
