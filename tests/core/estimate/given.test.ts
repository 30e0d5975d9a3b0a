import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaluateGiven, inputUncertainty, instrumentClass, summariseReadings } from '../../../src/core/estimate/index.ts';
import { given, problemCode, value } from './inputs.ts';

const rule = value(instrumentClass('resolution only, 0.5 mm, ±0.5 mm'));
/** Type B part of one reading of a rule, m: limit 0.5 mm rectangular and resolution 0.5 mm. */
const ruleU = Math.hypot(0.5e-3 / Math.sqrt(3), 0.5e-3 / Math.sqrt(12));
const readings = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 12 });

describe('what counts', () => {
  it('one reading keeps the instrument; without one it has no uncertainty', () => {
    expect(inputUncertainty(given({ id: 's', readings: [0.1], instrument: rule }))).toBeCloseTo(ruleU, 15);
    expect(given({ id: 's', readings: [0.1] })).toMatchObject({ value: 0.1, components: [] });
  });

  it('readings that scatter by more than a step: their scatter, which covers the step, and the limit of the instrument, which no repetition makes smaller', () => {
    const input = given({ id: 's', readings: [0.1, 0.104, 0.102], instrument: rule });
    const scatter = 0.002 / Math.sqrt(3);
    expect(inputUncertainty(input)).toBeCloseTo(Math.hypot(scatter, 0.5e-3 / Math.sqrt(3)), 15);
    expect(input.components.map(({ kind, degreesOfFreedom }) => [kind, degreesOfFreedom])).toEqual([['A', 2], ['B', Infinity]]);
    expect(input.components[0]?.coveredResolution).toBeCloseTo(0.5e-3 / Math.sqrt(12), 15);
  });

  it('readings that agree within a step are no surer than the step, and say so', () => {
    const input = given({ id: 's', readings: [0.1, 0.1, 0.1005, 0.1], instrument: rule });
    expect(inputUncertainty(input)).toBeCloseTo(ruleU, 15);
    expect(input.components.map(({ kind, source }) => [kind, source])).toEqual([['B', 'limit ±0.5 mm'], ['B', 'resolution 0.5 mm, more than the scatter of 4 readings']]);
  });

  it('repeating never hurts where the readings agree within a step, and never brings u below the limit and the step', () => {
    const steps = fc.array(fc.integer({ min: -1, max: 1 }), { minLength: 2, maxLength: 12 });
    fc.assert(fc.property(steps, (list) => {
      const repeated = given({ id: 's', readings: list.map((step) => 0.1 + step * 0.5e-3), instrument: rule });
      const scatter = summariseReadings(list.map((step) => step * 0.5e-3)).standardUncertainty;
      expect(inputUncertainty(repeated)).toBeGreaterThanOrEqual(ruleU * (1 - 1e-12));
      expect(inputUncertainty(repeated)).toBeLessThanOrEqual(Math.hypot(scatter, ruleU));
    }));
  });

  it('a stated uncertainty stands alone, as normal with infinite degrees of freedom', () => {
    const known = { kind: 'standard uncertainty', value: 2e-4, distribution: 'normal' } as const;
    expect(given({ id: 's', readings: [0.1], instrument: rule, stated: known }).components).toEqual([
      { kind: 'B', source: 'stated', distribution: 'normal', standardUncertainty: 2e-4, degreesOfFreedom: Infinity },
    ]);
  });

  it('a stated limit stands alone, by its distribution', () => {
    const input = given({ id: 's', readings: [0.1], instrument: rule, stated: { kind: 'limit', value: 3e-4, distribution: 'triangular' } });
    expect(input.components).toMatchObject([{ kind: 'B', source: 'stated limit, triangular', distribution: 'triangular' }]);
    expect(inputUncertainty(input)).toBeCloseTo(3e-4 / Math.sqrt(6), 15);
  });

  it('equal readings have no scatter, but are readings', () => {
    expect(given({ id: 's', readings: [0.1, 0.1] }).components)
      .toMatchObject([{ kind: 'A', source: '2 readings', standardUncertainty: 0, degreesOfFreedom: 1 }]);
  });

  it('is frozen', () => {
    const input = given({ id: 's', readings: [1, 2] });
    expect(Object.isFrozen(input) && Object.isFrozen(input.components)).toBe(true);
  });
});

describe('readings', () => {
  it('their order changes nothing, to the last bit', () => {
    const twoOrders = readings.chain((list) => fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length })));
    fc.assert(fc.property(twoOrders, ([one, other]) => {
      expect(given({ id: 'x', readings: other })).toEqual(given({ id: 'x', readings: one }));
    }));
  });

  it('deviations keep the order of the readings, and add up to nothing', () => {
    fc.assert(fc.property(readings, (list) => {
      const { mean, deviations } = summariseReadings(list);
      expect(Math.abs(deviations.reduce((sum, deviation) => sum + deviation, 0))).toBeLessThan(1e-9);
      for (const [i, reading] of list.entries()) expect(deviations[i]).toBe(reading - mean);
    }));
  });

  it('a large offset does not drown a small scatter', () => {
    // s of 1, 2, 3 is 1; NIST's NumAcc sets make the same point.
    expect(summariseReadings([1e9 + 0.1, 1e9 + 0.2, 1e9 + 0.3]).standardDeviation).toBeCloseTo(0.1, 6);
    expect(summariseReadings([1e-200, 2e-200, 3e-200]).standardDeviation / 1e-200).toBeCloseTo(1, 12);
    expect(summariseReadings([1e200, 2e200, 3e200]).standardDeviation / 1e200).toBeCloseTo(1, 12);
  });
});

it('what cannot be reckoned with is told', () => {
  expect(problemCode(evaluateGiven({ id: 'x', readings: [] }))).toBe('readings-none');
  expect(problemCode(evaluateGiven({ id: 'x', readings: [1.7e308, -1.7e308] }))).toBe('readings-too-large');
  expect(problemCode(evaluateGiven({ id: 'x', readings: [1], correlations: new Map([['y', 1.01]]) }))).toBe('correlation-range');
  expect(problemCode(evaluateGiven({ id: 'x', readings: [1.7e308, 1.7e308] }))).toBe('readings-too-large');
  expect(evaluateGiven({ id: 'x', readings: [1e300, 1e300] })).toMatchObject({ ok: true });
});
