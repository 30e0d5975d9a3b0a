import { describe, expect, test } from 'vitest';
import { diameterAt, nominalBendingStress, profileReach, solidRound, type Profile } from '../../../src/core/mechanics/index.ts';

const HOURGLASS: Profile = { diameter: 6e-3, grip: 12e-3, radius: 60e-3, flat: 0 };

describe('the profile of a specimen', () => {
  test('hourglass: d(x) = d + 2(ρ − √(ρ² − x²)), worked by hand', () => {
    // √(60² − 2²) = 59.966 656; 6 + 2·0.033 344 = 6.066 689 mm.
    expect(diameterAt(HOURGLASS, 2e-3) * 1e3).toBeCloseTo(6.066689, 5);
    expect(diameterAt(HOURGLASS, -2e-3)).toBe(diameterAt(HOURGLASS, 2e-3));
    expect(diameterAt(HOURGLASS, 0)).toBe(6e-3);
  });

  test('d = 6 mm, ρ = 60 mm: at one moment the stress is 3.3 % lower 2 mm off the waist, 7.1 % lower 3 mm off (worked by hand)', () => {
    const share = (x: number) => nominalBendingStress(1, solidRound(diameterAt(HOURGLASS, x))) / nominalBendingStress(1, solidRound(6e-3));
    expect(1 - share(2e-3)).toBeCloseTo(0.0326, 3);
    expect(1 - share(3e-3)).toBeCloseTo(0.0715, 3);
  });

  test('cylindrical gauge with fillets: constant, then a quarter arc, then the grip', () => {
    const gauge: Profile = { diameter: 8e-3, grip: 12e-3, radius: 4e-3, flat: 10e-3 };
    expect(diameterAt(gauge, 10e-3)).toBe(8e-3);
    // 2 mm into the fillet of 4 mm: rise 4 − √12 = 0.535 898 mm.
    expect(diameterAt(gauge, 12e-3) * 1e3).toBeCloseTo(8 + 2 * 0.5358984, 6);
    expect(profileReach(gauge) * 1e3).toBeCloseTo(10 + Math.sqrt(12), 9);
    expect(diameterAt(gauge, 30e-3)).toBe(12e-3);
  });

  test('a groove deeper than its root radius has straight sides', () => {
    const groove: Profile = { diameter: 8e-3, grip: 12e-3, radius: 1e-3, flat: 0 };
    expect(profileReach(groove)).toBeCloseTo(1e-3, 15);
    expect(diameterAt(groove, 0.999e-3)).toBeLessThan(10e-3);
    expect(diameterAt(groove, 1e-3)).toBe(12e-3);
  });
});
