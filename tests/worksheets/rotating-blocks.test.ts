/** The load changed during the test: damage summed over blocks in the rotating-bending sheet. */
import { describe, expect, it } from 'vitest';
import damage from '../tables/mean-stress-and-damage.json';
import { example } from './example.ts';
import { holds, numberOf, sheetText, solved } from './solved.ts';

const KSI = 6.894757293168361; // MPa, from the exact pound-force and inch

/** Half the load at each of two points 100 mm from the supports, on 7.5 mm: M = 50 mm · W, σ = 32 M/(π d³), MPa for each newton. */
const PER_NEWTON = (32 * 50) / (Math.PI * 7.5 ** 3);
const EXACT = { L: '400 mm', s_1: '100 mm', s_2: '200 mm', s_3: '100 mm', x_s: '200 mm', d: '7.5 mm', F_0: '0 N', K_t: '1' };

const newtons = (megapascals: number): string => `${megapascals / PER_NEWTON}`;
const loaded = (megapascals: number): Record<string, string> => ({ ...EXACT, F: `${newtons(megapascals)} N` });
/** Rows of stress in MPa and cycles; the table takes loads. */
const withBlocks = (...rows: readonly (readonly [stress: number, cycles: number])[]): string =>
  sheetText.replace('  block,load [N],n_i\n', `  block,load [N],n_i\n${rows.map(([stress, cycles], i) => `  ${i + 1},${newtons(stress)},${cycles}\n`).join('')}`);

describe('blocks of load', () => {
  it('cycles above the limit, then the life left (Budynas and Nisbett, Shigley, 9th ed., section 6-15)', async () => {
    const expected = example(damage, 'life-miner-overstress');
    // S = a N^b with a = 129.6 kpsi, handed over as a supplied line.
    const b = -0.08509083503443518;
    const line = { line: 'supplied', A_0: `${-Math.log10(129.6 * KSI) / b}`, B_0: `${1 / b}`, S_ut: '80 ksi', S_y: '60 ksi' };
    const block = withBlocks([60 * KSI, 3000]);
    const still = await solved({ ...loaded(60 * KSI), ...line }, block);
    expect(expected('N1').off(numberOf(still, 'N_f'))).toBeLessThanOrEqual(1);
    expect(expected('left_at_60').off(numberOf(still, 'N_r'))).toBeLessThanOrEqual(1);
    const lower = await solved({ ...loaded(40 * KSI), ...line }, block);
    expect(expected('left_at_40').off(numberOf(lower, 'N_r'))).toBeLessThanOrEqual(1);
  });

  it('three blocks on a line (invented; computed with mpmath)', async () => {
    const expected = example(damage, 'life-miner-blocks');
    const states = await solved({ ...loaded(380), line: 'supplied', A_0: '31.2', B_0: '-10' }, withBlocks([420, 20_000], [380, 100_000], [340, 400_000]));
    expect(expected('D').off(numberOf(states, 'D_M'))).toBeLessThanOrEqual(1);
    expect(numberOf(states, 'N_b')).toBe(520_000);
    expect(numberOf(states, 'S_b') / 1e6).toBeCloseTo(420, 9);
    expect(holds(states, 'damage')).toBe(false);
    expect(numberOf(states, 'N_r')).toBe(0);
  });

  it('takes the zero reading off every block, or adds the load already acting', async () => {
    const block = withBlocks([300, 1000]);
    const share = async (settings: Record<string, string>): Promise<number> => numberOf(await solved({ ...loaded(300), line: 'supplied', ...settings }, block), 'S_b') / 1e6;
    expect(await share({ F_0: '10 N' })).toBeCloseTo(300 - 10 * PER_NEWTON, 9);
    expect(await share({ load: 'weights', F_h: '14 N' })).toBeCloseTo(300 + 14 * PER_NEWTON, 9);
    expect(await share({ K_t: '1.5', q: '0.8' })).toBeCloseTo(300 * 1.4, 9);
  });

  it('counts blocks below the limit only when asked to, and says where the line does not hold', async () => {
    const low = withBlocks([420, 20_000], [200, 1e6]);
    const [counted, ignored] = [await solved(loaded(380), low), await solved({ ...loaded(380), small_blocks: 'ignored' }, low)];
    expect(numberOf(counted, 'D_M')).toBeGreaterThan(numberOf(ignored, 'D_M'));
    expect(holds(counted, 'blocks-on-line')).toBe(true);
    expect(holds(await solved(loaded(380), withBlocks([600, 10])), 'blocks-on-line')).toBe(false);
  });

  it('stays out of the way while the table is empty', async () => {
    const states = await solved({});
    for (const symbol of ['S_b', 'N_r', 't_r']) expect(states.symbol(symbol), symbol).toMatchObject({ status: 'range', word: 'open' });
    for (const id of ['blocks-on-line', 'damage']) expect(holds(states, id), id).toBeUndefined();
    expect(states.cell('blocks')?.problems).toEqual([]);
  });
});
