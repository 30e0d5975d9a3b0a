/** Slopes and effects of one percent, told beside each other. */
import { describe, expect, test } from 'vitest';
import { presentElasticities } from '../../src/report/index.ts';
import { contextOf, given, step } from './sheet-at.ts';

const plain = (text: string | undefined): string | undefined => text?.replaceAll('\u00a0', ' ');

describe('what one percent does', () => {
  test('a power law of −34: the slope, and what 1 % really does (1.01^−34 and 0.99^−34, by logarithms)', async () => {
    const context = await contextOf(given('d', '7.5 mm', 'mm') + given('k', '2', '1') + step('x', 'd/unit(mm)', '1') + step('N', 'k*x^(-34)', '1'));
    const down = presentElasticities('d', context)?.marks;
    // exp(−34 ln 1.01) − 1 = −28.70 %, exp(−34 ln 0.99) − 1 = +40.74 %.
    expect([down?.get('N')?.percent, plain(down?.get('N')?.effects)]).toEqual(['−34 %', '+1 %: −28.7 %, −1 %: +40.7 %']);
    // A proportion does what its slope says.
    expect([down?.get('x')?.percent, down?.get('x')?.effects]).toEqual(['+1 %', undefined]);
    const up = presentElasticities('N', context);
    expect(plain(up?.marks.get('x')?.effects)).toBe('+1 %: −28.7 %, −1 %: +40.7 %');
    expect(up?.marks.get('k')).toMatchObject({ percent: '+1 %', side: 'upstream' });
    expect(up?.marks.get('k')?.effects).toBeUndefined();
    expect(plain(up?.sentence)).toContain('per 1 % of d −34 % (+1 %: −28.7 %, −1 %: +40.7 %)');
  });

  test('of a change that was asked for the effect is always told: 5 % on the same power law (1.05^−34, 0.95^−34 by logarithms)', async () => {
    const context = await contextOf(given('d', '7.5 mm', 'mm') + step('x', 'd/unit(mm)', '1') + step('N', 'x^(-34)', '1'));
    const marks = presentElasticities('d', context, 0.05)?.marks;
    // exp(−34 ln 1.05) − 1 = −80.96 %, exp(−34 ln 0.95) − 1 = +472.1 %.
    expect([marks?.get('N')?.percent, plain(marks?.get('N')?.effects)]).toEqual(['−34 %', '+5 %: −81 %, −5 %: +472 %']);
    expect(plain(marks?.get('x')?.effects)).toBe('+5 %: +5 %, −5 %: −5 %');
  });

  test('where a step is no longer valid one percent away, that is said', async () => {
    const context = await contextOf(given('x', '1', '1') + step('y', 'x^2', '1', 'valid_if: x <= 1.005', 'otherwise: too large'));
    expect(plain(presentElasticities('x', context)?.marks.get('y')?.effects)).toBe('+1 %: no value there, −1 %: −1.99 %');
  });
});
