import { describe, expect, it } from 'vitest';
import beams from '../tables/beams.json';
import damage from '../tables/mean-stress-and-damage.json';
import { shipped } from '../shipped.ts';
import { example } from './example.ts';
import { numberOf, solved } from './solved.ts';

const text = shipped('alternating-bending');
const KSI = 6.894757293168361; // MPa, from the exact pound-force and inch

/** A strip of 100 mm and 4 mm, E = 200 GPa, as a cantilever: σ = 3 E t δ/(2 L²) makes 1 mm of deflection 120 MPa. */
function stressed(amplitude: number, mean: number): Record<string, string> {
  const mm = (megapascals: number): string => `${megapascals / 120} mm`;
  return { L_b: '100 mm', t: '4 mm', b: '10 mm', E: '200 GPa', z_0: '0 mm', z_1: mm(mean - amplitude), z_2: mm(mean + amplitude) };
}

/** Lines as a power law S = a N^b, handed over as a supplied one. */
function power(aMpa: number, b: number): Record<string, string> {
  return { line: 'supplied', A_0: `${-Math.log10(aMpa) / b}`, B_0: `${1 / b}` };
}

const withBlocks = (rows: string): string => text.replace('1,5.20,8000\n  2,5.84,6000', rows);

describe('boundary conditions', () => {
  it('cantilever: a flat spring between two deflections of one sign (Mott, Machine Elements in Mechanical Design, from memory)', async () => {
    const expected = example(beams, 'beam-flat-spring');
    const states = await solved({ E: '207 GPa', L_b: '65 mm', t: '0.8 mm', b: '6 mm', z_0: '0 mm', z_1: '3 mm', z_2: '8 mm' }, text);
    expect(expected('amplitude').off(numberOf(states, 'sigma_a') / 1e6)).toBeLessThanOrEqual(1);
    expect(expected('mean').off(numberOf(states, 'sigma_m') / 1e6)).toBeLessThanOrEqual(1);
    expect(expected('R').off(numberOf(states, 'R'))).toBeLessThanOrEqual(1);
    expect((numberOf(states, 'P_m') + numberOf(states, 'P_a')) / expected('force').value - 1).toBeCloseTo(0, 8);
    expect((numberOf(states, 'P_m') - numberOf(states, 'P_a')) / expected('force', 1).value - 1).toBeCloseTo(0, 8);
  });

  it('guided end (AISC beam diagrams; Roark, table 8.1, from memory): twice the free cantilever', async () => {
    const settings = { E: '205 GPa', L_b: '60 mm', t: '2 mm', z_0: '0 mm', z_1: '-1.5 mm', z_2: '1.5 mm' };
    const expected = example(beams, 'beam-guided');
    const guided = await solved({ ...settings, support: 'guided' }, text);
    expect(expected('sigma').off(numberOf(guided, 'sigma_a') / 1e6)).toBeLessThanOrEqual(1);
    const free = await solved({ ...settings, support: 'cantilever' }, text);
    expect(expected('ratio_to_free_cantilever').off(numberOf(guided, 'sigma_a') / numberOf(free, 'sigma_a'))).toBeLessThanOrEqual(1);
    expect(numberOf(guided, 'k_P') / numberOf(free, 'k_P')).toBeCloseTo(4, 12);
  });

  it('taper of constant stress (leaf-spring theory, Shigley and Roark, from memory)', async () => {
    const expected = example(beams, 'beam-tapered');
    const states = await solved({ support: 'tapered', E: '205 GPa', L_b: '70 mm', t: '3 mm', b: '30 mm', z_0: '0 mm', z_1: '-4 mm', z_2: '4 mm' }, text);
    expect(expected('sigma').off(numberOf(states, 'sigma_a') / 1e6)).toBeLessThanOrEqual(1);
    expect(expected('load').off(numberOf(states, 'P_a'))).toBeLessThanOrEqual(1);
    expect(numberOf(states, 'sigma_x')).toBe(numberOf(states, 'sigma_a'));
  });

  it('three points (simple beam with a central load, AISC table 3-23, case 7, from memory): P = 48 E I δ/L³, M = P L/4', async () => {
    // Worked by hand: E = 70 GPa, 20 by 3 mm, so I = 45 mm⁴; L = 120 mm, δ = 2 mm: P = 48·70000·45·2/120³ = 175 N, M = 5250 N·mm, σ = M·1.5/45 = 175 MPa.
    const states = await solved({
      support: 'centre', E: '70 GPa', L_b: '120 mm', t: '3 mm', b: '20 mm', z_0: '0 mm', z_1: '-2 mm', z_2: '2 mm', x_s: '60 mm',
    }, text);
    expect(numberOf(states, 'P_a')).toBeCloseTo(175, 9);
    expect(numberOf(states, 'M_a')).toBeCloseTo(5.25, 10);
    expect(numberOf(states, 'sigma_a') / 1e6).toBeCloseTo(175, 9);
    expect(numberOf(states, 'x_max')).toBe(0.06);
    expect(numberOf(states, 'sigma_x')).toBeCloseTo(numberOf(states, 'sigma_a'), 3);
  });

  it('round section: a bar of 6 mm, I and σ by hand', async () => {
    // I = π 6⁴/64 = 63.617 mm⁴; σ = 3·205000·6·3/(2·80²) = 864.84 MPa (elastic, a pseudo-stress); d_e = 0.370·6 mm.
    const states = await solved({ section: 'round', E: '205 GPa', d: '6 mm', L_b: '80 mm', z_0: '0 mm', z_1: '-3 mm', z_2: '3 mm' }, text);
    expect(numberOf(states, 'I') * 1e12).toBeCloseTo(63.617, 3);
    expect(numberOf(states, 'sigma_a') / 1e6).toBeCloseTo(864.84, 2);
    expect(numberOf(states, 'd_e') * 1e3).toBeCloseTo(2.22, 10);
  });
});

