import { chiSquareQuantile, studentQuantile, type LinearFit, type TotalledFit } from '../numeric/index.ts';
import { whenAsked } from '../remembered/index.ts';
import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { lackOfFit } from './lack-of-fit.ts';
import { parameterNames } from './line.ts';
import { lineThrough } from './line-through.ts';
import * as problems from './problems.ts';
import { residualsOf } from './residuals.ts';
import { failuresOnly, levelsOf, percentReplication, readSpecimens, stressesUpTo, type Observed } from './specimens.ts';
import type { LeastSquaresFit, ParameterEstimate, Specimens, StressScale } from './types.ts';

export interface LeastSquaresOptions {
  /** Straight line where left out. */
  readonly model?: 'linear' | 'quadratic';
  /** log10 of the stress where left out. */
  readonly stress?: StressScale;
  /** Of the parameters' two-sided limits; 0.95 where left out. */
  readonly confidence?: number;
}

/** Specimens that even a preliminary line should rest on; ASTM E739, 7.1 (from memory). */
const PRELIMINARY = 6;
/** Residuals smaller than this share of the spread of log life are rounding. */
const EXACT = 1e-13;

/**
 * The S-N line by least squares: Y = log10 N, the dependent variable, on X = log10(S/MPa) or S in MPa; Y scatters
 * normally with the same standard deviation s (log10 cycles, n − p in its divisor) at every stress.
 *
 * Runouts and suspended tests are counted and left out, with a warning; invalid ones are left out. The logarithm of the
 * likelihood is that of the lives N in cycles at its greatest, natural logarithm. The covariance holds ln s last, with
 * variance 1/(2(n − p)) and no covariance with the parameters.
 *
 * Problems: `specimens-too-few`, `levels-too-few`, `levels-too-close`, `stress-not-positive`, `cycles-not-positive`,
 * `columns-uneven`. Warnings in the fit: `runouts-left-out`, `specimens-few`, `specimens-influential`, `lack-of-fit`,
 * `line-rising`, `scatter-none`.
 * @source ASTM E739, section 8 (equations 3 to 11 for A, B, s and their limits); quadratic: ordinary polynomial regression.
 */
export function fitLeastSquares(specimens: Specimens, options: LeastSquaresOptions = {}): Result<LeastSquaresFit> {
  const read = readSpecimens(specimens);
  return read.ok ? fitObserved(read.value, options) : read;
}

function fitObserved(whole: Observed, options: LeastSquaresOptions): Result<LeastSquaresFit> {
  const { model = 'linear', stress = 'log', confidence = 0.95 } = options;
  const observed = failuresOnly(whole);
  const names = parameterNames(model);
  const problem = tooLittle(observed, names.length, model === 'linear' ? 'A line' : 'A quadratic');
  if (problem !== undefined) return fail(problem);
  const linear = lineThrough(observed, stress, model === 'linear' ? 1 : 2);
  if (linear === undefined) return fail(problems.stressesTooClose());
  const n = observed.cycles.length;
  const dof = linear.degreesOfFreedom;
  const s = Math.sqrt(linear.residualSumOfSquares / dof);
  const t = studentQuantile((1 + confidence) / 2, dof);
  const parameters = names.map((name, i): ParameterEstimate => {
    const value = linear.coefficients[i] ?? 0;
    const se = s * Math.sqrt(linear.unscaledCovariance[i]?.[i] ?? 0);
    return Object.freeze({ name, value, se, lo: value - t * se, hi: value + t * se });
  });
  const logLikelihood = greatestLogLikelihood(linear, n);
  const rSquared = linear.totalSumOfSquares > 0 ? 1 - linear.residualSumOfSquares / linear.totalSumOfSquares : 1;
  // What is said of single rows and of levels takes longer than the line, in long tables: it is worked out when it is asked for.
  const apart = whenAsked(() => residualsOf(linear, observed, s));
  const lack = whenAsked(() => lackOfFit(linear, observed, names.length));
  const replication = whenAsked(() => percentReplication(levelsOf(observed).count, n));
  const warnings = whenAsked((): readonly Problem[] => {
    const { influential } = apart();
    const found = lack();
    return Object.freeze([
      ...(whole.runouts > 0 ? [problems.runoutsLeftOut(whole.runouts)] : []),
      ...(n < PRELIMINARY ? [problems.fewSpecimens(n, PRELIMINARY)] : []),
      ...(1 - rSquared < EXACT ? [problems.scatterNone()] : influential.length > 0 ? [problems.influential(influential)] : []),
      ...(found !== null && found.p < 0.05 ? [problems.lackOfFitFound(found.p)] : []),
      ...(model === 'linear' && (linear.coefficients[1] ?? 0) > 0 ? [problems.risingLine()] : []),
    ]);
  });
  return ok(Object.freeze({
    method: 'least-squares',
    model,
    stress,
    life: 'lognormal',
    n,
    failures: n,
    runouts: whole.runouts,
    invalid: whole.invalid,
    parameters: Object.freeze(parameters),
    covariance: withLogScatter(linear, s),
    s,
    sLimits: Object.freeze({
      lo: s * Math.sqrt(dof / chiSquareQuantile((1 + confidence) / 2, dof)),
      hi: s * Math.sqrt(dof / chiSquareQuantile((1 - confidence) / 2, dof)),
    }),
    degreesOfFreedom: dof,
    logLikelihood,
    aic: 2 * (names.length + 1) - 2 * logLikelihood,
    confidence,
    tested: observed.tested,
    get replication() {
      return replication();
    },
    get lackOfFit() {
      return lack();
    },
    get influential() {
      return apart().influential;
    },
    get residuals() {
      return apart().residuals();
    },
    rSquared,
    get warnings() {
      return warnings();
    },
  }));
}

/** Why broken specimens are too few, or at too few stresses, for so many parameters. */
function tooLittle(broken: Observed, parameters: number, what: string): Problem | undefined {
  if (broken.failures < parameters + 1) return problems.tooFewSpecimens(broken.failures, parameters + 1, what);
  const stresses = stressesUpTo(parameters, broken);
  return stresses < parameters ? problems.tooFewLevels(stresses, parameters, what) : undefined;
}

/** ln L of the lives at σ² = RSS/n: the density of N is that of log10 N over N·ln 10. */
function greatestLogLikelihood({ residualSumOfSquares, mean }: TotalledFit, n: number): number {
  const jacobian = n * (Math.log(Math.LN10) + Math.LN10 * mean);
  return (-n / 2) * (Math.log((2 * Math.PI * residualSumOfSquares) / n) + 1) - jacobian;
}

function withLogScatter(linear: LinearFit, s: number): LeastSquaresFit['covariance'] {
  const rows = linear.unscaledCovariance.map((row) => Object.freeze([...row.map((value) => value * s * s), 0]));
  return Object.freeze([...rows, Object.freeze([...rows.map(() => 0), 1 / (2 * linear.degreesOfFreedom)])]);
}
