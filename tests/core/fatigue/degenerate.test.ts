import { describe, expect, it } from 'vitest';
import { analyseStaircase, fitLeastSquares, fitMaximumLikelihood, lifeLimits, strengthLimits, type Outcome, type Specimens } from '../../../src/core/fatigue/index.ts';
import firsts from '../../tables/first-of-several.json' with { type: 'json' };
import { firstOfSeveralFactor, type LineDoubt } from '../../../src/core/fatigue/first-of-several.ts';
import { studentQuantile } from '../../../src/core/numeric/index.ts';
import { codeOf, valueOf } from './table.ts';

const table = (stressMpa: readonly number[], cycles: readonly number[], marks = 'x'.repeat(cycles.length)): Specimens => ({
  stressMpa,
  cycles,
  outcomes: [...marks].map((mark): Outcome => (mark === 'x' ? 'fracture' : mark === 'o' ? 'runout' : mark === 's' ? 'suspended' : 'invalid')),
});

/** Every number in a value, however deep. */
function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : [];
}

describe('least squares refuses in words', () => {
  it.each([
    ['no specimens', table([], []), 'specimens-too-few'],
    ['two specimens', table([300, 400], [1e6, 1e5]), 'specimens-too-few'],
    ['equal stresses', table([300, 300, 300, 300], [1e6, 1e5, 2e5, 3e5]), 'levels-too-few'],
    ['stress of nought', table([300, 0, 400], [1e6, 1e5, 1e4]), 'stress-not-positive'],
    ['missing cycles', table([300, 350, 400], [1e6, Number.NaN, 1e4]), 'cycles-not-positive'],
    ['two broken among runouts', table([300, 350, 400, 450], [1e7, 1e7, 1e5, 1e4], 'ooxx'), 'specimens-too-few'],
    ['uneven columns', { stressMpa: [300, 400], cycles: [1e5] }, 'columns-uneven'],
  ] as const)('%s', (_what, specimens, code) => {
    const result = fitLeastSquares(specimens);
    expect(codeOf(result)).toBe(code);
    expect(result).toHaveProperty('problem.mend', expect.stringMatching(/\.$/));
  });
  it('a bad row that is set invalid does not matter', () => {
    const fit = valueOf(fitLeastSquares(table([300, -1, 350, 400], [1e6, 5, 2e5, 4e4], 'x-xx')));
    expect([fit.n, fit.invalid]).toEqual([3, 1]);
    expect(fit.residuals.map(({ row }) => row)).toEqual([0, 2, 3]);
  });
  it('leaves runouts out, counts them and points to maximum likelihood', () => {
    const fit = valueOf(fitLeastSquares(table([300, 350, 400, 450], [1e7, 2e5, 4e4, 1e4], 'oxxx')));
    expect([fit.n, fit.failures, fit.runouts]).toEqual([3, 3, 1]);
    expect(fit.warnings.find(({ code }) => code === 'runouts-left-out')?.mend).toBe('Choose maximum likelihood.');
  });
});

