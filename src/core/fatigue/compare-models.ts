import { chiSquareCumulative } from '../numeric/index.ts';
import type { LineFit } from './types.ts';

export interface LikelihoodRatio {
  /** Twice the gain of log likelihood, ≥ 0 beyond rounding. */
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  /** Chance of at least this gain where the smaller model is true. */
  readonly p: number;
}

/**
 * Likelihood ratio of a model against one it holds as a special case: quadratic against linear, the line with a limit
 * against the line over log10 S. A limit of zero lies on the edge of its range, so that half the chance is that of no gain.
 * Both must be fits of the same specimens; null where neither holds the other, or the lives are differently distributed.
 * @source Wilks, Ann. Math. Statist. 9 (1938) 60; at an edge: Self and Liang, JASA 82 (1987) 605; from memory.
 */
export function compareNested(smaller: LineFit, larger: LineFit): LikelihoodRatio | null {
  const more = larger.parameters.length - smaller.parameters.length;
  const nested = smaller.model === 'linear' && larger.model !== 'linear' && smaller.stress === larger.stress;
  if (!nested || more < 1 || smaller.life !== larger.life || smaller.n !== larger.n || smaller.failures !== larger.failures) return null;
  const statistic = Math.max(0, 2 * (larger.logLikelihood - smaller.logLikelihood));
  const tail = 1 - chiSquareCumulative(statistic, more);
  return Object.freeze({ statistic, degreesOfFreedom: more, p: larger.model === 'limit' ? tail / 2 : tail });
}
