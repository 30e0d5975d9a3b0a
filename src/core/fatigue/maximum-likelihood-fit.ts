import { congruent, dot, invertSymmetric, maximise, normalQuantile, type Matrix } from '../numeric/index.ts';
import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { coverageWarnings } from './coverage.ts';
import { designOf, type Design } from './design.ts';
import { expandLikelihood, type Location } from './information.ts';
import { bestLimit } from './limit-search.ts';
import { parameterNames } from './line.ts';
import { curvatureOverScale, maximiseLocationScale, type LocationScale } from './location-scale.ts';
import * as problems from './problems.ts';
import { failuresOnly, levelsOf, merged, percentReplication, readSpecimens, stressesUpTo, type Observed } from './specimens.ts';
import type { LifeDistribution, LineFit, LineModel, ParameterEstimate, Specimens, StressScale } from './types.ts';

export interface MaximumLikelihoodOptions {
  /** Straight line where left out. */
  readonly model?: LineModel;
  /** log10 of the stress where left out; `limit` knows no other. */
  readonly stress?: StressScale;
  /** Lognormal where left out. */
  readonly life?: LifeDistribution;
  /** Of the parameters' two-sided limits; 0.95 where left out. */
  readonly confidence?: number;
}

/** A scatter smaller than this, in log10 life, beside a spread of lives of ordinary size is none. */
const NO_SCATTER = 1e-7;
/** A limit that is nearer than this share to a tested stress lies at it: there the likelihood has a corner or an edge. */
const AT_LEVEL = 2e-3;
/** Twice the gain of log likelihood that a limit must bring to be seen at 5 %: half of χ² with 1 degree of freedom, since
 * the limit can't be below zero; Self and Liang, JASA 82 (1987) 605 (from memory). */
const LIMIT_SEEN = 2.705543454095404;

/**
 * The S-N line by maximum likelihood, runouts and suspended tests as right-censored lives. log10 N, the dependent
 * variable, has location A + B·X (+ C·X²), X = log10(S/MPa) or S in MPa, and the same scale s at every stress; location
 * and s as in `LineFit`. `limit`: location A + B·log10(S − S_0), S_0 in MPa, below which nothing breaks.
 *
 * The covariance is the inverse of the observed information with ln s as last parameter; limits of the parameters are
 * value ∓ z·se (of s: on ln s). The log likelihood, natural, is that of the lives N in cycles.
 *
 * Problems: `all-runouts`, `specimens-too-few`, `levels-too-few`, `levels-too-close`, `scatter-not-found`,
 * `fit-not-converged`, `limit-not-identified`, `limit-at-level`, `limit-on-log`, those of the table. Warnings in the fit: `limits-narrow`,
 * `failures-few`, `limit-weak`, `limit-at-level`, `line-rising`.
 * @source Meeker and Escobar, Statistical Methods for Reliability Data (1998), 17.3 to 17.5 and 8.4; Nelson, Accelerated
 * Testing (1990), 5.2. The line with a limit is the three-parameter line log N = A + B·log(S − S_0) of S-N practice (as in
 * MMPDS, "equivalent stress" equation), censored rows included; scatter of life is taken as constant above the limit, which
 * a random fatigue limit (Pascual and Meeker, Technometrics 41 (1999) 277) would let grow. From memory.
 */
export function fitMaximumLikelihood(specimens: Specimens, options: MaximumLikelihoodOptions = {}): Result<LineFit> {
  const read = readSpecimens(specimens);
  return read.ok ? fitCensored(read.value, options) : read;
}