describe('mean-stress corrections', () => {
  // AISI 4340 of Dowling, table 9.1, at 450 MPa about 150 MPa; values computed with mpmath from the definitions.
  it.each([
    ['goodman', 'ar_goodman', 'N_goodman'], ['gerber', 'ar_gerber', 'N_gerber'], ['soderberg', 'ar_soderberg_Sy_1103', 'N_soderberg_Sy_1103'],
    ['morrow', 'ar_morrow_sigma_f', 'N_morrow_sigma_f'], ['swt', 'ar_swt', 'N_swt'], ['walker', 'ar_walker_0.65', 'N_walker_0.65'],
  ])('%s: equivalent stress and life', async (mean_stress, stress, life) => {
    const expected = example(damage, 'life-mean-stress-equivalents');
    const states = await solved({
      ...stressed(450, 150), mean_stress, S_ut: '1172 MPa', S_y: '1103 MPa', constants: 'supplied', sigma_f0: '1758 MPa', b_f0: '-0.0977', gamma: '0.65',
      ...power(1758 * 2 ** -0.0977, -0.0977),
    }, text);
    expect(expected(stress).off(numberOf(states, 'sigma_ar') / 1e6)).toBeLessThanOrEqual(1);
    expect(expected(life).off(numberOf(states, 'N_f'))).toBeLessThanOrEqual(1);
    expect(expected('R').off(numberOf(states, 'R'))).toBeLessThanOrEqual(1);
  });

  // With both stresses n times as large, the equivalent stress is the endurance limit: n is the published factor of safety.
  it.each(['goodman', 'gerber', 'soderberg'])('%s: factor of safety of Shigley, 8th ed., problem 6-12', async (mean_stress) => {
    const published = example(damage, 'life-mean-stress-factors')(mean_stress);
    const at = async (n: number): Promise<number> =>
      numberOf(await solved({ ...stressed(172 * n, 178.4 * n), mean_stress, S_ut: '551 MPa', S_y: '413 MPa' }, text), 'sigma_ar') / 1e6 - 276;
    let [low, high] = [0.5, 1.6];
    for (let step = 0; step < 12; step++) {
      const middle = (low + high) / 2;
      if ((await at(middle)) < 0) low = middle;
      else high = middle;
    }
    expect(Math.abs((low + high) / 2 - published.value)).toBeLessThan(0.006);
  });
});

