import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundByUncertainty } from '../../../src/core/estimate/index.ts';
import { cases } from '../../sizes.ts';

// Two significant digits of u, the value to the same place: JCGM 100:2008, 7.2.6, and its example 100.021 47(35) of 7.2.2.
describe('with an uncertainty', () => {
  it.each<[value: number, u: number, number: string, uncertainty: string, exponent: number]>([
    [312.4319, 2.148, '312.4', '2.1', 0],
    [100.02147, 0.00035, '100.02147', '0.00035', 0],
    [10.0574, 0.0283, '10.057', '0.028', 0],
    [5, 0.996, '5.0', '1.0', 0],
    [5, 0.0996, '5.00', '0.10', 0],
    [5, 9.95, '5', '10', 0],
    [5, 99.6, '10', '100', 0],
    [3, 2000, '0', '2000', 0],
    [312456, 2134, '312500', '2100', 0],
    [312456, 21, '312456', '21', 0],
    [0, 0.0123, '0.000', '0.012', 0],
    [0, 12.3, '0', '12', 0],
    [0, 3.4e-8, '0.0', '3.4', -8],
    [0.3, 5, '0.3', '5.0', 0],
    [-0.04, 2.5, '0.0', '2.5', 0],
    [-312.4319, 2.148, '-312.4', '2.1', 0],
    [-0.19, 0.6, '-0.19', '0.60', 0],
    [1.2345e7, 2.1e4, '1.2345', '0.0021', 7],
    [2.05e11, 3.5e9, '2.050', '0.035', 11],
    [1.57e-10, 7.2e-13, '1.5700', '0.0072', -10],
    [1.2e-3, 1e-5, '0.001200', '0.000010', 0],
    [9.99e-4, 1e-5, '9.99', '0.10', -4],
    [999999.96, 0.12, '999999.96', '0.12', 0],
    [999999.996, 0.12, '1.00000000', '0.00000012', 6],
    [1, 4e6, '0.0', '4.0', 6],
    [6.315, 0.1, '6.32', '0.10', 0],
    [-6.315, 0.1, '-6.32', '0.10', 0],
    [6.3150000000000004, 0.1, '6.32', '0.10', 0],
    [0.1 + 0.2, 0.0945, '0.300', '0.095', 0],
    [1e300, 1e298, '1.000', '0.010', 300],
    [1e-300, 1e-302, '1.000', '0.010', -300],
  ])('%d ± %d', (value, u, number, uncertainty, exponent) => {
    expect(roundByUncertainty(value, u)).toEqual({ number, uncertainty, exponent });
  });

  it('both stand at the same place, which is the second digit of u, and neither is off by more than half of it', () => {
    const size = fc.tuple(fc.double({ min: 1, max: 10, noNaN: true }), fc.integer({ min: -30, max: 30 })).map(([m, e]) => m * 10 ** e);
    fc.assert(fc.property(size, fc.double({ min: -8, max: 3, noNaN: true }), fc.boolean(), (sized, ratio, negative) => {
      const value = negative ? -sized : sized;
      const u = sized * 10 ** ratio;
      const { number, uncertainty = '', exponent } = roundByUncertainty(value, u);
      const decimals = (text: string): number => text.split('.')[1]?.length ?? 0;
      expect(decimals(number)).toBe(decimals(uncertainty));
      expect(uncertainty.replace('.', '').replace(/^0+/u, '').replace(/(?<=^..)0+$/u, '')).toMatch(/^[1-9]\d$/u);
      const unit = 10 ** exponent;
      const place = 10 ** (Math.floor(Math.log10(Number(uncertainty)) + 1e-9) - 1) * unit;
      expect(Math.abs(Number(number) * unit - value)).toBeLessThanOrEqual(0.5000001 * place);
      expect(Math.abs(Number(uncertainty) * unit - u)).toBeLessThanOrEqual(0.5000001 * place);
      expect(number).toMatch(/^-?\d+(\.\d+)?$/u);
    }), { numRuns: cases(1000) });
  });
});

describe('without uncertainty', () => {
  it.each<[value: number, number: string, exponent: number]>([
    [0, '0', 0],
    [-0, '0', 0],
    [0.5, '0.5', 0],
    [200, '200', 0],
    [630, '630', 0],
    [3.14159265, '3.1416', 0],
    [0.861239, '0.86124', 0],
    [123456, '123460', 0],
    [99999.7, '100000', 0],
    [999999.7, '1', 6],
    [1e6, '1', 6],
    [2.05e11, '2.05', 11],
    [0.001, '0.001', 0],
    [0.00099999999, '0.001', 0],
    [0.000123456, '1.2346', -4],
    [-9.80665, '-9.8067', 0],
    [1.0000000001, '1', 0],
    [5e-324, '4.9407', -324],
  ])('%d', (value, number, exponent) => {
    expect(roundByUncertainty(value, 0)).toEqual({ number, exponent });
  });

  it('an uncertainty below the digits of the value itself is rounding, and counts as none', () => {
    expect(roundByUncertainty(2, 1e-16)).toEqual({ number: '2', exponent: 0 });
    expect(roundByUncertainty(2, 1e-14).uncertainty).toBe('0.000000000000010');
  });

  it('what is no number is never shown', () => {
    for (const [value, u] of [[Number.NaN, 1], [1, Number.NaN], [Infinity, 1], [1, Infinity], [1, -1]] as const) {
      expect(() => roundByUncertainty(value, u)).toThrow(RangeError);
    }
  });
});
