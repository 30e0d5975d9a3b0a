import { chiSquareCumulative, fisherCumulative, leastSquares } from '../numeric/index.ts';
import { fail, ok, type Result } from '../problem/index.ts';
import { maximiseLocationScale } from './location-scale.ts';
import { onScale } from './line.ts';
import * as problems from './problems.ts';
import { failuresOnly, merged, readSpecimens, type Observed } from './specimens.ts';
import type { FitMethod, LifeDistribution, Specimens, StressScale } from './types.ts';

export interface CompareGroupsOptions {
  readonly method?: FitMethod;
  readonly model?: 'linear' | 'quadratic';
  readonly stress?: StressScale;
  readonly life?: LifeDistribution;
}

/** Whether a simpler set of lines will do; F for least squares, twice the gain of log likelihood (χ²) else. */
export interface GroupTest {
  readonly statistic: number;
  readonly df1: number;
  /** Null for χ². */
  readonly df2: number | null;
  readonly p: number;
}

export interface GroupComparison {
  readonly method: FitMethod;
  readonly groups: number;
  readonly n: number;
  /** One line for all, against a line for each group. */
  readonly commonAgainstSeparate: GroupTest;
  /** Lines of the same slope (and curvature), against a line for each group. */
  readonly parallelAgainstSeparate: GroupTest;
  /** One line for all, against lines of the same slope. */
  readonly commonAgainstParallel: GroupTest;
  /** Scale about the separate lines, the same for all groups, log10 cycles; n − p divisor for least squares. */
  readonly s: number;
}

/**
 * Tests whether groups of specimens (materials, surfaces, teams) share a line, or at least its slope. log10 N is the
 * dependent variable; s is taken as the same in all groups. Least squares uses the broken specimens only.
 * Problems: those of the tables; `specimens-too-few`, `levels-too-few`, `levels-too-close`, `scatter-not-found`.
 * @source extra sum of squares F test: Draper and Smith, Applied Regression Analysis, 6.1 and 14; likelihood ratio: Wilks
 * (1938); from memory.
 */
export function compareGroups(groups: readonly Specimens[], options: CompareGroupsOptions = {}): Result<GroupComparison> {
  const { method = 'least-squares', model = 'linear', stress = 'log', life = 'lognormal' } = options;
  const terms = model === 'quadratic' ? 3 : 2;
  const observed: Observed[] = [];
  for (const group of groups) {
    const read = readSpecimens(group);
    if (!read.ok) return read;
    const broken = failuresOnly(read.value);
    if (broken.failures < terms) return fail(problems.tooFewSpecimens(broken.failures, terms, 'Each group'));
    const stresses = new Set(broken.stressMpa).size;
    if (stresses < terms) return fail(problems.tooFewLevels(stresses, terms, 'Each group'));
    observed.push(method === 'least-squares' ? merged(broken, 'lognormal') : merged(read.value, life));
  }
  if (observed.length < 2) throw new RangeError('comparing needs at least two groups');
  const stacked = stack(observed, stress, terms);
  return method === 'least-squares' ? byLeastSquares(stacked) : byLikelihood(stacked, life);
}

interface Stacked {
  readonly groups: number;
  /** Specimens in all; each entry stands for as many as its weight says. */
  readonly n: number;
  readonly weights: Float64Array;
  /** Squares of log10 life within the entries. */
  readonly within: number;
  readonly terms: number;
  readonly y: Float64Array;
  readonly censored: Uint8Array;
  readonly common: readonly Float64Array[];
  readonly parallel: readonly Float64Array[];
  readonly separate: readonly Float64Array[];
}

