import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLeastSquares, fitMaximumLikelihood, lifeLimits, strengthLimits, type LifeDistribution, type LineFit, type Outcome, type Specimens } from '../../../src/core/fatigue/index.ts';
import { expandLikelihood } from '../../../src/core/fatigue/information.ts';
import { maximise } from '../../../src/core/numeric/index.ts';
import { valueOf } from './table.ts';

interface Row { readonly stressMpa: number; readonly cycles: number; readonly outcome: Outcome }

/** Invented lives about a line, replicated at four levels, cut off at a runout life. */
const tables = fc.array(fc.tuple(fc.integer({ min: 0, max: 3 }), fc.double({ min: -0.6, max: 0.6, noNaN: true })), { minLength: 10, maxLength: 24 })
  .map((pairs) => {
    const seeded = [...[0, 0, 1, 1, 2, 2, 3, 3].map((level, i) => [level, ((i * 7) % 5) / 10 - 0.2] as const), ...pairs];
    return seeded.map(([level, scatter]): Row => {
      const stressMpa = 300 + 50 * level;
      const cycles = 10 ** (32 - 10.5 * Math.log10(stressMpa) + scatter);
      return cycles > 2e6 ? { stressMpa, cycles: 2e6, outcome: 'runout' } : { stressMpa, cycles, outcome: 'fracture' };
    });
  });
const specimens = (rows: readonly Row[]): Specimens => ({
  stressMpa: Float64Array.from(rows, ({ stressMpa }) => stressMpa),
  cycles: Float64Array.from(rows, ({ cycles }) => cycles),
  outcomes: rows.map(({ outcome }) => outcome),
});
const fits: readonly (readonly [name: string, fit: (rows: readonly Row[]) => LineFit])[] = [
  ['least squares', (rows) => valueOf(fitLeastSquares(specimens(rows)))],
  ['lognormal likelihood', (rows) => valueOf(fitMaximumLikelihood(specimens(rows)))],
  ['Weibull likelihood', (rows) => valueOf(fitMaximumLikelihood(specimens(rows), { life: 'weibull' }))],
];
const near = (got: number | undefined, wanted: number | undefined, relative = 1e-7): void => {
  expect(Math.abs((got ?? Number.NaN) - (wanted ?? Number.NaN))).toBeLessThanOrEqual(relative * (1 + Math.abs(wanted ?? 0)));
};

describe.each(fits)('%s', (_name, fit) => {
  it('another unit of stress shifts A by B·log10 of the factor and changes nothing else', () => {
    fc.assert(fc.property(tables, fc.double({ min: 0.01, max: 100, noNaN: true }), (rows, factor) => {
      const own = fit(rows);
      const other = fit(rows.map((row) => ({ ...row, stressMpa: row.stressMpa * factor })));
      const [a, b] = own.parameters;
      near(other.parameters[0]?.value, (a?.value ?? 0) - (b?.value ?? 0) * Math.log10(factor));
      near(other.parameters[1]?.value, b?.value);
      near(other.parameters[1]?.se, b?.se);
      near(other.s, own.s);
      near(other.logLikelihood, own.logLikelihood);
    }), { seed: 11, numRuns: 25 });
  });
  it('at a limit of strength the limit of life is the life asked for, of a share and of a tolerance too, which are found without that limit', () => {
    fc.assert(fc.property(tables, fc.constantFrom(1e5, 4e5), fc.constantFrom(0.1, 0.5, 0.9, 0.99), (rows, cycles, share) => {
      const line = fit(rows);
      for (const kind of ['share', 'tolerance'] as const) {
        const asked = { kind, share, confidence: 0.9 };
        const found = strengthLimits(line, cycles, asked);
        if (!found.ok) continue;
        const { lower, upper } = found.value;
        if (lower !== null) near(lifeLimits(line, lower, asked).lower ?? undefined, Math.log10(cycles), 1e-9);
        if (upper !== null) near(lifeLimits(line, upper, asked).upper ?? undefined, Math.log10(cycles), 1e-9);
      }
    }), { numRuns: 25 });
  });
  it('the order of the rows changes nothing', () => {
    fc.assert(fc.property(tables.chain((rows) => fc.tuple(fc.constant(rows), fc.shuffledSubarray([...rows], { minLength: rows.length }))), ([rows, shuffled]) => {
      const [own, other] = [fit(rows), fit(shuffled)];
      own.parameters.forEach(({ value, se }, i) => {
        near(other.parameters[i]?.value, value);
        near(other.parameters[i]?.se, se);
      });
      near(other.s, own.s);
      near(other.logLikelihood, own.logLikelihood);
    }), { seed: 12, numRuns: 25 });
  });
});

