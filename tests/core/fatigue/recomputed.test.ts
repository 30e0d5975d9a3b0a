import { describe, expect, it } from 'vitest';
import {
  fitLeastSquares,
  fitMaximumLikelihood,
  lifeLimits,
  strengthLimits,
  type LifeDistribution,
  type LineFit,
  type LineModel,
  type Outcome,
  type Specimens,
  type StressScale,
} from '../../../src/core/fatigue/index.ts';
import table from '../../tables/fits-recomputed.json' with { type: 'json' };
import { valueOf } from './table.ts';

// Invented specimens; every expected number was computed outside the project, as the table says.

type Case = (typeof table.sets)[number];

function specimensOf({ stress, cycles, broken }: Case): Specimens {
  return { stressMpa: stress, cycles, outcomes: broken.map((one): Outcome => (one === 1 ? 'fracture' : 'runout')) };
}

function fitOf(one: Case): LineFit {
  const model = one.options.model as LineModel;
  const stress = one.options.stress as StressScale;
  if (one.options.method === 'least-squares') {
    return valueOf(fitLeastSquares(specimensOf(one), { model: model === 'quadratic' ? model : 'linear', stress }));
  }
  return valueOf(fitMaximumLikelihood(specimensOf(one), { model, stress, life: one.options.life as LifeDistribution }));
}

/** Names of the numbers that are not within the tolerance of the table. */
function missed(pairs: readonly (readonly [name: string, got: number | null | undefined, wanted: number])[]): readonly string[] {
  return pairs.flatMap(([name, got, wanted]) =>
    (Math.abs((got ?? Number.NaN) - wanted) <= table.tolerance * Math.abs(wanted) ? [] : [`${name}: ${got} instead of ${wanted}`]));
}

describe.each(table.sets.map((one) => [one.name, one] as const))('%s', (_name, one) => {
  const fit = fitOf(one);
  const { expected } = one;
  it('has the parameters, standard errors, scatter and log likelihood', () => {
    expect(missed([
      ...fit.parameters.map(({ name, value }, i) => [name, value, expected.parameters[i] ?? Number.NaN] as const),
      ...fit.parameters.map(({ name, se }, i) => [`se of ${name}`, se, expected.se[i] ?? Number.NaN] as const),
      ['s', fit.s, expected.s],
      ['log likelihood', fit.logLikelihood, expected.logLikelihood],
    ])).toEqual([]);
  });
  it('has the covariance', () => {
    for (const [i, row] of expected.covariance.entries()) {
      for (const [j, wanted] of row.entries()) {
        const size = Math.sqrt((expected.covariance[i]?.[i] ?? 0) * (expected.covariance[j]?.[j] ?? 0));
        expect(Math.abs((fit.covariance[i]?.[j] ?? Number.NaN) - wanted)).toBeLessThanOrEqual(table.tolerance * size);
      }
    }
  });
});

const squares = table.sets.filter(({ options }) => options.method === 'least-squares');

describe.each(squares.map((one) => [one.name, one] as const))('least squares of %s', (_name, one) => {
  const fit = fitOf(one);
  const { lo, hi, lackOfFit, limits } = one.expected;
  it('has limits of the parameters, and lack of fit where there are replicates', () => {
    expect(missed(fit.parameters.flatMap((parameter, i) => [
      ['lo', parameter.lo, lo?.[i] ?? Number.NaN], ['hi', parameter.hi, hi?.[i] ?? Number.NaN],
    ] as const))).toEqual([]);
    const { F, df1, df2, p } = fit.lackOfFit ?? {};
    expect([df1, df2]).toEqual([lackOfFit?.df1, lackOfFit?.df2]);
    expect(missed(lackOfFit === null || lackOfFit === undefined ? [] : [['F', F, lackOfFit.F], ['p', p, lackOfFit.p]])).toEqual([]);
  });
  it('has the limits of life', () => {
    const at = (kind: 'median' | 'next' | 'band') => {
      const { lower, upper } = lifeLimits(fit, limits?.stress ?? Number.NaN, { kind, confidence: 0.95 });
      return [[`${kind} below`, lower, limits?.[kind][0] ?? Number.NaN], [`${kind} above`, upper, limits?.[kind][1] ?? Number.NaN]] as const;
    };
    const tolerance = lifeLimits(fit, limits?.stress ?? Number.NaN, { kind: 'tolerance', share: 0.9, confidence: 0.95 });
    expect(missed([...at('median'), ...at('next'), ...at('band'), ['tolerance 90/95', tolerance.lower, limits?.tolerance ?? Number.NaN]])).toEqual([]);
  });
});

const withStrength = squares.flatMap((one) => (one.expected.strength === undefined ? [] : [[one.name, one, one.expected.strength] as const]));

describe('strength at a life', () => {
  it.each(withStrength)('of %s has Fieller’s limits', (_name, one, { log10Cycles, estimate, limits: [below = Number.NaN, above = Number.NaN] }) => {
    const own = valueOf(strengthLimits(fitOf(one), 10 ** log10Cycles, { kind: 'median', confidence: 0.95 }));
    expect(missed([['estimate', own.estimate, estimate], ['below', own.lower, below], ['above', own.upper, above]])).toEqual([]);
  });
});

describe('a line with a fatigue limit in another unit of stress', () => {
  it.each(table.sets.filter(({ options }) => options.model === 'limit').map((one) => [one.name, one] as const))('%s', (_name, one) => {
    const KSI = 6.894757293168361;
    const own = fitOf(one);
    const other = fitOf({ ...one, stress: one.stress.map((stress) => stress / KSI) });
    const [a, b, limit] = own.parameters.map(({ value }) => value) as [number, number, number];
    expect(missed([
      ['A', other.parameters[0]?.value, a + b * Math.log10(KSI)], ['B', other.parameters[1]?.value, b], ['S_0', other.parameters[2]?.value, limit / KSI],
      ['s', other.s, own.s], ['log likelihood', other.logLikelihood, own.logLikelihood], ['se of S_0', other.parameters[2]?.se, (own.parameters[2]?.se ?? 0) / KSI],
    ])).toEqual([]);
  });
});
