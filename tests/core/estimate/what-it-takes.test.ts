import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combine, readingsNeeded, standardUncertainty, whatItTakes, type Input } from '../../../src/core/estimate/index.ts';
import { given, part, stated, value } from './inputs.ts';
import { instrumentClass } from '../../../src/core/estimate/index.ts';

/** sigma = 32 M/(pi d³) with the uncertainties asked for. */
function stress(uM: number, uD: number) {
  const [M, d] = [12, 0.00752];
  const sigma = (32 * M) / (Math.PI * d ** 3);
  return combine(sigma, [part(stated('M', M, uM), sigma / M), part(stated('d', d, uD), (-3 * sigma) / d)]);
}

describe('whatItTakes', () => {
  it('solves (u/σ)² = (u_M/M)² + 9 (u_d/d)² for each (JCGM 100:2008, equation 12)', () => {
    const [uM, uD, wanted] = [0.06, 0.000015, 0.0065];
    const estimate = stress(uM, uD);
    const [first, second] = whatItTakes(estimate, wanted * estimate.value);
    // By hand: u_M/M = 0.005, 3 u_d/d = 0.00598404.
    const [partM, partD] = [0.005, (3 * 0.015) / 7.52];
    expect(first?.inputs.map(({ id }) => id)).toEqual(['d']);
    expect(first?.factor).toBeCloseTo(Math.sqrt(wanted ** 2 - partM ** 2) / partD, 12);
    expect(second?.factor).toBeCloseTo(Math.sqrt(wanted ** 2 - partD ** 2) / partM, 12);
    expect(first?.least).toBeCloseTo(partM * estimate.value, 3);
  });

  it('what it says is enough, and no more than that', () => {
    const positive = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
    fc.assert(fc.property(positive, positive, fc.double({ min: 0.3, max: 3, noNaN: true }), (uA, uB, times) => {
      const result = (a: number, b: number) => combine(10, [part(stated('a', 5, a), 2), part(stated('b', 5, b), -0.7)]);
      const wanted = times * standardUncertainty(result(uA, uB));
      const then = whatItTakes(result(uA, uB), wanted).map(({ inputs: [input], factor, least }) => {
        if (factor === undefined) return Math.max(0, wanted / least - 1);
        // Where hardly anything is left, what is left is rounding.
        if (factor < 1e-3) return 0;
        return Math.abs(standardUncertainty(input?.id === 'a' ? result(factor * uA, uB) : result(uA, factor * uB)) / wanted - 1);
      });
      expect(Math.max(...then)).toBeLessThan(1e-9);
    }));
  });

  it('can\'t do it with an input when the others alone give more, and says how far it gets', () => {
    const estimate = stress(0.06, 0.000015);
    const [first, second] = whatItTakes(estimate, 0.0055 * estimate.value);
    expect(first?.factor).toBeCloseTo(Math.sqrt(0.0055 ** 2 - 0.005 ** 2) / (0.045 / 7.52), 10);
    expect(second?.factor).toBeUndefined();
    expect((second?.least ?? 0) / estimate.value).toBeCloseTo(0.045 / 7.52, 12);
  });

  it('scales correlated inputs together, also those that hang together by way of another', () => {
    const correlated = (id: string, u: number, correlations: [string, number][]): Input => ({ ...stated(id, 1, u), correlations: new Map(correlations) });
    const [a, b, c] = [correlated('a', 3, [['b', 0.5]]), correlated('b', 4, []), correlated('c', 1, [['b', -0.2]])];
    const d = stated('d', 1, 2);
    const sum = combine(4, [part(a, 1), part(b, 1), part(c, 1), part(d, 1)]);
    // 9 + 16 + 1 + 2 (0.5·3·4 − 0.2·4·1) = 36.4, and 4 of d.
    const [group, alone] = whatItTakes(sum, 5);
    expect(group?.inputs.map(({ id }) => id).toSorted()).toEqual(['a', 'b', 'c']);
    expect(group?.factor).toBeCloseTo(Math.sqrt(21 / 36.4), 12);
    expect(group?.least).toBeCloseTo(2, 12);
    expect(alone?.factor).toBeUndefined();
    expect(alone?.least).toBeCloseTo(Math.sqrt(36.4), 12);
  });

  it('is empty for a result without uncertainty', () => {
    expect(whatItTakes(combine(1, []), 1)).toEqual([]);
  });
});

describe('readingsNeeded', () => {
  const instrument = value(instrumentClass('resolution only, 0.001, ±0.005'));
  const input = given({ id: 'd', readings: [10, 10.02, 10.01, 10.01], instrument });
  // s = √(2e-4/3), u_A = s/2; the limit gives 0.005/√3.
  const [s, uB] = [Math.sqrt(2e-4 / 3), 0.005 / Math.sqrt(3)];

  it('is s²/(u² − u_B²), rounded up', () => {
    for (const wanted of [0.006, 0.0055, 0.004, 0.0031]) {
      expect(readingsNeeded(input, wanted)).toBe(Math.ceil(s ** 2 / (wanted ** 2 - uB ** 2)));
    }
  });

  it('is as many as there are for the uncertainty there is', () => {
    expect(readingsNeeded(input, Math.hypot(s / 2, uB))).toBe(4);
  });

  it('is none where the instrument alone gives more, its resolution too, and without readings', () => {
    expect(readingsNeeded(input, uB)).toBeUndefined();
    expect(readingsNeeded(input, Math.hypot(uB, 0.9 * 0.001 / Math.sqrt(12)))).toBeUndefined();
    expect(readingsNeeded(stated('x', 1, 1), 0.5)).toBeUndefined();
  });
});