describe('with no runouts', () => {
  const models = [['linear', 'log'], ['linear', 'plain'], ['quadratic', 'log'], ['quadratic', 'plain']] as const;
  it.each(models)('maximum likelihood equals least squares up to the divisor of s (%s, %s)', (model, stress) => {
    fc.assert(fc.property(tables, (rows) => {
      const broken = specimens(rows.map((row) => ({ ...row, outcome: 'fracture' as const })));
      const squares = valueOf(fitLeastSquares(broken, { model, stress }));
      const likelihood = valueOf(fitMaximumLikelihood(broken, { model, stress }));
      const smaller = Math.sqrt((rows.length - squares.parameters.length) / rows.length);
      for (const [i, { value, se }] of squares.parameters.entries()) {
        near(likelihood.parameters[i]?.value, value);
        near(likelihood.parameters[i]?.se, se * smaller);
      }
      near(likelihood.s, squares.s * smaller);
      near(likelihood.logLikelihood, squares.logLikelihood);
      near(likelihood.aic, squares.aic);
      expect(likelihood.s).toBeLessThan(squares.s);
    }), { seed: 14, numRuns: 20 });
  });
});

describe('a runout says at least as much life as a fracture', () => {
  it.each(['lognormal', 'weibull'] as const)('with B and s held, turning a fracture into a runout never lowers A (%s)', (life) => {
    fc.assert(fc.property(tables, fc.nat(), (rows, pick) => {
      const broken = [...rows.keys()].filter((i) => rows[i]?.outcome === 'fracture');
      const turned = broken[pick % broken.length] ?? 0;
      const fit = valueOf(fitMaximumLikelihood(specimens(rows), { life }));
      const before = heldIntercept(rows, life, fit);
      const after = heldIntercept(rows.map((row, i) => (i === turned ? { ...row, outcome: 'runout' as const } : row)), life, fit);
      near(before, fit.parameters[0]?.value, 1e-6);
      expect(after).toBeGreaterThanOrEqual(before - 1e-9);
    }), { seed: 13, numRuns: 40 });
  });
});

/** A at its best with B and s of a fit held. */
function heldIntercept(rows: readonly Row[], life: LifeDistribution, fit: LineFit): number {
  const slope = fit.parameters[1]?.value ?? 0;
  const lives = {
    life,
    y: Float64Array.from(rows, ({ stressMpa, cycles }) => Math.log10(cycles) - slope * Math.log10(stressMpa)),
    censored: Uint8Array.from(rows, ({ outcome }) => (outcome === 'fracture' ? 0 : 1)),
  };
  const top = maximise(([a = 0]) => {
    const { value, gradient, hessian } = expandLikelihood(lives, (_, [own = 0]) => ({ value: own, slopes: [1], curvatures: [] }), [a, Math.log(fit.s)]);
    return { value, gradient: gradient.slice(0, 1), hessian: [hessian[0]?.slice(0, 1) ?? []] };
  }, [fit.parameters[0]?.value ?? 0]);
  expect(top.converged).toBe(true);
  return top.point[0] ?? Number.NaN;
}
