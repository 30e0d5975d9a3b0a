import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { nearNames, problemSentence } from '../../../src/core/problem/index.ts';

describe('near names', () => {
  it.each([
    ['S_1', ['s_1', 's_2', 'L'], ['s_1']],
    ['sigma', ['sigma_a', 'sigma_m', 'd'], ['sigma_a', 'sigma_m']],
    ['R_a', ['R_A', 'R_B'], ['R_A', 'R_B']],
    ['x', ['y', 'z'], []],
    ['diameter', ['radius', 'length'], []],
    ['d', ['d'], []],
  ])('of %s among %j are %j', (name, known, near) => {
    expect(nearNames(name, known)).toEqual(near);
  });

  it('are at most three, nearest first', () => {
    expect(nearNames('abcd', ['abxy', 'abcx', 'abcD', 'xbcd', 'abc'])).toEqual(['abcD', 'abcx', 'xbcd']);
  });
});

/** The whole table of distances, by the definition (Levenshtein 1966); a change of case costs half. */
function distance(a: string, b: string): number {
  const rows = Array.from({ length: a.length + 1 }, (_, i) => Array.from({ length: b.length + 1 }, (_, j) => (i === 0 ? j : j === 0 ? i : 0)));
  const at = (i: number, j: number): number => rows[i]?.[j] ?? 0;
  for (let i = 1; i <= a.length; i += 1) {
    for (let j = 1; j <= b.length; j += 1) {
      const change = a[i - 1] === b[j - 1] ? 0 : a[i - 1]?.toLowerCase() === b[j - 1]?.toLowerCase() ? 0.5 : 1;
      (rows[i] ?? [])[j] = Math.min(at(i - 1, j) + 1, at(i, j - 1) + 1, at(i - 1, j - 1) + change);
    }
  }
  return at(a.length, b.length);
}

it('near names are those within the limit by the whole table of distances', () => {
  const name = fc.string({ unit: fc.constantFrom('a', 'A', 'b', 'c', '_', '1'), minLength: 1, maxLength: 7 });
  fc.assert(fc.property(name, fc.uniqueArray(name, { maxLength: 12 }), (typed, known) => {
    const limit = typed.length <= 3 ? 1 : 2;
    const expected = known.map((candidate) => ({ candidate, far: distance(typed, candidate) }))
      .filter(({ candidate, far }) => candidate !== typed && far <= limit && far < Math.max(candidate.length, typed.length))
      .sort((a, b) => a.far - b.far).slice(0, 3).map(({ candidate }) => candidate);
    expect(nearNames(typed, known)).toEqual(expected);
  }), { numRuns: 1000 });
});

describe('a problem in running text', () => {
  it('says what, then how to mend it, and nothing more where there is nothing to mend', () => {
    expect(problemSentence({ code: 'x', what: 'This is wrong.', mend: 'Mend it.' })).toBe('This is wrong. Mend it.');
    expect(problemSentence({ code: 'x', what: 'This is wrong.', mend: '' })).toBe('This is wrong.');
  });
});
