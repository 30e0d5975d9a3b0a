import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { alternatingChain, type AlternatingInputs, type AlternatingResults } from './alternating-chain.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const text = shipped('alternating-bending');
const solve = (settings: Readonly<Record<string, string>>) => solved(settings, text);

/** Public symbols; the headless command must give every one of them. */
const PROMISED = (
  'z_0 z_1 z_2 Delta delta_a delta_m Delta_set L_b b t E k_m sigma_a sigma_m R n N_f t_f N_lo N_hi S_ut S_y K_t q K_f f A_0 B_0 s_0 ' +
  'k_a k_b k_c k_d k_e S_e0 S_e N_e A B s sigma_ar gamma D_M N_r x_max sigma_x'
).split(' ');

const near = (low: number, high: number) => fc.double({ min: low, max: high, noNaN: true });

const inputs: fc.Arbitrary<AlternatingInputs> = fc.record({
  support: fc.constantFrom('cantilever' as const, 'guided' as const, 'tapered' as const, 'centre' as const),
  section: fc.constantFrom('rectangular' as const, 'round' as const),
  mean_stress: fc.constantFrom('none' as const, 'goodman' as const, 'gerber' as const, 'soderberg' as const, 'morrow' as const, 'swt' as const, 'walker' as const),
  z_0: near(-0.001, 0.001), z_1: near(-0.004, -0.002), z_2: near(0.002, 0.004), L_b: near(0.08, 0.3), b: near(0.005, 0.04), t: near(0.001, 0.006),
  d: near(0.002, 0.009), x_s: near(0, 0.07), k_m: fc.oneof(fc.constant(0), near(1e4, 1e6)), E: near(60e9, 210e9), S_ut: near(500e6, 1500e6), S_y: near(400e6, 1300e6),
  sigma_f0: near(900e6, 2500e6), b_f0: near(-0.14, -0.05), epsilon_f0: near(0.1, 1), c_f0: near(-0.8, -0.45), gamma: near(0.4, 0.9), f: near(0.75, 0.92),
  K_t: near(1, 1.6), q: near(0.5, 1), n: near(0.5, 20),
});

function settingsOf(v: AlternatingInputs): Record<string, string> {
  const mm = (metres: number): string => `${metres * 1e3} mm`;
  const mpa = (pascals: number): string => `${pascals / 1e6} MPa`;
  return {
    support: v.support, section: v.section, mean_stress: v.mean_stress, constants: 'supplied',
    z_0: mm(v.z_0), z_1: mm(v.z_1), z_2: mm(v.z_2), L_b: mm(v.L_b), b: mm(v.b), t: mm(v.t), d: mm(v.d), x_s: mm(v.x_s),
    k_m: `${v.k_m / 1e3} N/mm`, E: `${v.E / 1e9} GPa`, S_ut: mpa(v.S_ut), S_y: mpa(v.S_y), sigma_f0: mpa(v.sigma_f0), b_f0: `${v.b_f0}`,
    epsilon_f0: `${v.epsilon_f0}`, c_f0: `${v.c_f0}`, gamma: `${v.gamma}`, fraction: 'typed', c_e: '1', f: `${v.f}`, K_t: `${v.K_t}`, q: `${v.q}`, n: `${v.n * 60} cycles/min`,
  };
}

