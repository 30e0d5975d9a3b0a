import { describe, expect, it } from 'vitest';
import {
  coverageInterval, sampleInput, effectiveDegreesOfFreedom, evaluateGiven, fromInput, inputUncertainty, instrumentClass, limitKnowledge, type GivenSpec, type Input,
} from '../../../src/core/estimate/index.ts';
import { createRandom } from '../../../src/core/numeric/index.ts';
import { contextOf, given } from '../../report/sheet-at.ts';
import { problemCode, value } from './inputs.ts';

const known = (inexactness?: string, degreesOfFreedom?: string) =>
  value(limitKnowledge({ ...(inexactness === undefined ? {} : { inexactness }), ...(degreesOfFreedom === undefined ? {} : { degreesOfFreedom }) }));

function limited(distribution: 'rectangular' | 'curvilinear trapezoid' | 't', ...typed: Parameters<typeof known>): Input {
  const how = known(...typed);
  const spec: GivenSpec = { id: 'x', readings: [10], stated: { kind: 'limit', value: 0.3, distribution }, ...(how === undefined ? {} : { known: how }) };
  return value(evaluateGiven(spec));
}

describe('how well a limit is known', () => {
  it('gives a rectangle degrees of freedom: 25 % is 8, JCGM 100:2008, G.4.2, example', () => {
    const input = limited('rectangular', '25 %');
    expect(inputUncertainty(input)).toBeCloseTo(0.3 / Math.sqrt(3), 14);
    expect(effectiveDegreesOfFreedom(fromInput(input))).toBeCloseTo(8, 12);
    // t with 8 degrees of freedom, 95 %: 2.306 (JCGM 100:2008, Table G.2, 2.31).
    expect(coverageInterval(fromInput(input)).factor).toBeCloseTo(2.306, 3);
    expect(effectiveDegreesOfFreedom(fromInput(limited('rectangular')))).toBe(Infinity);
  });

  it('leans the sides of a trapezoid: u² = a²/3 + d²/9, JCGM 101:2008, 6.4.3.3, and so do draws', () => {
    const input = limited('curvilinear trapezoid', '50 %');
    expect(inputUncertainty(input) ** 2).toBeCloseTo(0.3 ** 2 / 3 + 0.15 ** 2 / 9, 14);
    const sampled = new Float64Array(200_000);
    sampleInput(input, createRandom(3), sampled);
    const mean = sampled.reduce((sum, x) => sum + x, 0) / sampled.length;
    const variance = sampled.reduce((sum, x) => sum + (x - mean) ** 2, 0) / (sampled.length - 1);
    expect(Math.sqrt(variance) / inputUncertainty(input)).toBeCloseTo(1, 2);
    expect(inputUncertainty(limited('curvilinear trapezoid')) ** 2).toBeCloseTo(0.3 ** 2 / 3 + 0.075 ** 2 / 9, 14);
  });

  it('degrees of freedom as stated come before those of the inexactness', () => {
    expect(effectiveDegreesOfFreedom(fromInput(limited('rectangular', '25 %', '12')))).toBeCloseTo(12, 12);
    const t = limited('t', undefined, '4');
    // t(0.975, 4) = 2.776 (any table).
    expect(0.3 / inputUncertainty(t)).toBeCloseTo(2.7764, 4);
    expect(effectiveDegreesOfFreedom(fromInput(t))).toBeCloseTo(4, 12);
  });

  it('counts for an instrument’s limit too, and is refused in words', async () => {
    const instrument = { ...value(instrumentClass('weights, 1 %')), known: known('20 %') ?? {} };
    const input = value(evaluateGiven({ id: 'F', readings: [200], instrument }));
    expect(effectiveDegreesOfFreedom(fromInput(input))).toBeCloseTo(12.5, 10);
    expect([problemCode(limitKnowledge({ inexactness: '0' })), problemCode(limitKnowledge({ inexactness: '1 mm' })), problemCode(limitKnowledge({ degreesOfFreedom: '0.5' }))])
      .toEqual(['limit-inexactness', 'unit-dimension', 'limit-degrees']);
    const context = await contextOf(given('F', '200 N', 'N', 'instrument: weights, 1 %', 'inexactness: 20 %'));
    const state = context.states.symbol('F');
    expect(state?.status === 'value' ? effectiveDegreesOfFreedom(state.estimate) : 0).toBeCloseTo(12.5, 10);
  });
});
