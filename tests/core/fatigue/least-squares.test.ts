import { describe, expect, it } from 'vitest';
import { fitLeastSquares, lifeLimits, percentReplication, strengthByDelta, strengthLimits, type LeastSquaresFit, type Specimens } from '../../../src/core/fatigue/index.ts';
import { fisherQuantile, studentQuantile } from '../../../src/core/numeric/index.ts';
import table from '../../tables/sn-regression.json' with { type: 'json' };
import { caseOf, column, specimensOf, valueOf } from './table.ts';

const at = (values: readonly { readonly value: number; readonly se: number }[], i: number) => values[i] ?? { value: Number.NaN, se: Number.NaN };

function everyLimit(fit: LeastSquaresFit, stressMpa: number): Record<string, number> {
  const [a, b] = [at(fit.parameters, 0), at(fit.parameters, 1)];
  const ci = lifeLimits(fit, stressMpa, { kind: 'median', confidence: 0.95 });
  const band = lifeLimits(fit, stressMpa, { kind: 'band', confidence: 0.95 });
  const pi = lifeLimits(fit, stressMpa, { kind: 'next', confidence: 0.95 });
  const tolerance = lifeLimits(fit, stressMpa, { kind: 'tolerance', share: 0.95, confidence: 0.95 });
  const number = (value: number | null): number => value ?? Number.NaN;
  return {
    A: a.value, B: b.value, seA: a.se, seB: b.se, covAB: fit.covariance[0]?.[1] ?? Number.NaN, s: fit.s, s2: fit.s ** 2, R2: fit.rSquared,
    sum_squares_residual: fit.s ** 2 * (fit.degreesOfFreedom ?? Number.NaN),
    yhat: ci.estimate, N_median: 10 ** ci.estimate, ci_lo: number(ci.lower), ci_hi: number(ci.upper), band_lo: number(band.lower),
    band_hi: number(band.upper), pi_lo: number(pi.lower), pi_hi: number(pi.upper), tol_lo: number(tolerance.lower),
    ktol: (ci.estimate - number(tolerance.lower)) / fit.s,
    F: fit.lackOfFit?.F ?? Number.NaN, F_p_value: fit.lackOfFit?.p ?? Number.NaN,
    SS_lack: fit.lackOfFit?.sumOfSquaresLack ?? Number.NaN, SS_pure: fit.lackOfFit?.sumOfSquaresPure ?? Number.NaN,
    F_critical_95: fisherQuantile(0.95, fit.lackOfFit?.df1 ?? 0, fit.lackOfFit?.df2 ?? 0),
  };
}

function expectCase(id: string, fit: LeastSquaresFit, stressMpa: number): void {
  const printed = caseOf(table, id);
  const computed = everyLimit(fit, stressMpa);
  const known = Object.entries(computed).filter(([name]) => printed.expects(name));
  expect(known.length).toBeGreaterThan(3);
  expect(known.flatMap(([name, value]) => printed.missed(name, value))).toEqual([]);
}

/** ASTM E739's example: half the plastic strain range stands where the stress stands elsewhere. */
const e739: Specimens = {
  ...specimensOf(table, 'e739-example', 'half_plastic_strain_range', 'cycles'),
  levels: column(table, 'e739-example', 'level'),
};
const invented = specimensOf(table, 'invented-sn-a', 'stress_MPa', 'cycles');

describe('the worked example of ASTM E739', () => {
  const fit = valueOf(fitLeastSquares(e739));
  it('has the printed A, B, s and limits', () => {
    expectCase('sn-e739-example', fit, 0.01);
    const printed = caseOf(table, 'sn-e739-example');
    const [a, b] = fit.parameters;
    expect(printed.missed('ciA', [a?.lo ?? 0, a?.hi ?? 0])).toEqual([]);
    expect(printed.missed('ciB', [b?.lo ?? 0, b?.hi ?? 0])).toEqual([]);
  });
  it('has the band, prediction and tolerance limits and lack of fit that R gives', () => {
    expectCase('sn-e739-example-full', fit, 0.01);
    expect(fit.lackOfFit).toMatchObject({ df1: 2, df2: 5 });
  });
  it('has no lack of fit to test where no two strains are equal and no levels are named', () => {
    expect(valueOf(fitLeastSquares({ stressMpa: e739.stressMpa, cycles: e739.cycles })).lackOfFit).toBeNull();
  });
});

