import { describe, expect, it } from 'vitest';
import { fitLeastSquares, lifeLimits, plannedHalfWidth, planTests, specimensPerLevel } from '../../../src/core/fatigue/index.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';
import data from '../../tables/sn-regression.json' with { type: 'json' };
import { codeOf, specimensOf, valueOf } from './table.ts';

const line = { A: 46, B: -15, s: 0.28, stress: 'log' } as const;
const levels = [520, 480, 450, 420].map((stressMpa) => ({ stressMpa, specimens: 3 }));

describe('a plan', () => {
  it('foresees the very limits that a fit with that line’s s and those stresses gives', () => {
    const invented = specimensOf(data, 'invented-sn-a', 'stress_MPa', 'cycles');
    const fit = valueOf(fitLeastSquares(invented));
    const [a, b] = fit.parameters;
    const known = { A: a?.value ?? 0, B: b?.value ?? 0, s: fit.s, stress: 'log' } as const;
    const planned = [...new Set(Array.from(invented.stressMpa))].map((stressMpa) => ({ stressMpa, specimens: 3 }));
    const plan = valueOf(planTests(known, planned));
    expect(plan.halfWidthB).toBeCloseTo((b?.hi ?? 0) - (b?.value ?? 0), 10);
    expect(plan.replication).toEqual(fit.replication);
    const { estimate, upper } = lifeLimits(fit, 420, { kind: 'median', confidence: 0.95 });
    expect(plannedHalfWidth(known, planned, 420)).toBeCloseTo((upper ?? 0) - estimate, 10);
  });
  it('mean cycles and runouts are those of simulated lives, stopped at the runout life', () => {
    const plan = valueOf(planTests(line, levels, { runoutCycles: 5e6, cyclesPerMinute: 3000 }));
    const random = createRandom(20240);
    const last = plan.rows[3];
    let [sum, runouts] = [0, 0];
    const samples = 200_000;
    for (let i = 0; i < samples; i++) {
      const life = (last?.medianCycles ?? 0) * 10 ** (line.s * random.normal());
      sum += Math.min(life, 5e6);
      if (life > 5e6) runouts++;
    }
    // Four standard errors of 200 000 samples.
    expect(Math.abs((last?.meanCycles ?? 0) / (sum / samples) - 1)).toBeLessThan(0.004);
    expect(Math.abs((last?.runoutChance ?? 0) - runouts / samples)).toBeLessThan(0.0045);
    expect(last?.hours).toBeCloseTo((3 * (last?.meanCycles ?? 0)) / 180_000, 10);
    expect(plan.hours).toBeCloseTo(plan.rows.reduce((total, { hours }) => total + (hours ?? 0), 0), 10);
    expect(last?.longCycles).toBe(5e6);
  });
  it('without speed there is no time, without runout life no runout', () => {
    const plan = valueOf(planTests(line, levels));
    expect(plan.hours).toBeNull();
    expect(plan.expectedRunouts).toBe(0);
    expect(plan.rows[0]?.medianCycles).toBeCloseTo(10 ** (46 - 15 * Math.log10(520)), 4);
    // Mean of a lognormal life: median·exp(σ²/2).
    expect((plan.rows[0]?.meanCycles ?? 0) / (plan.rows[0]?.medianCycles ?? 1)).toBeCloseTo(Math.exp((0.28 * Math.LN10) ** 2 / 2), 10);
  });
  it('finds the smallest number per level that reaches a precision', () => {
    const stresses = levels.map(({ stressMpa }) => stressMpa);
    const wanted = { of: 'life', stressMpa: 450, log10HalfWidth: 0.1 } as const;
    const each = specimensPerLevel(line, stresses, wanted) ?? 0;
    const halfWidth = (specimens: number): number => plannedHalfWidth(line, stresses.map((stressMpa) => ({ stressMpa, specimens })), 450);
    expect(halfWidth(each)).toBeLessThanOrEqual(0.1);
    expect(halfWidth(each - 1)).toBeGreaterThan(0.1);
    const slope = specimensPerLevel(line, stresses, { of: 'B', halfWidth: 3 }) ?? 0;
    const halfWidthB = (specimens: number): number => valueOf(planTests(line, stresses.map((stressMpa) => ({ stressMpa, specimens })))).halfWidthB;
    expect(halfWidthB(slope)).toBeLessThanOrEqual(3);
    expect(halfWidthB(slope - 1)).toBeGreaterThan(3);
    expect(specimensPerLevel(line, stresses, { of: 'B', halfWidth: 1e-6 })).toBeNull();
  });
  it('refuses what gives no line', () => {
    expect(codeOf(planTests(line, [{ stressMpa: 400, specimens: 1 }, { stressMpa: 500, specimens: 1 }]))).toBe('specimens-too-few');
    expect(codeOf(planTests(line, [{ stressMpa: 400, specimens: 5 }]))).toBe('levels-too-few');
  });
});
