/** The stress-intensity factor at final fracture, from the final zone outlined in the picture, in both machines' sheets. */
import { describe, expect, it } from 'vitest';
import { pictureText } from '../../src/sheet/index.ts';
import { JPEG } from '../sheet/photo/small-pictures.ts';
import { shipped } from '../shipped.ts';
import { holds, numberOf, sheetText, solved, uncertaintyOf } from './solved.ts';

const alternatingText = shipped('alternating-bending');

/** A section of 20 000 by 10 000 dots; the final zone is its right-hand part, or a smaller rectangle around its middle. */
function photographed(sheet: string, share: number, place: 'side' | 'middle'): string {
  const [width, height] = place === 'side' ? [20_000 * share, 10_000] : [20_000 * Math.sqrt(share), 10_000 * Math.sqrt(share)];
  const [left, top] = place === 'side' ? [20_000 - width, 0] : [10_000 - width / 2, 5_000 - height / 2];
  const final = [[left, top], [left + width, top], [left + width, top + height], [left, top + height]].map((point) => point.map((at) => Number((at ?? 0).toFixed(2))).join(',')).join(' ');
  const picture = (pictureText(JPEG) ?? '').replace(/^(?=.)/gm, '  ');
  return sheet.replace('id: fracture-surface\n', `id: fracture-surface\noutline: 0,0 20000,0 20000,10000 0,10000\nfinal: ${final}\npicture: |\n${picture}`);
}

/** Benthem and Koiter's polynomial for a crack all round in bending: limits below. */
const benthemKoiter = (xi: number): number => (3 / 8) * (1 + xi / 2 + 0.375 * xi ** 2 + 0.3125 * xi ** 3 + 0.2734375 * xi ** 4 + 0.537 * xi ** 5);

describe('a round bar with a crack all round, in bending', () => {
  const factor = async (share: number): Promise<number> => numberOf(await solved({ x_f: '0 mm' }, photographed(sheetText, share, 'middle')), 'Y_r');

  it('has the published factor: K = G σ_net √(π b) √(1 − b/R), written for the stress of the whole section', async () => {
    for (const share of [0.09, 0.25, 0.49, 0.81]) {
      const states = await solved({ x_f: '0 mm' }, photographed(sheetText, share, 'middle'));
      const [xi, R, sigma] = [Math.sqrt(share), numberOf(states, 'd_f') / 2, numberOf(states, 'sigma_f')];
      const net = sigma / xi ** 3;
      const K = benthemKoiter(xi) * net * Math.sqrt(Math.PI * xi * R) * Math.sqrt(1 - xi);
      expect(numberOf(states, 'K_max') / K, `share ${share}`).toBeCloseTo(1, 9);
      expect(holds(states, 'crack-all-round')).toBe(true);
    }
  });

  it('meets 1.12 for a shallow crack, and the exact deep one, K = 3 M/(2 √π b^2.5)', async () => {
    // Edge crack in a half plane: 1.1215 (Tada, Paris and Irwin, from memory). Deep crack: 3/8 of the net stress 4 M/(π b³) times √(π b).
    expect(await factor(0.9999)).toBeCloseTo(1.1215, 2);
    const states = await solved({ x_f: '0 mm' }, photographed(sheetText, 1e-6, 'middle'));
    const b = numberOf(states, 'd_f') / 2 * 1e-3;
    expect(numberOf(states, 'K_max') / ((1.5 * numberOf(states, 'M_f')) / (Math.sqrt(Math.PI) * b ** 2.5))).toBeCloseTo(1, 2);
  });

  it('says where it is not meant, and where the metal yielded through', async () => {
    const aside = await solved({ x_f: '0 mm' }, photographed(sheetText, 0.3, 'side'));
    expect(holds(aside, 'crack-all-round')).toBe(false);
    expect(holds(aside, 'elastic-crack')).toBe(false);
    const gentle = await solved({ x_f: '0 mm', F: '60 N', S_y: '1500 MPa' }, photographed(sheetText, 0.64, 'middle'));
    expect(holds(gentle, 'elastic-crack')).toBe(true);
    const own = await solved({ x_f: '0 mm', crack_form: 'own', Y_K: '1.3', a_K: '2 mm' }, photographed(sheetText, 0.3, 'side'));
    expect(numberOf(own, 'K_max') / (1.3 * numberOf(own, 'sigma_f') * Math.sqrt(Math.PI * 2e-3))).toBeCloseTo(1, 12);
    expect(uncertaintyOf(aside, 'K_max')).toBeGreaterThan(0);
  });
});

