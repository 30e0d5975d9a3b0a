import { describe, expect, it } from 'vitest';
import { fitMaximumLikelihood, coverageOfAdjusted, coverageOfLargeSample, type LimitApproach, type LineFit, type ParameterName } from '../../../src/core/fatigue/index.ts';
import { coverageWarnings } from '../../../src/core/fatigue/coverage.ts';
import { chiSquareCumulative, normalQuantile, studentCumulative } from '../../../src/core/numeric/index.ts';
import { fitted, Tally, tablesOf, tallyLimits, tallyNext, tallyParameters, type Setting } from '../../bench/coverage-study.ts';
import { valueOf } from './table.ts';

const parametersOf = (names: readonly ParameterName[]): LineFit['parameters'] => names.map((name) => ({ name, value: 0, se: 1, lo: -1, hi: 1 }));
const LINE = parametersOf(['A', 'B']);
const QUADRATIC = parametersOf(['A', 'B', 'C']);
const Z = normalQuantile(0.975);

/**
 * Of 100: complete lognormal samples are normal regression, where (estimate − truth)/se is Student's t times √(f/(f − p)) and
 * f·s²/σ² is χ² with f − p degrees of freedom, so the coverage of value ∓ 1.96 se is known without simulation.
 */
function exact(failures: number, p: number): { parameters: number; s: number } {
  const dof = failures - p;
  const reach = Math.exp((2 * Z) / Math.sqrt(2 * failures));
  return {
    parameters: 100 * (2 * studentCumulative(Z * Math.sqrt(dof / failures), dof) - 1),
    s: 100 * (chiSquareCumulative(failures * reach, dof) - chiSquareCumulative(failures / reach, dof)),
  };
}

describe('how often limits of 1.96 standard errors hold', () => {
  it.each([4, 6, 9, 12, 18, 24, 36, 48, 72])('with %i lognormal lives is what normal regression says', (failures) => {
    for (const parameters of [LINE, QUADRATIC]) {
      const told = coverageOfLargeSample({ life: 'lognormal', parameters, failures });
      const known = exact(failures, parameters.length);
      // Four standard errors of 4000 tables at the known coverage; the worse of two parameters is told, hence half of one more.
      const four = (coverage: number): number => 400 * Math.sqrt(((coverage / 100) * (1 - coverage / 100)) / 4000) + 0.5;
      expect(Math.abs(told.parameters - known.parameters)).toBeLessThan(four(known.parameters));
      expect(Math.abs(told.s - known.s)).toBeLessThan(four(known.s));
    }
  });
  it('between the simulated numbers lies between them, close to what is known', () => {
    for (const failures of [5, 7, 10, 15, 30]) {
      const told = coverageOfLargeSample({ life: 'lognormal', parameters: LINE, failures });
      expect(Math.abs(told.parameters - exact(failures, 2).parameters)).toBeLessThan(2);
      expect(Math.abs(told.s - exact(failures, 2).s)).toBeLessThan(2);
      expect(told.beyond).toBe(false);
    }
    expect(coverageOfLargeSample({ life: 'weibull', parameters: LINE, failures: 3 })).toMatchObject({ parameters: 65.3, beyond: true });
    expect(coverageOfLargeSample({ life: 'weibull', parameters: LINE, failures: 500 }).parameters).toBe(93.7);
  });
});

describe('adjusted limits', () => {
  const tallied = (setting: Setting, approach: LimitApproach): Tally => {
    const [tally, next] = [new Tally(), tablesOf(setting, 20)];
    for (let run = 0; run < 300; run++) {
      const fit = fitted(next(), setting, 'likelihood');
      if (fit === undefined) continue;
      tallyParameters(fit, approach, tally);
      tallyLimits(fit, approach, tally);
      if (run % 3 === 0) tallyNext(fit, approach, tally);
    }
    return tally;
  };
  it.each(['lognormal', 'weibull'] as const)('hold what they say in a class of nine with runouts, where those of large samples do not (%s)', (life) => {
    const setting: Setting = { life, model: 'linear', n: 9, runouts: 0.2 };
    const [adjusted, large] = [tallied(setting, 'adjusted'), tallied(setting, 'large sample')];
    // 300 tables: standard error 1.3 at 95.
    for (const name of ['A', 'B', 's', 'median', 'next', 'tolerance', 'strength']) {
      expect(adjusted.percent(name), name).toBeGreaterThan(91);
      expect(adjusted.percent(name), name).toBeLessThan(99.5);
    }
    expect(large.percent('tolerance')).toBeLessThan(82);
    expect(large.percent('s')).toBeLessThan(88);
  });
  it('are told of with what they held', () => {
    expect(coverageOfAdjusted({ life: 'lognormal' })).toEqual([93.9, 96.8]);
  });
});

describe('the sheet says where limits do not hold', () => {
  const codes = (fit: Pick<LineFit, 'life' | 'model' | 'parameters' | 'failures'>): readonly string[] => coverageWarnings(fit).map(({ code }) => code);
  it('by the number of broken specimens, parameters and distribution', () => {
    expect(codes({ life: 'lognormal', model: 'linear', parameters: LINE, failures: 12 })).toEqual(['limits-narrow']);
    expect(codes({ life: 'weibull', model: 'linear', parameters: LINE, failures: 6 })).toEqual(['limits-narrow', 'failures-few']);
    expect(codes({ life: 'lognormal', model: 'quadratic', parameters: QUADRATIC, failures: 3 })).toEqual(['limits-narrow', 'failures-few']);
    expect(codes({ life: 'lognormal', model: 'linear', parameters: LINE, failures: 72 })).toEqual([]);
  });
  it('in numbers that a student understands', () => {
    const fit = valueOf(fitMaximumLikelihood({ stressMpa: [500, 500, 450, 450, 400, 400, 350, 350, 300], cycles: [2e4, 3e4, 5e4, 8e4, 1e5, 3e5, 4e5, 9e5, 2e6] }));
    expect(fit.warnings.find(({ code }) => code === 'limits-narrow')?.what)
      .toBe('With 9 broken specimens, limits of 1.96 standard errors are too narrow: in simulations of this size, such 95 % limits held the truth in about 87 of 100 cases for the line, and in about 82 for s.');
  });
});
