import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amplitudeOfEqualLife, MEAN_STRESS_CORRECTIONS, type MeanStressCorrection } from '../../../src/core/fatigue/index.ts';

interface Case {
  readonly id: string;
  readonly inputs: Readonly<Record<string, { readonly value: number }>>;
  readonly expected: Readonly<Record<string, { readonly value: number }>>;
}

const { cases } = JSON.parse(readFileSync('tests/tables/mean-stress-and-damage.json', 'utf8')) as { readonly cases: readonly Case[] };

function caseOf(id: string): Case {
  const found = cases.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no case ${id}`);
  return found;
}

const constants = { tensile: 1172, yield: 1103, oneReversal: 1758, exponent: 0.65 };

describe('the amplitude of equal life', () => {
  it('leads back from the reversed amplitude to the amplitude at its mean stress', () => {
    // Source and computation of the equivalents: the table. 450 MPa about 150 MPa, for every correction.
    const { expected } = caseOf('life-mean-stress-equivalents');
    const reversed: readonly (readonly [MeanStressCorrection, string])[] = [
      ['goodman', 'ar_goodman'], ['gerber', 'ar_gerber'], ['soderberg', 'ar_soderberg_Sy_1103'], ['morrow', 'ar_morrow_sigma_f'], ['swt', 'ar_swt'], ['walker', 'ar_walker_0.65'],
    ];
    for (const [correction, key] of reversed) {
      const amplitude = amplitudeOfEqualLife(correction, expected[key]?.value ?? Number.NaN, 150, constants);
      expect((amplitude ?? Number.NaN) / 450, correction).toBeCloseTo(1, 12);
    }
  });

  it('has the published factors of safety: along a ray the amplitude at n times the mean is n times the amplitude', () => {
    // Shigley, 8th ed., problem 6-12, printed solution: 1.06 (Goodman), 1.31 (Gerber); the table.
    const { inputs, expected } = caseOf('life-mean-stress-factors');
    const of = (name: string): number => inputs[name]?.value ?? Number.NaN;
    for (const correction of ['goodman', 'gerber', 'soderberg'] as const) {
      const n = expected[correction]?.value ?? Number.NaN;
      const amplitude = amplitudeOfEqualLife(correction, of('Se'), n * of('sigma_m'), { tensile: of('Sut'), yield: of('Sy') });
      expect(Math.abs((amplitude ?? Number.NaN) / of('sigma_a') - n), correction).toBeLessThan(correction === 'soderberg' ? 1e-9 : 0.01);
    }
  });

  it('falls as the mean grows, takes no credit for a compressive one, and equals the reversed amplitude at none', () => {
    const stress = fc.double({ min: 1, max: 1000, noNaN: true });
    fc.assert(fc.property(fc.constantFrom(...MEAN_STRESS_CORRECTIONS), stress, stress, stress, (correction, reversed, one, more) => {
      const at = (mean: number): number => amplitudeOfEqualLife(correction, reversed, mean, { ...constants, tensile: 2100, yield: 2050, oneReversal: 2200 }) ?? Number.NaN;
      expect(at(0) / reversed).toBeCloseTo(1, 12);
      expect(at(-one)).toBe(at(0));
      expect(at(one + more)).toBeLessThanOrEqual(at(one));
    }), { seed: 20261127 });
  });

  it('has none beyond the strength that the correction ends at, nor without its constant', () => {
    expect(amplitudeOfEqualLife('goodman', 300, 1173, constants)).toBeUndefined();
    expect(amplitudeOfEqualLife('soderberg', 300, 1104, constants)).toBeUndefined();
    expect(amplitudeOfEqualLife('walker', 300, 100, {})).toBeUndefined();
    expect(amplitudeOfEqualLife('morrow', 300, 100, {})).toBeUndefined();
    expect(amplitudeOfEqualLife('walker', 300, 100, { exponent: 0 })).toBe(200);
  });
});