describe('a strip with a crack from one face, in bending', () => {
  const exact = { x_s: '0 mm', t: '3 mm' };

  it('has the handbook’s polynomial up to 0.6 of the height, and goes on from there', async () => {
    // Tada, Paris and Irwin: 1.122 − 1.40 x + 7.33 x² − 13.08 x³ + 14.0 x⁴ (from memory); 1.055 at 0.2 and 1.257 at 0.4 by
    // Gross and Srawley's collocation, NASA TN D-2603 (from memory).
    for (const x of [0.05, 0.2, 0.4, 0.59]) {
      const states = await solved(exact, photographed(alternatingText, 1 - x, 'side'));
      const F = 1.122 - 1.4 * x + 7.33 * x ** 2 - 13.08 * x ** 3 + 14 * x ** 4;
      expect(numberOf(states, 'Y_r') / F, `x = ${x}`).toBeCloseTo(1, 9);
      expect(numberOf(states, 'a_r') * 1e3).toBeCloseTo(3 * x, 9);
      const S = numberOf(states, 'sigma_a') + numberOf(states, 'sigma_m');
      expect(numberOf(states, 'K_max') / (numberOf(states, 'Y_r') * S * Math.sqrt(Math.PI * 3e-3 * x))).toBeCloseTo(1, 9);
    }
    for (const [depth, printed] of [[0.2, 1.055], [0.4, 1.257]] as const) {
      expect(numberOf(await solved(exact, photographed(alternatingText, 1 - depth, 'side')), 'Y_r')).toBeCloseTo(printed, 2);
    }
    const beyond = await solved(exact, photographed(alternatingText, 0.3999, 'side'));
    const x = 0.6001;
    expect(Math.abs(numberOf(beyond, 'Y_r') / (1.122 - 1.4 * x + 7.33 * x ** 2 - 13.08 * x ** 3 + 14 * x ** 4) - 1)).toBeLessThan(0.008);
  });

  it('meets 1.12 for a shallow crack, and the deep one, K = 3.975 M/c^1.5 for each unit of thickness', async () => {
    const shallow = await solved(exact, photographed(alternatingText, 0.9999, 'side'));
    expect(numberOf(shallow, 'Y_r')).toBeCloseTo(1.1215, 2);
    // A half plane with a deep crack: Tada, Paris and Irwin, from memory; M = σ W²/6.
    const deep = await solved(exact, photographed(alternatingText, 1e-4, 'side'));
    const c = 1e-4 * 3e-3;
    const M = (numberOf(deep, 'S_max') * 3e-3 ** 2) / 6;
    expect(numberOf(deep, 'K_max') / ((3.975 * M) / c ** 1.5)).toBeCloseTo(1, 2);
  });

  it('does not count a mean stress that presses, and says that a round section is another case', async () => {
    const pressed = await solved({ ...exact, face: 'compressed' }, photographed(alternatingText, 0.5, 'side'));
    expect(numberOf(pressed, 'S_max') / numberOf(pressed, 'sigma_a')).toBeCloseTo(1, 12);
    expect(holds(pressed, 'crack-flat')).toBe(true);
    expect(holds(await solved({ ...exact, section: 'round' }, photographed(alternatingText, 0.5, 'side')), 'crack-flat')).toBe(false);
  });

  it('stays open while there is no picture', async () => {
    const states = await solved({}, alternatingText);
    expect(states.symbol('K_max')).toMatchObject({ status: 'range', word: 'open' });
    for (const id of ['elastic-crack', 'crack-flat']) expect(holds(states, id), id).toBeUndefined();
  });
});
