import type { Problem } from '../problem/index.ts';
import { fewFailures, limitsNarrow } from './problems.ts';
import type { Coverage, LifeDistribution, LineFit } from './types.ts';

type Simulated = readonly (readonly [failures: number, parameters: number, s: number])[];

/**
 * Limits value ∓ 1.96 se of maximum likelihood, without runouts, by life and number of parameters of the line.
 * @source tests/bench/coverage.bench.ts, 4000 tables a row: standard error 0.4 to 0.8
 */
const LARGE_SAMPLE: Readonly<Record<LifeDistribution, Readonly<Record<2 | 3, Simulated>>>> = {
  lognormal: {
    2: [
      [4, 69.8, 61.3], [6, 81.1, 74.1], [9, 87.0, 82.0], [12, 89.2, 85.7], [18, 91.9, 90.0],
      [24, 92.0, 90.6], [36, 93.0, 91.7], [48, 93.6, 92.4], [72, 94.1, 93.2],
    ],
    3: [
      [4, 48.8, 30.9], [6, 72.7, 59.2], [9, 84.0, 73.5], [12, 87.0, 79.2], [18, 90.3, 85.5],
      [24, 90.6, 87.8], [36, 92.2, 89.9], [48, 93.7, 92.3], [72, 93.3, 93.5],
    ],
  },
  weibull: {
    2: [
      [4, 65.3, 65.0], [6, 78.0, 76.8], [9, 84.9, 82.7], [12, 87.5, 85.5], [18, 90.3, 89.5],
      [24, 91.8, 91.0], [36, 92.9, 92.0], [48, 93.3, 93.2], [72, 93.7, 93.9],
    ],
    3: [
      [4, 43.3, 34.4], [6, 65.5, 58.5], [9, 78.9, 73.3], [12, 85.6, 79.4], [18, 89.0, 85.4],
      [24, 90.0, 89.6], [36, 91.7, 90.4], [48, 93.1, 91.9], [72, 93.1, 92.9],
    ],
  },
};

/**
 * Least and most that adjusted limits of a straight line held: parameters and s, lives and strength; n = 6, 12, 24, with and
 * without 20 % runouts.
 * @source as above
 */
const ADJUSTED: Readonly<Record<LifeDistribution, readonly [least: number, most: number]>> = { lognormal: [93.9, 96.8], weibull: [93.4, 98.0] };
/** Weibull limits stay within 93 to 97 from the next simulated size, 12, with a fifth of its tests unbroken. */
const WEIBULL_ENOUGH = 9;

/** Limits that say 95 % are good enough for the sheet from here on. */
const ENOUGH = 93;

/** How often limits value ∓ 1.96 se hold with as many broken specimens, read between the simulated numbers along 1/f. */
export function coverageOfLargeSample({ life, parameters, failures }: Pick<LineFit, 'life' | 'parameters' | 'failures'>): Coverage {
  const rows = LARGE_SAMPLE[life][parameters.length > 2 ? 3 : 2];
  const above = rows.findIndex(([simulated]) => simulated >= failures);
  const right = rows[above] ?? rows.at(-1);
  const left = rows[above - 1] ?? right;
  if (right === undefined || left === undefined) throw new RangeError('the table of coverage is empty');
  const share = left === right ? 1 : (1 / left[0] - 1 / failures) / (1 / left[0] - 1 / right[0]);
  const between = (from: number, to: number): number => from + share * (to - from);
  return { parameters: between(left[1], right[1]), s: between(left[2], right[2]), beyond: failures < left[0] };
}

/** Least and most that `adjusted` limits held, of 100. */
export function coverageOfAdjusted({ life }: Pick<LineFit, 'life'>): readonly [least: number, most: number] {
  return ADJUSTED[life];
}

/**
 * What is to be said of the limits of a fit by maximum likelihood: `limits-narrow`, its own limits value ∓ 1.96 se hold in
 * fewer than 93 of 100 cases; `failures-few`, even adjusted limits do not hold in 93 to 97.
 */
export function coverageWarnings(fit: Pick<LineFit, 'life' | 'model' | 'parameters' | 'failures'>): readonly Problem[] {
  if (fit.model === 'constant') return [];
  const coverage = coverageOfLargeSample(fit);
  const narrow = Math.min(coverage.parameters, coverage.s) < ENOUGH;
  const adjustable = fit.failures > fit.parameters.length;
  const few = !adjustable || (fit.life === 'weibull' && fit.failures < WEIBULL_ENOUGH);
  return [
    ...(narrow ? [limitsNarrow(fit.failures, coverage, fit.model)] : []),
    ...(few ? [fewFailures(fit.failures, adjustable ? coverageOfAdjusted(fit) : undefined)] : []),
  ];
}