describe('the alternating-bending sheet', () => {
  it('gives every promised symbol and no error on the unedited example', async () => {
    const states = await solve({});
    for (const symbol of PROMISED) expect(states.symbol(symbol)?.status, symbol).toBe('value');
    for (const block of parseSheet(text).blocks) {
      expect(states.cell(block.id)?.problems ?? [], block.id).toEqual([]);
      expect(states.cell(block.id)?.warnings ?? [], block.id).toEqual([]);
    }
  });

  it('agrees with the chain computed apart, for random set-ups of every kind', async () => {
    await fc.assert(
      fc.asyncProperty(inputs, async (values) => {
        const states = await solve(settingsOf(values));
        const expected = alternatingChain(values);
        if (expected.sigma_m >= 0.9 * Math.min(values.S_y, values.S_ut, values.sigma_f0)) return; // no correction holds: tested below
        for (const symbol of Object.keys(expected) as (keyof AlternatingResults)[]) {
          if (states.symbol(symbol)?.status === 'range') continue;
          if (symbol === 'sigma_x' && values.support === 'tapered') continue; // its own width falls with x: compared where it is highest
          const scale = { delta_m: expected.Delta, sigma_m: expected.sigma_a, R: 1, sigma_x: expected.sigma_a }[symbol as string] ?? Math.abs(expected[symbol]);
          const tolerance = symbol === 'N_epsilon' || symbol === 'N_sigma' ? 1e-8 : 1e-9;
          expect(Math.abs(numberOf(states, symbol) - expected[symbol]) / scale, symbol).toBeLessThan(tolerance);
        }
        const word = expected.sigma_ar > values.f * values.S_ut ? 'low cycle' : expected.sigma_ar < expected.S_e ? 'below limit' : undefined;
        const life = states.symbol('N_sigma');
        expect(life?.status === 'range' ? life.word : undefined).toBe(word);
        expect(holds(states, 'formulas-agree')).toBe(true);
      }),
      { seed: 20261127, numRuns: 20 },
    );
  }, 90_000);

  it('does not care which end of the stroke is read first, nor where the reference surface lies', async () => {
    const one = await solve({ z_0: '12.4 mm', z_1: '9.6 mm', z_2: '15.44 mm' });
    const swapped = await solve({ z_0: '12.4 mm', z_1: '15.44 mm', z_2: '9.6 mm' });
    const shifted = await solve({ z_0: '-5 mm', z_1: '-7.8 mm', z_2: '-1.96 mm' });
    const zeroed = await solve({ datum: 'zeroed', z_1: '-2.8 mm', z_2: '3.04 mm' });
    for (const symbol of ['Delta', 'delta_m', 'sigma_a', 'sigma_m', 'R', 'sigma_ar', 'N_f']) {
      for (const other of [swapped, shifted, zeroed]) expect(numberOf(other, symbol) / numberOf(one, symbol), symbol).toBeCloseTo(1, 10);
    }
    expect(uncertaintyOf(zeroed, 'delta_m')).toBeLessThan(uncertaintyOf(one, 'delta_m'));
  });

  it('has no mean stress without an offset, and then all corrections agree', async () => {
    const centred = { z_0: '12.52 mm', z_1: '9.6 mm', z_2: '15.44 mm' };
    const lives: number[] = [];
    for (const mean_stress of ['none', 'goodman', 'gerber', 'soderberg', 'morrow', 'swt', 'walker']) {
      const states = await solve({ ...centred, mean_stress });
      expect(Math.abs(numberOf(states, 'sigma_m')) / numberOf(states, 'sigma_a')).toBeLessThan(1e-12);
      expect(numberOf(states, 'R')).toBeCloseTo(-1, 12);
      expect(holds(states, 'centred')).toBe(true);
      lives.push(numberOf(states, 'N_f'), numberOf(await solve({ ...centred, mean_stress, life_by: 'strain' }), 'N_f'));
    }
    for (const [i, life] of lives.entries()) expect(life / (lives[i % 2] ?? Number.NaN)).toBeCloseTo(1, 10);
  });

  it('takes no credit for a compressive mean, and warns of one left out', async () => {
    const stretched = await solve({ mean_stress: 'goodman' });
    const compressed = await solve({ mean_stress: 'goodman', face: 'compressed' });
    expect(numberOf(compressed, 'sigma_m')).toBe(-numberOf(stretched, 'sigma_m'));
    expect(numberOf(compressed, 'R')).toBeLessThan(-1);
    for (const mean_stress of ['goodman', 'gerber', 'soderberg', 'morrow', 'swt', 'walker']) {
      const states = await solve({ mean_stress, face: 'compressed' });
      expect(numberOf(states, 'sigma_ar') / numberOf(states, 'sigma_K')).toBeCloseTo(1, 12);
    }
    expect(holds(await solve({ mean_stress: 'none' }), 'offset-corrected')).toBe(false);
    expect(holds(await solve({ mean_stress: 'none', face: 'compressed' }), 'offset-corrected')).toBe(true);
  });

  it('warns of large deflections, stocky specimens, yielding, a stroke unlike its setting and a fracture elsewhere', async () => {
    const usual = await solve({});
    for (const id of ['small-deflection', 'slender', 'elastic', 'stroke-as-set', 'place', 'flat-taper', 'moves', 'damage']) expect(holds(usual, id), id).toBe(true);
    expect(holds(await solve({ z_1: '0 mm', z_2: '25 mm' }), 'small-deflection')).toBe(false);
    expect(holds(await solve({ L_b: '25 mm' }), 'slender')).toBe(false);
    const yielded = await solve({ z_1: '8 mm', z_2: '17 mm' });
    expect(holds(yielded, 'elastic')).toBe(false);
    expect(yielded.symbol('N_f')).toMatchObject({ status: 'range', word: 'low cycle' });
    const byStrain = await solve({ z_1: '8 mm', z_2: '17 mm', life_by: 'strain' });
    expect(numberOf(byStrain, 'N_f')).toBeGreaterThan(1000);
    expect(holds(await solve({ Delta_set: '5.0 mm' }), 'stroke-as-set')).toBe(false);
    expect(holds(await solve({ x_s: '20 mm' }), 'place')).toBe(false);
    expect((await solve({ x_s: '200 mm' })).cell('sigma_x')?.problems[0]?.what).toContain('beyond');
    expect(holds(await solve({ support: 'tapered', section: 'round' }), 'flat-taper')).toBe(false);
    const still = await solve({ z_1: '12.4 mm', z_2: '12.4 mm' });
    expect(holds(still, 'moves')).toBe(false);
    expect(still.cell('sigma_ar')?.problems[0]?.what).toContain('nothing moves');
  });

  it('shares the travel with a machine that gives', async () => {
    const stiff = await solve({});
    const k = numberOf(stiff, 'k_P') / 1e3;
    expect(numberOf(stiff, 'y_s')).toBe(1);
    const soft = await solve({ k_m: `${k} N/mm` });
    expect(numberOf(soft, 'y_s')).toBeCloseTo(0.5, 12);
    expect(numberOf(soft, 'sigma_a') / numberOf(stiff, 'sigma_a')).toBeCloseTo(0.5, 12);
    expect(numberOf(soft, 'sigma_m') / numberOf(stiff, 'sigma_m')).toBeCloseTo(0.5, 12);
  });

  it('propagates stated uncertainties by the elasticities of the closed formula', async () => {
    const states = await solve({
      z_0: '0 ± 0 mm', z_1: '-3 ± 0.03 mm', z_2: '3 ± 0.03 mm', L_b: '80 ± 0.8 mm', t: '3 ± 0.03 mm', b: '20 ± 1 mm', E: '200 ± 2 GPa',
    });
    // σ = 3 E t δ/(2 L²): E, t once, L twice; δ = (z_2 − z_1)/2 with u = 0.03/√2 mm. The width drops out.
    const relative = Math.hypot(0.01, 0.01, 0.02, 0.03 / Math.SQRT2 / 3);
    expect(uncertaintyOf(states, 'sigma_a') / numberOf(states, 'sigma_a') / relative).toBeCloseTo(1, 9);
    expect(uncertaintyOf(states, 'epsilon_a') / numberOf(states, 'epsilon_a') / Math.hypot(0.01, 0.02, 0.01 / Math.SQRT2)).toBeCloseTo(1, 9);
  });

  it('counts every block by the chosen correction, and those below the limit only when asked to', async () => {
    for (const mean_stress of ['none', 'goodman', 'gerber', 'soderberg', 'morrow', 'swt', 'walker']) {
      const rows = text.replace('1,5.20,8000\n  2,5.84,6000', '1,5.84,6000');
      const states = await solved({ mean_stress, z_0: '12.4 mm', z_1: '9.6 mm', z_2: '15.44 mm' }, rows);
      expect(numberOf(states, 'S_b') / numberOf(states, 'sigma_ar'), mean_stress).toBeCloseTo(1, 11);
      expect(numberOf(states, 'D_M') * numberOf(states, 'N_sigma'), mean_stress).toBeCloseTo(6000, 6);
      expect(numberOf(states, 'N_r') + 6000).toBeCloseTo(numberOf(states, 'N_f'), 5);
    }
    const low = text.replace('1,5.20,8000', '1,3.00,8000');
    const [counted, ignored] = [await solved({}, low), await solved({ small_blocks: 'ignored' }, low)];
    expect(numberOf(counted, 'D_M')).toBeGreaterThan(numberOf(ignored, 'D_M'));
    const used = await solved({}, text.replace('2,5.84,6000', '2,5.84,60000'));
    expect(holds(used, 'damage')).toBe(false);
    expect(numberOf(used, 'N_r')).toBe(0);
    const none = await solved({}, text.replace(/\n {2}1,5\.20,8000\n {2}2,5\.84,6000/, ''));
    expect(numberOf(none, 'D_M')).toBe(0);
    expect(none.cell('blocks')?.problems).toEqual([]);
  });
});
