import { describe, expect, it } from 'vitest';
import { plainSymbols, symbolInWords, symbolTex, withSymbols } from '../../../src/core/formula/index.ts';

const told = (sentence: string): readonly string[] => withSymbols(sentence).map((piece) => (typeof piece === 'string' ? piece : `<${piece.name}>`));

describe('symbols in a sentence', () => {
  it('are found with their subscripts, at the ends of words and beside signs', () => {
    expect(told('S_ut')).toEqual(['<S_ut>']);
    expect(told('Through f·S_ut at 10³ cycles, and S_e at N_e.')).toEqual(['Through f·', '<S_ut>', ' at 10³ cycles, and ', '<S_e>', ' at ', '<N_e>', '.']);
    expect(told('u(s_1) and sigma_a, lg_N')).toEqual(['u(', '<s_1>', ') and ', '<sigma_a>', ', ', '<lg_N>']);
  });

  it('are not names of other kinds', () => {
    for (const sentence of ['file_name.md', 'class_line', 'snake_case_word', '__S__', 'a_', '\\sigma_a', 'no symbol', 'x.y_z']) expect(told(sentence), sentence).toEqual([sentence]);
  });

  it('may be a single letter where our own sentences list what something waits for', () => {
    expect(told('waits for F, F_0, s_1, L and 3 more')).toEqual(['waits for ', '<F>', ', ', '<F_0>', ', ', '<s_1>', ', ', '<L>', ' and 3 more']);
    expect(told('Waits for “Material”, d.')).toEqual(['Waits for “Material”, ', '<d>', '.']);
    expect(told('waits for a')).toEqual(['waits for ', '<a>']);
    for (const sentence of ['The team waits for a second specimen, a third and a fourth.', 'Weights, F and L.']) expect(told(sentence), sentence).toEqual([sentence]);
  });

  it('are letters and subscripts apart where text is plain', () => {
    expect(plainSymbols('Fraction of S_ut in use')).toBe('Fraction of S\u202fut in use');
    expect(plainSymbols('sigma_a, epsilon_f_1')).toBe('σ\u202fa, ε\u202ff\u202f1');
  });

  it('of a Greek name alone are its letter in our own sentences', () => {
    expect([symbolInWords('rho'), symbolInWords('d'), symbolInWords('x_f')]).toEqual(['ρ', 'd', 'x_f']);
  });

  it('slope as the equations have them: single capitals and Greek letters below, no other', () => {
    for (const name of ['S_ut', 'R_A', 'sigma_a', 'k_F', 's_1c', 'eps_sigma', 'N_sigma']) {
      const [piece] = withSymbols(name);
      if (piece === undefined || typeof piece === 'string') continue;
      const below = symbolTex(name).split('_').slice(1).join('_');
      expect(piece.below.map(({ slopes }) => slopes), name).toEqual([!below.includes('mathrm') && !/^\d$/.test(below)]);
    }
  });
});