function stack(observed: readonly Observed[], stress: StressScale, terms: number): Stacked {
  const all = observed.flatMap((one, group) => Array.from(one.stressMpa, (value, i) => ({
    group, x: onScale(value, stress), y: one.log10Cycles[i] ?? 0, censored: one.censored[i] ?? 0, weight: one.weights?.[i] ?? 1,
  })));
  const mean = (of: (row: (typeof all)[number]) => number): number => all.reduce((sum, row) => sum + of(row), 0) / all.length;
  const [centre, origin] = [mean(({ x }) => x), mean(({ y }) => y)];
  const scale = all.reduce((largest, { x }) => Math.max(largest, Math.abs(x - centre)), 0) || 1;
  const column = (of: (row: (typeof all)[number]) => number): Float64Array => Float64Array.from(all, of);
  const power = (row: (typeof all)[number], k: number): number => ((row.x - centre) / scale) ** k;
  const powers = Array.from({ length: terms }, (_, k) => k);
  const own = (group: number, k: number): Float64Array => column((row) => (row.group === group ? power(row, k) : 0));
  const shared = powers.map((k) => column((row) => power(row, k)));
  const weights = column(({ weight }) => weight);
  return {
    groups: observed.length,
    n: weights.reduce((sum, weight) => sum + weight, 0),
    weights,
    within: observed.reduce((sum, { within = 0 }) => sum + within, 0),
    terms,
    y: column(({ y }) => y - origin),
    censored: Uint8Array.from(all, ({ censored }) => censored),
    common: shared,
    parallel: [...observed.map((_, group) => own(group, 0)), ...shared.slice(1)],
    separate: observed.flatMap((_, group) => powers.map((k) => own(group, k))),
  };
}

function byLeastSquares(stacked: Stacked): Result<GroupComparison> {
  const { y, n, weights, within, groups, common, parallel, separate } = stacked;
  if (n <= separate.length) return fail(problems.tooFewSpecimens(n, separate.length + 1, 'Comparing these groups'));
  const weighed = (column: Float64Array): Float64Array => column.map((value, i) => value * Math.sqrt(weights[i] ?? 1));
  const fits = [common, parallel, separate].map((columns) => {
    const fit = leastSquares(columns.map(weighed), weighed(y));
    return fit === undefined ? undefined : { squares: fit.residualSumOfSquares + within, degreesOfFreedom: n - columns.length };
  });
  const [one, same, each] = fits;
  if (one === undefined || same === undefined || each === undefined) return fail(problems.stressesTooClose());
  const test = (smaller: typeof one, larger: typeof one): GroupTest => {
    const df1 = smaller.degreesOfFreedom - larger.degreesOfFreedom;
    const df2 = larger.degreesOfFreedom;
    const gain = Math.max(0, smaller.squares - larger.squares);
    const statistic = gain / df1 / (larger.squares / df2);
    return Object.freeze({ statistic, df1, df2, p: fisherCumulative(1 / statistic, df2, df1) });
  };
  return ok(Object.freeze({
    method: 'least-squares',
    groups,
    n,
    commonAgainstSeparate: test(one, each),
    parallelAgainstSeparate: test(same, each),
    commonAgainstParallel: test(one, same),
    s: Math.sqrt(each.squares / each.degreesOfFreedom),
  }));
}

function byLikelihood(stacked: Stacked, life: LifeDistribution): Result<GroupComparison> {
  const { y, n, weights, within, censored, groups, terms, common, parallel, separate } = stacked;
  const fits = [common, parallel, separate].map((columns) => maximiseLocationScale({ life, y, censored, columns, weights, within }));
  const [one, same, each] = fits;
  if (one === undefined || same === undefined || each === undefined || fits.some(({ converged }) => !converged)) {
    return fail(problems.separated());
  }
  const test = (smaller: typeof one, larger: typeof one, df1: number): GroupTest => {
    const statistic = Math.max(0, 2 * (larger.logLikelihood - smaller.logLikelihood));
    return Object.freeze({ statistic, df1, df2: null, p: 1 - chiSquareCumulative(statistic, df1) });
  };
  return ok(Object.freeze({
    method: 'maximum-likelihood',
    groups,
    n,
    commonAgainstSeparate: test(one, each, (groups - 1) * terms),
    parallelAgainstSeparate: test(same, each, (groups - 1) * (terms - 1)),
    commonAgainstParallel: test(one, same, groups - 1),
    s: each.s,
  }));
}
