import { describe, expect, it } from 'vitest';
import { budget, standardUncertainty } from '../../src/core/estimate/index.ts';
import { contextOf, given, step } from './sheet-at.ts';

// Source: EA-4/02 M, example S2 (calibration of a weight of nominal value 10 kg); figures from memory.
describe('weight of 10 kg (EA-4/02 M, example S2)', () => {
  const text = given('m_S', '10000.005 ± 0.0225 g', 'g')
    + given('m_D', '0 ± 0.015 g limit', 'g')
    + given('m_diff', `0.020 ± ${0.025 / Math.sqrt(3)} g`, 'g')
    + given('m_C', '0 ± 0.010 g limit', 'g')
    + given('B', '0 ± 0.010 g limit', 'g')
    + step('m_X', 'm_S + m_D + m_diff + m_C + B', 'g');

  it('has the published contributions and expanded uncertainty', async () => {
    const state = (await contextOf(text)).states.symbol('m_X');
    if (state?.status !== 'value') throw new Error('m_X has no value');
    const milligrams = (si: number): number => si * 1e6;
    const u = milligrams(standardUncertainty(state.estimate));
    expect(milligrams(state.estimate.value) - 1e7).toBeCloseTo(25, 6);
    expect(u.toFixed(1)).toBe('29.3');
    expect((2 * u).toFixed(0)).toBe('59');
    const parts = Object.fromEntries(budget(state.estimate).map(({ input, contribution }) => [input.id, milligrams(contribution)]));
    expect(parts['m_S']).toBeCloseTo(22.5, 6);
    expect(parts['m_D']?.toFixed(2)).toBe('8.66');
    expect(parts['m_diff']?.toFixed(1)).toBe('14.4');
    expect(parts['m_C']?.toFixed(2)).toBe('5.77');
    expect(parts['B']?.toFixed(2)).toBe('5.77');
  });
});