describe('invented lives at five levels', () => {
  it('over log stress', () => {
    const fit = valueOf(fitLeastSquares(invented));
    expectCase('sn-invented-a-loglog', fit, 420);
    const printed = caseOf(table, 'sn-invented-a-loglog');
    expect(printed.missed('stress_at_1e6', valueOf(strengthLimits(fit, 1e6, { kind: 'median', confidence: 0.95 })).estimate)).toEqual([]);
    const [a, b] = fit.parameters.map(({ value }) => value);
    expect(printed.missed('basquin_b', 1 / (b ?? 0))).toEqual([]);
    expect(printed.missed('basquin_a', 10 ** (-(a ?? 0) / (b ?? 0)))).toEqual([]);
  });
  it('over stress', () => {
    const fit = valueOf(fitLeastSquares(invented, { stress: 'plain' }));
    expectCase('sn-invented-a-semilog', fit, 420);
    const strength = valueOf(strengthLimits(fit, 1e6, { kind: 'median', confidence: 0.95 })).estimate;
    expect(caseOf(table, 'sn-invented-a-semilog').missed('stress_at_1e6', strength)).toEqual([]);
  });
});

describe('NIST Pontius through the fit', () => {
  it('has nine certified digits, load as stress and deflection as log life', () => {
    const cycles = column(table, 'nist-pontius', 'y').map((y) => 10 ** y);
    const fit = valueOf(fitLeastSquares({ stressMpa: column(table, 'nist-pontius', 'x'), cycles }, { model: 'quadratic', stress: 'plain' }));
    const certified = [[0.673565789473684e-3, 0.107938612033077e-3], [0.732059160401003e-6, 0.157817399981659e-9], [-0.316081871345029e-14, 0.486652849992036e-16]];
    certified.forEach(([value = 0, se = 0], i) => {
      expect(Math.abs(at(fit.parameters, i).value / value - 1)).toBeLessThan(1e-9);
      expect(Math.abs(at(fit.parameters, i).se / se - 1)).toBeLessThan(1e-9);
    });
    expect(Math.abs(fit.s / 0.205177424076185e-3 - 1)).toBeLessThan(1e-9);
  });
});

describe('what goes with a line', () => {
  const fit = valueOf(fitLeastSquares(invented));
  it('log likelihood is that of the lives: the density of each, multiplied', () => {
    const sigma = fit.s * Math.sqrt(13 / 15);
    const product = fit.residuals.reduce((sum, { residual, row }) => {
      const density = Math.exp(-0.5 * (residual / sigma) ** 2) / (sigma * Math.sqrt(2 * Math.PI) * (invented.cycles[row] ?? 0) * Math.LN10);
      return sum + Math.log(density);
    }, 0);
    expect(fit.logLikelihood).toBeCloseTo(product, 10);
    expect(fit.aic).toBeCloseTo(2 * 3 - 2 * product, 10);
  });
  it('strength at a life has Fieller’s interval, written out', () => {
    const y = 6;
    const t = studentQuantile(0.975, 13);
    const [a = 0, b = 0] = fit.parameters.map(({ value }) => value);
    const [[vaa = 0, vab = 0] = [], [, vbb = 0] = []] = fit.covariance;
    // (y − A − B·x)² = t²·(Vaa + 2·Vab·x + Vbb·x²)
    const [p, q, r] = [b * b - t * t * vbb, -2 * b * (y - a) - 2 * t * t * vab, (y - a) ** 2 - t * t * vaa];
    const root = Math.sqrt(q * q - 4 * p * r);
    const { lower, upper } = valueOf(strengthLimits(fit, 10 ** y, { kind: 'median', confidence: 0.95 }));
    expect(Math.log10(lower ?? 0)).toBeCloseTo((-q - root) / (2 * p), 10);
    expect(Math.log10(upper ?? 0)).toBeCloseTo((-q + root) / (2 * p), 10);
  });
  it('strength limits turn the life limits round, for every kind that has them', () => {
    for (const asked of [
      { kind: 'band', confidence: 0.9 }, { kind: 'next', confidence: 0.9 }, { kind: 'tolerance', share: 0.9, confidence: 0.95 }, { kind: 'two s' },
    ] as const) {
      const { lower } = valueOf(strengthLimits(fit, 2e5, asked));
      expect(lifeLimits(fit, lower ?? 0, asked).lower).toBeCloseTo(Math.log10(2e5), 9);
    }
  });
  it('the delta method agrees with the exact interval where the doubt is small', () => {
    const exact = valueOf(strengthLimits(fit, 1e5, { kind: 'median', confidence: 0.95 }));
    const delta = valueOf(strengthByDelta(fit, 1e5));
    expect(delta.lower ?? 0).toBeCloseTo(exact.lower ?? 1, -0.5);
    expect(delta.upper ?? 0).toBeCloseTo(exact.upper ?? 1, -0.5);
  });
  it('a slope that could be nought leaves the strength open on a side', () => {
    const flat = valueOf(fitLeastSquares({ stressMpa: [300, 310, 320, 330], cycles: [2e5, 9e4, 3e5, 1e5] }));
    const { lower, upper } = valueOf(strengthLimits(flat, 1.5e5, { kind: 'median', confidence: 0.99 }));
    expect([lower, upper]).toContain(null);
  });
});

