import { describe, expect, it } from 'vitest';
import { noncentralStudentCumulative, noncentralStudentQuantile, normalCumulative, normalQuantile, studentQuantile } from '../../../src/core/numeric/index.ts';
import quantiles from '../../tables/noncentral-student.json' with { type: 'json' };
import tolerance from '../../tables/tolerance.json' with { type: 'json' };
import { caseOf } from '../fatigue/table.ts';

const factor = (n: number, share: number, confidence: number): number =>
  noncentralStudentQuantile(confidence, n - 1, normalQuantile(share) * Math.sqrt(n)) / Math.sqrt(n);

const list = (value: unknown): readonly number[] => [value].flat().map(Number);

describe('noncentral t', () => {
  it('has the quantiles of a computation with 25 digits (mpmath)', () => {
    expect(quantiles.rows.length).toBe(60);
    const missed = quantiles.rows.filter(([p = 0, dof = 0, delta = 0, t = 0]) =>
      !(Math.abs(noncentralStudentQuantile(p, dof, delta) - t) <= 1e-10 * Math.max(1, Math.abs(t))));
    expect(missed).toEqual([]);
  });
  it('gives back the probability of its quantile, large noncentrality included', () => {
    for (const delta of [-40, -3, 0.2, 8, 90, 700]) {
      for (const dof of [1, 4.5, 60, 1e6]) {
        for (const p of [0.001, 0.1, 0.5, 0.95]) {
          expect(Math.abs(noncentralStudentCumulative(noncentralStudentQuantile(p, dof, delta), dof, delta) - p)).toBeLessThan(1e-11);
        }
      }
    }
  });
  it('is central t without noncentrality and normal with endless degrees of freedom', () => {
    expect(noncentralStudentQuantile(0.9, 7, 0)).toBe(studentQuantile(0.9, 7));
    expect(noncentralStudentCumulative(2.5, Infinity, 1)).toBe(normalCumulative(1.5));
    expect(noncentralStudentCumulative(2.5, 1e9, 1)).toBeCloseTo(normalCumulative(1.5), 8);
  });
  it('answers with NaN outside its domain and infinity at the ends', () => {
    expect(noncentralStudentQuantile(1.1, 5, 1)).toBeNaN();
    expect(noncentralStudentCumulative(1, -1, 1)).toBeNaN();
    expect(noncentralStudentQuantile(0, 5, 1)).toBe(-Infinity);
    expect(noncentralStudentQuantile(1, 5, 1)).toBe(Infinity);
  });
});

describe('one-sided tolerance factors', () => {
  it('are those of the whole table, which a second computation without noncentral t confirms', () => {
    const rows = tolerance['one-sided factors'].rows;
    expect(rows.length).toBe(256);
    expect(rows.filter(([n = 0, share = 0, confidence = 0, k = 0]) => !(Math.abs(factor(n, share, confidence) - k) <= 1e-10 * k))).toEqual([]);
  });
  it('agree with the printed ones (e-Handbook of NIST, Owen, Natrella)', () => {
    expect(caseOf(tolerance, 'tol-nist-handbook').missed('k1_noncentral_t', factor(43, 0.9, 0.99))).toEqual([]);
    expect(caseOf(tolerance, 'tol-n40').missed('k1', factor(40, 0.9, 0.99))).toEqual([]);
    for (const [id, confidence] of [['tol-owen-95', 0.95], ['tol-owen-90', 0.9]] as const) {
      const printed = caseOf(tolerance, id);
      const computed = list(printed.input('n')).flatMap((n) => list(printed.input('P')).map((share) => factor(n, share, confidence)));
      expect(printed.missed('k', computed)).toEqual([]);
      expect(printed.missedRecomputed('k', computed, 1e-9)).toEqual([]);
    }
  });
  it('for the median are t/√n', () => {
    const identity = caseOf(tolerance, 'tol-median-is-t');
    expect(identity.missed('k', list(identity.input('n')).map((n) => factor(n, 0.5, 0.95)))).toEqual([]);
  });
  it('give the limits of lives at one level', () => {
    const lives = caseOf(tolerance, 'tol-lives-at-one-level');
    expect(lives.missed('k_95_95', factor(8, 0.95, 0.95))).toEqual([]);
    expect(lives.missed('k_99_95', factor(8, 0.99, 0.95))).toEqual([]);
  });
});
