/** A line kept without its specimens: the same numbers come back, and what can't be a line is refused. */
import { describe, expect, it } from 'vitest';
import {
  fitLeastSquares, fitMaximumLikelihood, lifeLimits, locationStandardError, nextFactor, restoredLine, storedLine,
  type LineFit, type Outcome, type Specimens, type StoredLine,
} from '../../../src/core/fatigue/index.ts';
import { valueOf } from './table.ts';

/** Invented lives at five levels, three times each; at the lowest none broke. */
const invented: Specimens = {
  stressMpa: [440, 440, 440, 400, 400, 400, 360, 360, 360, 320, 320, 320, 280, 280, 280],
  cycles: [6.1e4, 8.9e4, 7.4e4, 1.5e5, 2.2e5, 1.1e5, 5.2e5, 4.1e5, 6.6e5, 2.1e6, 1.4e6, 2.9e6, 1e7, 1e7, 1e7],
  outcomes: [...Array<Outcome>(12).fill('fracture'), ...Array<Outcome>(3).fill('runout')],
};
const squares: LineFit = valueOf(fitLeastSquares(invented));
const lines: readonly (readonly [string, LineFit])[] = [
  ['least squares', squares],
  ['least squares, curved', valueOf(fitLeastSquares(invented, { model: 'quadratic', stress: 'plain' }))],
  ['maximum likelihood', valueOf(fitMaximumLikelihood(invented))],
  ['Weibull lives', valueOf(fitMaximumLikelihood(invented, { life: 'weibull' }))],
  ['with a fatigue limit', valueOf(fitMaximumLikelihood(invented, { model: 'limit' }))],
];

describe('a stored line', () => {
  it.each(lines)('%s: comes back with every number it had', (_name, fit) => {
    const back = valueOf(restoredLine(storedLine(fit)));
    expect(storedLine(back)).toEqual(storedLine(fit));
    expect(back.aic).toBe(fit.aic);
    expect(back.replication).toEqual(fit.replication);
    back.parameters.forEach(({ lo, hi, se }, i) => {
      for (const [got, had] of [[lo, fit.parameters[i]?.lo], [hi, fit.parameters[i]?.hi], [se, fit.parameters[i]?.se]]) {
        expect(Math.abs((got ?? Number.NaN) / (had ?? Number.NaN) - 1)).toBeLessThan(1e-12);
      }
    });
    for (const end of ['lo', 'hi'] as const) expect(Math.abs(back.sLimits[end] / fit.sLimits[end] - 1)).toBeLessThan(1e-9);
  });

  const with_ = (change: Partial<StoredLine>): StoredLine => ({ ...storedLine(squares), ...change });
  const cov = (change: (rows: number[][]) => void): StoredLine => {
    const rows = storedLine(squares).covariance.map((row) => [...row]);
    change(rows);
    return with_({ covariance: rows });
  };
  it.each<[string, StoredLine, RegExp]>([
    ['a parameter that is no number', with_({ values: [Number.NaN, -10] }), /A has no value/],
    ['an infinite parameter', with_({ values: [30, -Infinity] }), /B has no value/],
    ['a parameter too few', with_({ values: [30] }), /has the parameters A, B/],
    ['no scatter', with_({ s: 0 }), /scatter, must be above zero/],
    ['infinite scatter', with_({ s: Infinity }), /scatter/],
    ['half a specimen', with_({ n: 11.5 }), /n must be a whole number/],
    ['fewer than none', with_({ runouts: -1 }), /runouts must be a whole number/],
    ['more levels than specimens', with_({ levels: 400 }), /levels/],
    ['counts that disagree', with_({ failures: 11 }), /as many/],
    ['other degrees of freedom', with_({ degreesOfFreedom: 400 }), /n less 2/],
    ['two specimens', with_({ n: 2, failures: 2, levels: 2, degreesOfFreedom: 0 }), /too few/],
    ['no log likelihood', with_({ logLikelihood: Number.NaN }), /log likelihood/],
    ['a covariance too small', with_({ covariance: [[1]] }), /3 rows/],
    ['a covariance with a gap', cov((rows) => rows[1]?.splice(0, 1, Number.NaN)), /3 rows/],
    ['a covariance that is not symmetric', cov((rows) => rows[0]?.splice(1, 1, 0)), /diagonal/],
    ['a variance below zero', cov((rows) => rows[0]?.splice(0, 1, -1)), /vary together/],
    ['correlation above one', cov((rows) => [[0, 1], [1, 0]].forEach(([i = 0, j = 0]) => rows[i]?.splice(j, 1, 2 * (rows[i]?.[j] ?? 0)))), /vary together/],
    ['covariance without variance', cov((rows) => [rows[0]?.splice(0, 1, 0)]), /vary together/],
    ['lives the wrong way round', with_({ tested: { ...squares.tested, cycles: [1e6, 1e5] } }), /tested lives/],
    ['a stress of nothing', with_({ tested: { ...squares.tested, stressMpa: [0, 400] } }), /tested stresses/],
  ])('%s: refused in words', (_what, stored, words) => {
    const back = restoredLine(stored);
    expect(back.ok ? 'taken' : back.problem.code).toBe('line-unsound');
    expect(back.ok ? '' : back.problem.what).toMatch(words);
  });

  it('without correlation above what can hold: three that can’t all vary together', () => {
    const rows = [[1, 0.9, 0.9], [0.9, 1, -0.9], [0.9, -0.9, 1]];
    expect(restoredLine(with_({ covariance: rows })).ok).toBe(false);
  });
});

describe('the factor for the next specimen', () => {
  it('is Student’s t for least squares: 2.228 for ten degrees of freedom, any printed table', () => {
    expect(nextFactor(squares, 0.95)).toBeCloseTo(2.228, 3);
  });

  it('gives the limits that the line itself gives', () => {
    for (const [name, fit] of lines) {
      if (name === 'Weibull lives') continue;
      const { estimate, upper } = lifeLimits(fit, 370, { kind: 'next', confidence: 0.95 });
      const half = (nextFactor(fit, 0.95) ?? Number.NaN) * Math.hypot(fit.s, locationStandardError(fit, 370));
      expect(Math.abs(half / ((upper ?? 0) - estimate) - 1), name).toBeLessThan(1e-9);
    }
  });

  it('is none where limits are not symmetric, and the normal one where no degree of freedom is left', () => {
    const likely = valueOf(fitMaximumLikelihood(invented));
    expect(nextFactor(valueOf(fitMaximumLikelihood(invented, { life: 'weibull' })), 0.95)).toBeUndefined();
    expect(nextFactor({ ...likely, failures: 2 }, 0.95)).toBeCloseTo(1.959964, 6);
  });
});