describe('damage sums', () => {
  it('cycles above the limit, then the life left (Budynas and Nisbett, Shigley, 9th ed., section 6-15)', async () => {
    const expected = example(damage, 'life-miner-overstress');
    const line = power(129.6 * KSI, -0.08509083503443518);
    // 3000 cycles at 60 ksi; then the present stroke is one of 60 ksi, or of 40 ksi.
    const block = (ksi: number): string => withBlocks(`1,${(2 * ksi * KSI) / 120},3000`);
    const still = await solved({ ...stressed(60 * KSI, 0), ...line, S_ut: '80 ksi', S_y: '60 ksi', mean_stress: 'none' }, block(60));
    expect(expected('N1').off(numberOf(still, 'N_sigma'))).toBeLessThanOrEqual(1);
    expect(expected('left_at_60').off(numberOf(still, 'N_r'))).toBeLessThanOrEqual(1);
    const lower = await solved({ ...stressed(40 * KSI, 0), ...line, S_ut: '80 ksi', S_y: '60 ksi', mean_stress: 'none' }, block(60));
    expect(expected('left_at_40').off(numberOf(lower, 'N_r'))).toBeLessThanOrEqual(1);
  });

  it('Gerber first, then the sum (Shigley, 9th ed., example 6-15)', async () => {
    const expected = example(damage, 'life-miner-shigley-6-15');
    const [a, b] = [213.49336333333298 * KSI, -0.08334676770620478];
    const states = await solved({ ...stressed(70 * KSI, 10 * KSI), ...power(a, b), S_ut: '151 ksi', S_y: '140 ksi', mean_stress: 'gerber' },
      withBlocks(`1,${(2 * 70 * KSI) / 120},1000`));
    expect(expected('S_rev_1').off(numberOf(states, 'S_b') / 1e6 / KSI)).toBeLessThanOrEqual(1);
    // One block a cycle: the number of blocks is the life at this stress. The book rounds a, b and the stress: 3 per cent.
    expect(expected('blocks').off(1000 / numberOf(states, 'D_M'))).toBeLessThanOrEqual(1);
    expect(expected('blocks_full').off(1000 / numberOf(states, 'D_M'))).toBeLessThanOrEqual(1);
  });

  it('three blocks on a line (invented; computed with mpmath)', async () => {
    const expected = example(damage, 'life-miner-blocks');
    const rows = [[420, 20000], [380, 100000], [340, 400000]].map(([s = 0, n], i) => `${i + 1},${s / 60},${n}`).join('\n  ');
    const states = await solved({ ...stressed(380, 0), line: 'supplied', A_0: '31.2', B_0: '-10', mean_stress: 'goodman' }, withBlocks(rows));
    expect(expected('D').off(numberOf(states, 'D_M'))).toBeLessThanOrEqual(1);
    expect(numberOf(states, 'N_b')).toBe(520000);
  });
});

describe('life by strain', () => {
  it('solves the strain-life line (invented constants; computed with mpmath)', async () => {
    const expected = example(damage, 'life-coffin-manson');
    // ε = 3 t δ/(2 L²) is 0.006 at 10 mm for 4 by 100 mm, whatever the modulus.
    const states = await solved({
      L_b: '100 mm', t: '4 mm', E: '207 GPa', z_0: '0 mm', z_1: '-10 mm', z_2: '10 mm', life_by: 'strain', constants: 'supplied', S_ut: '1172 MPa', S_y: '1103 MPa',
      sigma_f0: '1758 MPa', b_f0: '-0.0977', epsilon_f0: '0.5', c_f0: '-0.6',
    }, text);
    expect(numberOf(states, 'epsilon_a')).toBeCloseTo(0.006, 14);
    expect(expected('N').off(numberOf(states, 'N_f'))).toBeLessThanOrEqual(1);
    expect(numberOf(states, 'epsilon_N')).toBeCloseTo(0.006, 13);
  });
});
