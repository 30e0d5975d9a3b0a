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

describe('a problem in running text', () => {
  it('says what, then how to mend it, and nothing more where there is nothing to mend', () => {
    expect(problemSentence({ code: 'x', what: 'This is wrong.', mend: 'Mend it.' })).toBe('This is wrong. Mend it.');
    expect(problemSentence({ code: 'x', what: 'This is wrong.', mend: '' })).toBe('This is wrong.');
  });
});
