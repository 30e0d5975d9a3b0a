/** Which results moved with an edit, and how the page says so. */
import { describe, expect, test } from 'vitest';
import type { SymbolState } from '../../src/graph/index.ts';
import { ONE } from '../../src/core/units/index.ts';
import { movedSentence } from '../../src/view/announce.ts';
import { movedBetween, type Moved } from '../../src/view/moved.ts';

const value = (number: number): SymbolState => ({ status: 'value', unit: ONE, estimate: { value: number, sensitivities: new Map() } });
const range = (word: 'below limit' | 'low cycle'): SymbolState => ({ status: 'range', word, unit: ONE });
const problem: SymbolState = { status: 'problem', problem: { code: 'x', what: 'x', mend: '' } };

describe('moved', () => {
  test.each([
    [100, 101.234, 'up', '1.2 %'],
    [100, 50, 'down', '50 %'],
    [-100, -101, 'down', '1.0 %'],
    [1e5, 1.3e6, 'up', '× 13'],
    [1e6, 2e4, 'down', '× 0.020'],
    [1, 1 + 1e-7, 'up', 'below 0.001 %'],
    [0, 3, 'up', 'from zero'],
    [3, 0, 'down', 'to zero'],
    [0.2, -0.1, 'down', 'changed sign'],
    [1, 1e9, 'up', '× 1.0·10⁹'],
  ])('from %d to %d', (before, after, direction, text) => {
    expect(movedBetween(value(before), value(after))).toMatchObject({ direction, text });
  });

  test('what did not move carries nothing, nor do the last bits of the arithmetic', () => {
    const same = value(5);
    expect(movedBetween(same, same)).toBeUndefined();
    expect(movedBetween(value(0.1 + 0.2), value(0.3))).toBeUndefined();
    expect(movedBetween(undefined, value(1))).toBeUndefined();
    expect(movedBetween(problem, { ...problem })).toBeUndefined();
  });

  test('values come and go in words', () => {
    expect(movedBetween(problem, value(1))?.text).toBe('has a value now');
    expect(movedBetween(value(1), problem)?.text).toBe('has no value now');
    expect(movedBetween(range('below limit'), range('low cycle'))?.text).toBe('low cycle');
  });
});

describe('movedSentence', () => {
  const up = (size: number): Moved => ({ direction: 'up', text: `${size} %`, spoken: `up ${size} %`, size });
  const moved = new Map([['a', up(9)], ['b', up(2)], ['secret', up(50)], ['life', up(3)], ['end', up(4)]]);

  test('names the ends of the derivation first, then what moved most, and never what is hidden', () => {
    const finals = new Set(['life', 'end', 'secret']);
    const sentence = movedSentence(moved, (symbol) =>
      (symbol === 'secret' ? undefined : { name: symbol, isFinal: finals.has(symbol) }));
    expect(sentence).toBe('end up 4 %; life up 3 %; a up 9 %; and 1 more moved.');
  });

  test('says nothing where nothing moved', () => {
    expect(movedSentence(new Map(), () => ({ name: 'x', isFinal: true }))).toBe('');
    expect(movedSentence(moved, () => undefined)).toBe('');
  });

  test.each([[1, 2, Math.LN2], [2, 1, Math.LN2], [-1, 1, Number.POSITIVE_INFINITY], [0, 1, Number.POSITIVE_INFINITY]])(
    'from %d to %d is as far as the logarithm of the ratio', (before, after, size) => {
      expect(movedBetween(value(before), value(after))?.size).toBeCloseTo(size, 12);
    });
});
