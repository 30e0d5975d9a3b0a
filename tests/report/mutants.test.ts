import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cases } from '../sizes.ts';
import { faultsIn, FORMULAS, mutate, SHEETS, smallSheet, VALUES } from './mutants.ts';

/** exp(1.96·400), the 95 % factor of this life, is larger than any number. */
const FACTOR_SHEET = '```given\nsymbol: x\nlabel: x\npossible: any\nvalue: 1 ± 400\n```\n```step\nsymbol: N_f\nlabel: Life\nspread: factor\nformula: exp(x)\n```\n';

const value = fc.constantFrom(...VALUES);
const formula = fc.constantFrom(...FORMULAS);
const change = fc.record({ cell: fc.nat({ max: 999 }), place: fc.nat({ max: 999 }), text: value, formula });

describe('no sheet throws, gives a fault of its own or shows what is no number', () => {
  test.each([
    ['a power that no unit has', smallSheet(['7 mm'], ['pi*d^40/64'])],
    ['a fraction of it, times another', smallSheet(['7 mm', '310 N'], ['F^9*d^9', '2*unit(kg^0.5)'])],
    ['an uncertainty beyond all sizes', smallSheet(['1e155', '5 ± 1e308'], ['d*F', 'F/d'])],
    ['the largest number', smallSheet(['1e308', '1e308 N'], ['d', 'F*1'])],
    ['the smallest', smallSheet(['1e-320', '0 ± 1'], ['1e-320*F', 'd/2'])],
    ['a factor beyond all numbers', FACTOR_SHEET],
    ['readings at both ends', smallSheet(['1e308, -1e308', '0, 0, 0'], ['d', '-F'])],
  ])('%s', async (_, sheet) => {
    expect(await faultsIn(sheet)).toEqual([]);
  });

  test('small sheets with anything in their blanks and formulas', async () => {
    await fc.assert(fc.asyncProperty(fc.array(value, { minLength: 3, maxLength: 3 }), fc.array(formula, { minLength: 2, maxLength: 2 }), async (values, formulas) => {
      expect(await faultsIn(smallSheet(values, formulas))).toEqual([]);
    }), { numRuns: cases(800) });
  });

  test('the worksheets with up to three of their texts changed', async () => {
    await fc.assert(fc.asyncProperty(fc.constantFrom(...SHEETS), fc.array(change, { minLength: 1, maxLength: 3 }), async (sheet, changes) => {
      expect(await faultsIn(mutate(sheet, changes))).toEqual([]);
    }), { numRuns: cases(24) });
  });

  test('a fault would be found', async () => {
    expect(await faultsIn('---\ntitle: NaN-free\n---\n')).toEqual([]);
    expect((await faultsIn('---\ntitle: an [object Object] stands here\n---\n'))[0]).toMatch(/^says: /);
  });
});