describe('maximum likelihood refuses in words', () => {
  it.each([
    ['all runouts', table([300, 320, 340], [1e7, 1e7, 1e7], 'ooo'), 'all-runouts'],
    ['one fracture', table([300, 320, 340], [1e7, 1e7, 1e5], 'oox'), 'specimens-too-few'],
    ['fractures at one stress', table([300, 400, 400, 400], [1e7, 1e5, 2e5, 9e4], 'oxxx'), 'levels-too-few'],
    ['two fractures, every runout below their line', table([300, 350, 400, 500], [1e5, 1e5, 1e5, 1e4], 'ooxx'), 'scatter-not-found'],
    ['three fractures on one line', table([250, 500, 1000, 400], [1e6, 1e5, 1e4, 1e4], 'xxxo'), 'scatter-not-found'],
  ] as const)('%s', (_what, specimens, code) => {
    expect(codeOf(fitMaximumLikelihood(specimens))).toBe(code);
    expect(codeOf(fitMaximumLikelihood(specimens, { life: 'weibull' }))).toBe(code);
  });
  it('a limit goes with the log scale only', () => {
    expect(codeOf(fitMaximumLikelihood(table([300, 350, 400, 450], [9e5, 2e5, 4e4, 1e4]), { model: 'limit', stress: 'plain' }))).toBe('limit-on-log');
  });
  it('a limit that the likelihood puts right at a tested stress can’t be told', () => {
    // Invented. The likelihood has a corner at 420 MPa, where the runouts stand: no rounded top, and so no standard errors.
    const corner = table([600, 540, 420, 480, 420, 300, 480, 360], [1.25e6, 1.02e6, 4.92e6, 8.81e5, 4.92e6, 4.92e6, 6.84e5, 4.92e6], 'xxoxooxo');
    const fit = fitMaximumLikelihood(corner, { model: 'limit' });
    expect(codeOf(fit)).toBe('limit-at-level');
    expect(fit).toHaveProperty('problem.what', expect.stringContaining('420.0 MPa'));
  });
  it('and where it has a top beside one, that is told of', () => {
    // Invented. One long life at the lowest stress: the curve turns upright there to meet it.
    const edge = table([420, 480, 480, 540, 540, 600, 600], [9e6, 1.5e5, 6e4, 1.2e5, 5.1e4, 9e4, 4.4e4]);
    const fit = valueOf(fitMaximumLikelihood(edge, { model: 'limit' }));
    expect(fit.parameters[2]?.value).toBeCloseTo(420, 2);
    expect(fit.warnings.map(({ code }) => code)).toContain('limit-at-level');
  });
  it('suspended tests count as runouts at their own cycles', () => {
    const rows = [[500, 1e4], [500, 2e4], [450, 3e4], [450, 7e4], [400, 1e5], [400, 2e5], [350, 4e5]] as const;
    const fit = (mark: string) => valueOf(fitMaximumLikelihood(table(rows.map(([s]) => s), rows.map(([, n]) => n), `xxxxxx${mark}`)));
    expect(fit('s')).toEqual(fit('o'));
    expect(fit('s').runouts).toBe(1);
  });
});

