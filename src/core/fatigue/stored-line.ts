import { chiSquareQuantile, factorSemidefinite, normalQuantile, studentQuantile } from '../numeric/index.ts';
import { fail, ok, type Problem, type Result } from '../problem/index.ts';
import { parameterNames } from './line.ts';
import * as problems from './problems.ts';
import { percentReplication } from './specimens.ts';
import type { LineFit, ParameterEstimate } from './types.ts';

/** What has to be kept of a fitted line so that it can be reckoned with elsewhere, without its specimens. */
export interface StoredLine
  extends Pick<LineFit, 'method' | 'model' | 'stress' | 'life' | 'n' | 'failures' | 'runouts' | 's' | 'covariance' | 'degreesOfFreedom' | 'logLikelihood' | 'tested'> {
  /** Values of the parameters, in the model's order. */
  readonly values: readonly number[];
  /** Levels of stress among the specimens used. */
  readonly levels: number;
}

const CONFIDENCE = 0.95;

/** The covariance is made exactly symmetric, its lower triangle counting: a fit's may differ across its diagonal in the last digit. */
export function storedLine(fit: LineFit): StoredLine {
  const covariance = fit.covariance.map((row, i) => row.map((_, j) => fit.covariance[Math.max(i, j)]?.[Math.min(i, j)] ?? Number.NaN));
  const { method, model, stress, life, n, failures, runouts, s, degreesOfFreedom, logLikelihood, tested } = fit;
  const values = fit.parameters.map(({ value }) => value);
  const levels = fit.replication.levels;
  return { method, model, stress, life, n, failures, runouts, values, s, covariance, degreesOfFreedom, logLikelihood, tested, levels };
}

/**
 * The fit that a stored line came from, but for what only its specimens tell (lack of fit, invalid rows). Nothing of it is
 * taken on trust: the numbers may come from any file.
 * Problems, all `line-unsound`: a number that can't be, counts that don't agree, a covariance that is none.
 */
export function restoredLine(stored: StoredLine): Result<LineFit> {
  const wrong = firstWrong(stored);
  if (wrong !== undefined) return fail(unsound(wrong));
  const { method, model, stress, life, n, failures, runouts, s, covariance, degreesOfFreedom, logLikelihood, tested } = stored;
  const names = parameterNames(model);
  const upTo = (1 + CONFIDENCE) / 2;
  const factor = degreesOfFreedom === null ? normalQuantile(upTo) : studentQuantile(upTo, degreesOfFreedom);
  const parameters = names.map((name, i): ParameterEstimate => {
    const value = stored.values[i] ?? 0;
    const se = Math.sqrt(covariance[i]?.[i] ?? 0);
    return Object.freeze({ name, value, se, lo: value - factor * se, hi: value + factor * se });
  });
  return ok(Object.freeze({
    method, model, stress, life, n, failures, runouts, invalid: 0, parameters, covariance, s,
    sLimits: scatterLimits(stored, upTo),
    degreesOfFreedom, logLikelihood,
    aic: 2 * (names.length + 1) - 2 * logLikelihood,
    confidence: CONFIDENCE,
    tested,
    replication: percentReplication(stored.levels, n),
    lackOfFit: null,
    warnings: method === 'least-squares' && runouts > 0 ? [runoutsLeftOut(runouts)] : [],
  }));
}

function runoutsLeftOut(runouts: number): Problem {
  return { ...problems.runoutsLeftOut(runouts), mend: 'Fit by maximum likelihood where the line comes from, and take it again.' };
}

/** As the fits have them: by χ² for least squares, by the information of ln s for maximum likelihood. */
function scatterLimits({ s, covariance, degreesOfFreedom: dof }: StoredLine, upTo: number): LineFit['sLimits'] {
  if (dof === null) {
    const spread = Math.exp(normalQuantile(upTo) * Math.sqrt(covariance.at(-1)?.at(-1) ?? 0));
    return { lo: s / spread, hi: s * spread };
  }
  return { lo: s * Math.sqrt(dof / chiSquareQuantile(upTo, dof)), hi: s * Math.sqrt(dof / chiSquareQuantile(1 - upTo, dof)) };
}

/** What is wrong with a stored line, as the end of a sentence. */
function firstWrong(line: StoredLine): string | undefined {
  const { model, stress, values, s, logLikelihood, tested } = line;
  const names = parameterNames(model);
  if (model === 'limit' && stress === 'plain') return 'a line with a fatigue limit goes with the logarithm of stress only';
  if (values.length !== names.length) return `a line of this shape has the parameters ${names.join(', ')}`;
  const unreal = values.findIndex((value) => !Number.isFinite(value));
  if (unreal >= 0) return `${names[unreal]} has no value`;
  if (!(s > 0 && s < Infinity)) return 's, the scatter, must be above zero';
  if (!Number.isFinite(logLikelihood)) return 'the log likelihood has no value';
  return wrongCounts(line, names.length) ?? wrongCovariance(line, names.length + 1)
    ?? wrongRange('tested stresses', tested.stressMpa) ?? wrongRange('tested lives', tested.cycles);
}

function wrongCounts({ method, n, failures, runouts, levels, degreesOfFreedom }: StoredLine, parameters: number): string | undefined {
  for (const [name, count] of Object.entries({ n, failures, runouts, levels })) {
    if (!Number.isSafeInteger(count) || count < 0) return `${name} must be a whole number, zero or more`;
  }
  if (levels < 1 || levels > n) return 'the levels can’t be more than the specimens, nor none';
  if (method === 'maximum-likelihood') {
    if (n !== failures + runouts) return 'n must be the broken specimens and the runouts together';
    if (failures < parameters) return 'the broken specimens are too few for so many parameters';
    return degreesOfFreedom === null ? undefined : 'a line by maximum likelihood has no degrees of freedom of its own';
  }
  if (n !== failures) return 'least squares uses the broken specimens only, so n must be as many';
  if (n <= parameters) return 'the specimens are too few for so many parameters';
  return degreesOfFreedom === n - parameters ? undefined : `the degrees of freedom must be n less ${parameters}`;
}

function wrongCovariance({ covariance }: StoredLine, size: number): string | undefined {
  const sized = covariance.length === size && covariance.every((row) => row.length === size && row.every(Number.isFinite));
  if (!sized) return `the covariance needs ${size} rows of numbers: of the parameters, then of ln s`;
  const symmetric = covariance.every((row, i) => row.every((value, j) => value === covariance[j]?.[i]));
  if (!symmetric) return 'the covariance must be the same across its diagonal';
  const errors = covariance.map((row, i) => Math.sqrt(row[i] ?? Number.NaN));
  const correlation = covariance.map((row, i) => row.map((value, j) => {
    const scale = (errors[i] ?? 0) * (errors[j] ?? 0);
    return scale === 0 ? value : value / scale;
  }));
  const isPossible = correlation.every((row) => row.every((value) => Math.abs(value) <= 1 + 1e-9)) && factorSemidefinite(correlation) !== undefined;
  return isPossible ? undefined : 'no parameters can vary together as this covariance says';
}

function wrongRange(name: string, [low, high]: readonly [number, number]): string | undefined {
  return low > 0 && low <= high && high < Infinity ? undefined : `the ${name} must be two numbers above zero, the lower one first`;
}

function unsound(why: string): Problem {
  return {
    code: 'line-unsound',
    what: `The line brought in can’t be used: ${why}.`,
    mend: 'Take the line again from the sheet it came from.',
  };
}