/** The same for specimens already read. */
export function fitCensored(observed: Observed, options: MaximumLikelihoodOptions): Result<LineFit> {
  const { model = 'linear', stress = 'log', life = 'lognormal', confidence = 0.95 } = options;
  const problem = notFittable(observed, model, stress);
  if (problem !== undefined) return fail(problem);
  const found = greatest(merged(observed, life), { model, stress, life });
  if (!found.ok) return found;
  const { point, covariance, logLikelihood, warnings } = found.value;
  const names = parameterNames(model);
  const z = normalQuantile((1 + confidence) / 2);
  const parameters = names.map((name, i): ParameterEstimate => {
    const value = point[i] ?? 0;
    const se = Math.sqrt(covariance[i]?.[i] ?? 0);
    return Object.freeze({ name, value, se, lo: value - z * se, hi: value + z * se });
  });
  const likelihoodOfLives = ofLives(logLikelihood, observed);
  const logScale = point.at(-1) ?? 0;
  const seLogScale = Math.sqrt(covariance.at(-1)?.at(-1) ?? 0);
  return ok(Object.freeze({
    method: 'maximum-likelihood',
    model,
    stress,
    life,
    n: observed.cycles.length,
    failures: observed.failures,
    runouts: observed.runouts,
    invalid: observed.invalid,
    parameters: Object.freeze(parameters),
    covariance: Object.freeze(covariance.map((row) => Object.freeze([...row]))),
    s: Math.exp(logScale),
    sLimits: Object.freeze({ lo: Math.exp(logScale - z * seLogScale), hi: Math.exp(logScale + z * seLogScale) }),
    degreesOfFreedom: null,
    logLikelihood: likelihoodOfLives,
    aic: 2 * (names.length + 1) - 2 * likelihoodOfLives,
    confidence,
    tested: observed.tested,
    get replication() {
      return percentReplication(levelsOf(observed).count, observed.cycles.length);
    },
    lackOfFit: null,
    warnings: Object.freeze([
      ...coverageWarnings({ life, model, parameters, failures: observed.failures }),
      ...(model === 'linear' && (point[1] ?? 0) > 0 ? [problems.risingLine()] : []),
      ...warnings,
    ]),
  }));
}

const WORDS: Readonly<Record<LineModel, string>> = {
  constant: 'A distribution of lives', linear: 'A line', quadratic: 'A quadratic', limit: 'A line with a fatigue limit',
};

function notFittable(observed: Observed, model: LineModel, stress: StressScale): Problem | undefined {
  const what = WORDS[model];
  const need = model === 'constant' ? 2 : parameterNames(model).length;
  if (model === 'limit' && stress === 'plain') return problems.limitOnLogOnly();
  if (observed.failures === 0 && observed.runouts > 0) return problems.allRunouts(observed.runouts);
  if (observed.failures < need) return problems.tooFewSpecimens(observed.failures, need, what);
  const stresses = model === 'constant' ? need : stressesUpTo(need, observed);
  return stresses < need ? problems.tooFewLevels(stresses, need, what) : undefined;
}

interface Greatest {
  /** Parameters, then ln s. */
  readonly point: readonly number[];
  readonly covariance: Matrix;
  /** Of log10 lives. */
  readonly logLikelihood: number;
  readonly warnings: readonly Problem[];
}

type Choice = { readonly model: LineModel; readonly stress: StressScale; readonly life: LifeDistribution };

function greatest(observed: Observed, choice: Choice): Result<Greatest> {
  return choice.model === 'limit' ? greatestWithLimit(observed, choice) : greatestOfLine(observed, choice);
}

function greatestOfLine(observed: Observed, choice: Choice): Result<Greatest> {
  const design = designOf(observed, choice);
  const top = maximiseLocationScale(design.lives);
  const problem = unsound(top);
  if (problem !== undefined) return fail(problem);
  const scaled = [...top.beta, Math.log(top.s)];
  const covariance = inverseInformation(curvatureOverScale(top));
  if (covariance === undefined) return fail(problems.stressesTooClose());
  const back = [...design.back.map((row) => [...row, 0]), [...scaled.slice(0, -1).map(() => 0), 1]];
  return ok({
    point: [...coefficientsOf(design, top.beta), Math.log(top.s)],
    covariance: congruent(back, covariance),
    logLikelihood: top.logLikelihood,
    warnings: [],
  });
}