describe('residuals', () => {
  const stray = { stressMpa: [300, 300, 340, 340, 380, 380, 420, 420, 460, 460], cycles: [2e6, 1.6e6, 7e5, 5e5, 2.4e5, 2e5, 9e4, 7e4, 4e4, 4e6] };
  const fit = valueOf(fitLeastSquares(stray));
  it('a studentised residual is that of a fit without the specimen', () => {
    const others = [...stray.stressMpa.keys()].filter((i) => i !== 9);
    const without = valueOf(fitLeastSquares({
      stressMpa: others.map((i) => stray.stressMpa[i] ?? 0), cycles: others.map((i) => stray.cycles[i] ?? 0),
    }));
    const { estimate, upper } = lifeLimits(without, 460, { kind: 'next', confidence: 0.95 });
    const standardError = ((upper ?? 0) - estimate) / studentQuantile(0.975, 7);
    expect(fit.residuals[9]?.studentised).toBeCloseTo((Math.log10(4e6) - estimate) / standardError, 9);
  });
  it('flags the stray specimen and keeps it', () => {
    expect(fit.residuals.filter(({ influential }) => influential).map(({ row }) => row)).toEqual([9]);
    expect(fit.warnings.map(({ code }) => code)).toContain('specimens-influential');
    expect(fit.n).toBe(10);
  });
  it('normal scores rise with the residuals and sum to nought', () => {
    const sorted = [...fit.residuals].sort((a, b) => a.residual - b.residual).map(({ normalScore }) => normalScore);
    expect(sorted).toEqual([...sorted].sort((a, b) => a - b));
    expect(sorted.reduce((sum, one) => sum + one, 0)).toBeCloseTo(0, 12);
  });
});

describe('percent replication', () => {
  it('is that of the definition', () => {
    const printed = caseOf(table, 'sn-e739-replication');
    const percents = [[4, 9], [6, 12], [6, 24], [5, 15]].map(([levels = 0, n = 0]) => percentReplication(levels, n).percent);
    expect(printed.missed('percent_replication', percents)).toEqual([]);
  });
  // Classes: ASTM E739, from memory.
  it.each([[5, 6, 'preliminary'], [4, 6, 'research'], [6, 12, 'design'], [6, 24, 'reliability'], [6, 6, null], [2, 5, null], [4, 9, 'research']] as const)(
    '%i levels, %i specimens: %s', (levels, n, use) => {
      expect(percentReplication(levels, n).suitedFor).toBe(use);
    },
  );
});

describe('certified regressions through the fit', () => {
  // NIST Statistical Reference Datasets. The response is taken as log10 N, so lives are 10 to its power.
  const apart = (got: readonly (number | undefined)[], certified: readonly number[]): readonly number[] =>
    certified.filter((value, i) => !(Math.abs((got[i] ?? Number.NaN) / value - 1) < 1e-9));
  it('Pontius, a quadratic in the stress itself', () => {
    const lives = column(table, 'nist-pontius', 'y').map((y) => 10 ** y);
    const fit = valueOf(fitLeastSquares({ stressMpa: column(table, 'nist-pontius', 'x'), cycles: lives }, { model: 'quadratic', stress: 'plain' }));
    expect(apart(fit.parameters.map(({ value }) => value), [0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14])).toEqual([]);
    expect(apart(fit.parameters.map(({ se }) => se), [0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16])).toEqual([]);
    expect(apart([fit.s, fit.rSquared], [0.205177424076185e-3, 0.999999900178537])).toEqual([]);
  });
  it('Norris, a straight line in the stress itself, its response over a hundred', () => {
    const lives = column(table, 'nist-norris', 'y').map((y) => 10 ** (y / 100));
    const fit = valueOf(fitLeastSquares({ stressMpa: column(table, 'nist-norris', 'x'), cycles: lives }, { stress: 'plain' }));
    expect(apart(fit.parameters.map(({ value }) => 100 * value), [-0.262323073774029, 1.00211681802045])).toEqual([]);
    expect(apart(fit.parameters.map(({ se }) => 100 * se), [0.232818234301152, 0.429796848199937e-3])).toEqual([]);
    expect(apart([100 * fit.s, fit.rSquared], [0.884796396144373, 0.999993745883712])).toEqual([]);
  });
});