describe('never NaN', () => {
  const odd: readonly Specimens[] = [
    table([250, 500, 1000], [1e6, 1e5, 1e4]),
    table([300, 300.0001, 300.0002, 300.0003], [1e5, 2e5, 1e5, 3e5]),
    table([1e-3, 2e-3, 5e-3, 1e-2], [1e12, 1e10, 1e8, 1e5]),
    table([1e9, 2e9, 3e9, 4e9, 4e9], [2, 1.5, 1.2, 1, 1.1]),
    table([300, 350, 400, 450], [1e4, 2e5, 1e6, 4e7]),
    table([300, 350, 400, 450, 300, 350], [1e5, 1e5, 1e5, 1e5, 1e5, 1e5]),
    table([300, 350, 400, 450, 300], [1e5, 4e4, 1.4e4, 9e3, 1e7], 'xxxxo'),
  ];
  it.each(odd.map((specimens, i) => [i, specimens] as const))('odd table %i: numbers or a problem', (_i, specimens) => {
    for (const fit of [fitLeastSquares(specimens), fitLeastSquares(specimens, { model: 'quadratic', stress: 'plain' })]) {
      expect(numbersIn(fit).filter(Number.isNaN)).toEqual([]);
    }
    for (const model of ['linear', 'quadratic', 'limit'] as const) {
      for (const life of ['lognormal', 'weibull'] as const) {
        const fit = fitMaximumLikelihood(specimens, { model, life });
        expect(numbersIn(fit).filter(Number.isNaN)).toEqual([]);
        if (!fit.ok) continue;
        for (const asked of [{ kind: 'median', confidence: 0.95 }, { kind: 'next', confidence: 0.95 }, { kind: 'tolerance', share: 0.9, confidence: 0.9 }] as const) {
          expect(numbersIn(lifeLimits(fit.value, 320, asked)).filter(Number.isNaN)).toEqual([]);
          expect(numbersIn(strengthLimits(fit.value, 1e5, asked)).filter(Number.isNaN)).toEqual([]);
        }
      }
    }
  });
  it('limits of the next specimen hold those of the median, also where few of many broke', () => {
    const stress = [600, 600, 540, 540, 480, 480, 420, 420, 360, 360];
    const few = table(stress, [4e5, 9e5, 8e5, 1e6, 1e6, 1e6, 1e6, 1e6, 1e6, 1e6], 'xxxooooooo');
    const fit = valueOf(fitMaximumLikelihood(few, { life: 'weibull' }));
    for (const at of [600, 480, 360, 250]) {
      const [median, next] = (['median', 'next'] as const).map((kind) => lifeLimits(fit, at, { kind, confidence: 0.95 }));
      expect(next?.lower ?? Number.NaN).toBeLessThanOrEqual(median?.lower ?? Number.NaN);
      expect(next?.upper ?? Number.NaN).toBeGreaterThanOrEqual(median?.upper ?? Number.NaN);
    }
  });
  it('specimens exactly on a line have limits on the line', () => {
    const fit = valueOf(fitLeastSquares(table([1, 1, 2, 2, 4], [1e6, 1e6, 1e5, 1e5, 1e4])));
    expect(fit.warnings.map(({ code }) => code)).toContain('scatter-none');
    const median = lifeLimits(fit, 2, { kind: 'median', confidence: 0.95 });
    for (const asked of [{ kind: 'next', confidence: 0.95 }, { kind: 'tolerance', share: 0.9, confidence: 0.95 }, { kind: 'first of several', several: 3, confidence: 0.95 }] as const) {
      expect(lifeLimits(fit, 2, asked).lower).toBeCloseTo(median.estimate, 12);
    }
    expect(numbersIn(strengthLimits(fit, 1e5, { kind: 'median', confidence: 0.95 })).filter(Number.isNaN)).toEqual([]);
  });
  it('a rising line is told of, and has no strength at a life', () => {
    const fit = valueOf(fitLeastSquares(table([300, 350, 400, 450], [1e4, 2e5, 1e6, 4e7])));
    expect(fit.warnings.map(({ code }) => code)).toContain('line-rising');
    expect(codeOf(strengthLimits(fit, 1e5, { kind: 'median', confidence: 0.95 }))).toBe('life-not-reached');
  });
  it('what is handed out can’t be changed', () => {
    const fit = valueOf(fitLeastSquares(table([300, 350, 400, 450], [9e5, 2e5, 4e4, 1e4])));
    const stairs = valueOf(analyseStaircase({ levels: [300, 310, 300], outcomes: ['runout', 'fracture', 'runout'] }));
    for (const part of [fit, fit.parameters, fit.parameters[0], fit.covariance, fit.covariance[0], fit.residuals, fit.warnings, stairs, stairs.counted]) {
      expect(Object.isFrozen(part)).toBe(true);
    }
    expect(JSON.parse(JSON.stringify(fit))).toEqual(fit);
  });
});

describe('the shortest of the next m lives', () => {
  const lognormal = (leverage: number, degreesOfFreedom: number): LineDoubt => ({ life: 'lognormal', z: 0, root: Math.sqrt(leverage), degreesOfFreedom });
  it('has the factors of a double integration (scipy)', () => {
    const missed = firsts.rows.filter(([m = 0, confidence = 0, leverage = 0, dof = 0, k = 0]) =>
      !(Math.abs(firstOfSeveralFactor(m, confidence, lognormal(leverage, dof)) + k) <= 1e-6 * k));
    expect(missed).toEqual([]);
  });
  it('for one is Student’s t', () => {
    expect(firstOfSeveralFactor(1, 0.95, lognormal(0.16, 9))).toBe(-studentQuantile(0.95, 9) * Math.hypot(1, 0.4));
  });
});

describe('a hundred thousand specimens', () => {
  it('are fitted by either method', () => {
    const n = 100_000;
    const stressMpa = Float64Array.from({ length: n }, (_, i) => 300 + (i % 200));
    const cycles = stressMpa.map((s, i) => 10 ** (32 - 10.5 * Math.log10(s) + 0.2 * Math.sin(i * 12.9898)));
    const outcomes = Array.from(cycles, (value): Outcome => (value > 1e6 ? 'runout' : 'fracture'));
    expect(valueOf(fitLeastSquares({ stressMpa, cycles })).parameters[1]?.value).toBeCloseTo(-10.5, 1);
    expect(valueOf(fitMaximumLikelihood({ stressMpa, cycles: cycles.map((value) => Math.min(value, 1e6)), outcomes })).parameters[1]?.value).toBeCloseTo(-10.5, 0);
  });
});