function greatestWithLimit(observed: Observed, choice: Choice): Result<Greatest> {
  const lowest = failuresOnly(observed).stressMpa.reduce((a, b) => Math.min(a, b), Infinity);
  let near: readonly number[] | undefined;
  // The top moves little from one limit to the next: the last one is where the next is looked for.
  const fixedAt = (limit: number): LocationScale => {
    const top = maximiseLocationScale(designOf(observed, choice, limit).lives, undefined, near);
    if (unsound(top) === undefined) near = top.point;
    return top;
  };
  const line = fixedAt(0);
  const problem = unsound(line);
  if (problem !== undefined) return fail(problem);
  const scanned = bestLimit((limit) => valueOf(fixedAt(limit)), lowest);
  if (scanned.at === 0) return fail(problems.limitNotIdentified());
  const design = designOf(observed, choice, scanned.at);
  const atLimit = maximiseLocationScale(design.lives, undefined, near);
  if (unsound(atLimit) !== undefined) return fail(problems.separated());
  const lives = { ...design.lives, y: observed.log10Cycles };
  const locate = (i: number, [a = 0, b = 0, limit = 0]: readonly number[]): Location | undefined => {
    const above = (observed.stressMpa[i] ?? 0) - limit;
    if (!(above > 0)) return undefined;
    const x = Math.log10(above);
    const slope = -1 / (above * Math.LN10);
    const curvatures: Location['curvatures'] = [[1, 2, slope], [2, 2, (b * slope) / above]];
    return { value: a + b * x, slopes: [1, x, b * slope], curvatures };
  };
  const start = [...coefficientsOf(design, atLimit.beta), scanned.at, Math.log(atLimit.s)];
  const top = maximise((point) => expandLikelihood(lives, locate, point), start);
  const covariance = inverseInformation(top.hessian);
  const unsettled = !top.converged || covariance === undefined;
  const limit = unsettled ? scanned.at : (top.point[2] ?? 0);
  const level = nearestOf(observed.stressMpa, limit);
  const atLevel = Math.abs(level - limit) < AT_LEVEL * level ? [problems.limitAtLevel(level)] : [];
  if (unsettled) return fail(atLevel[0] ?? problems.notConverged());
  const seen = 2 * (top.value - line.logLikelihood) >= LIMIT_SEEN;
  return ok({
    point: top.point,
    covariance,
    logLikelihood: top.value,
    warnings: seen ? atLevel : [...atLevel, problems.limitWeak(limit)],
  });
}

function nearestOf(values: Float64Array, wanted: number): number {
  return values.reduce((best, value) => (Math.abs(value - wanted) < Math.abs(best - wanted) ? value : best), Infinity);
}

/** The log likelihood with the limit fixed; −∞ where it has no top. */
export function valueOf(top: LocationScale): number {
  return unsound(top) === undefined ? top.logLikelihood : -Infinity;
}

function unsound(top: LocationScale): Problem | undefined {
  if (!(top.s > NO_SCATTER)) return problems.separated();
  return top.converged ? undefined : problems.notConverged();
}

function coefficientsOf(design: Design, beta: readonly number[]): readonly number[] {
  return design.back.map((row, k) => dot(row, beta) + (k === 0 ? design.origin : 0));
}

function inverseInformation(hessian: Matrix): Matrix | undefined {
  return invertSymmetric(hessian.map((row) => row.map((value) => -value)));
}

/** From the likelihood of log10 lives to that of lives in cycles. */
function ofLives(logLikelihood: number, { log10Cycles, censored }: Observed): number {
  let [sum, count] = [0, 0];
  for (let i = 0; i < log10Cycles.length; i++) {
    if (censored[i] !== 0) continue;
    sum += log10Cycles[i] as number;
    count++;
  }
  return logLikelihood - Math.LN10 * sum - count * Math.log(Math.LN10);
}
