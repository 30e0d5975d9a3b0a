/**
 * The sheet for the verification of load and alignment: readings are made of a known machine by statics and beam theory worked out apart
 * (reactions from two equations, σ = 32M/(πd³), a bridge that gives k ε/4 for each active gauge), and the sheet has to find that machine again.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { createSheetGraph, type SheetStates } from '../../src/graph/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { holds, numberOf, solved, uncertaintyOf } from './solved.ts';

const text = shipped('load-verification');

/** The sheet with other rows in one of its tables. */
function withRows(id: string, rows: readonly (readonly (number | string)[])[], sheet = text): string {
  const pattern = new RegExp(`(id: ${id}\\n[\\s\\S]*?rows: \\|\\n[^\\n]*\\n)((?:  \\S.*\\n)*)`, 'u');
  if (!pattern.test(sheet)) throw new Error(`no table ${id}`);
  return sheet.replace(pattern, (_all, head: string) => head + rows.map((row) => `  ${row.join(',')}\n`).join(''));
}

interface Machine { readonly scale: number; readonly offset: number; readonly share: number; readonly friction: number }
const BAR = { L: 0.4, s_1: 0.11, s_3: 0.09, x_L: 0.15, x_R: 0.27, E: 200e9, k: 2.1, d_L: 0.0102, d_R: 0.0099 };
const SETTINGS = {
  L: '400 ± 0 mm', s_1: '110 ± 0 mm', s_3: '90 ± 0 mm', x_L: '150 ± 0 mm', x_R: '270 ± 0 mm', E: '200 ± 0 GPa', k_g: '2.1 ± 0', c_r: '1 ± 0',
  c_L: '1 ± 0', c_R: '1 ± 0', d_L: '10.2 ± 0 mm', d_R: '9.9 ± 0 mm', F_0: '2 ± 0 N', z_L0: '0.01 mV/V', z_L1: '0.01 mV/V', z_R0: '-0.02 mV/V', z_R1: '-0.02 mV/V',
};
const ZEROS = { L: 0.01, R: -0.02 };

/** Bridge reading in mV/V less its zero. */
function reading(load: number, share: number, station: 'L' | 'R', active: number): number {
  const [x, d] = station === 'L' ? [BAR.x_L, BAR.d_L] : [BAR.x_R, BAR.d_R];
  const [F_1, F_2] = [share * load, (1 - share) * load];
  const R_A = (F_1 * (BAR.L - BAR.s_1) + F_2 * BAR.s_3) / BAR.L;
  const M = R_A * x - F_1 * (x - BAR.s_1);
  return ((active * BAR.k * 32 * M) / (Math.PI * d ** 3 * BAR.E) / 4) * 1000;
}

function rowsOf({ scale, offset, share, friction }: Machine, loads: readonly number[], active = 2): string[][] {
  return loads.map((load) => {
    const at = (side: number, station: 'L' | 'R'): string => String(reading(scale * (load - 2) + offset + side * friction, share, station, active) + ZEROS[station]);
    return [String(load), at(-1, 'L'), at(-1, 'R'), at(1, 'L'), at(1, 'R')];
  });
}

const LOADS = [60, 120, 180, 240, 310];
const verify = (machine: Machine, settings: Readonly<Record<string, string>> = {}, active = 2): Promise<SheetStates> =>
  solved({ ...SETTINGS, ...settings }, withRows('loads', rowsOf(machine, LOADS, active)));

describe('the load by a strain-gauged bar', () => {
  const machines: fc.Arbitrary<Machine> = fc.record({
    scale: fc.double({ min: 0.9, max: 1.1, noNaN: true }), offset: fc.double({ min: -5, max: 5, noNaN: true }),
    share: fc.double({ min: 0.4, max: 0.6, noNaN: true }), friction: fc.double({ min: 0, max: 3, noNaN: true }),
  });

  test('finds scale, offset and share of any machine again', async () => {
    await fc.assert(fc.asyncProperty(machines, async (machine) => {
      const states = await verify(machine);
      expect(numberOf(states, 'b_e')).toBeCloseTo(machine.scale - 1, 9);
      // The line is over what is read: at a reading of 0 N, 2 N below the zero.
      expect(numberOf(states, 'a_e')).toBeCloseTo(machine.offset - 2 * (machine.scale - 1), 7);
      expect(numberOf(states, 'k_F')).toBeCloseTo(machine.share, 9);
      expect(numberOf(states, 'W_v')).toBeCloseTo(machine.scale * 308 + machine.offset, 7);
      expect(numberOf(states, 'c_v')).toBeCloseTo(machine.scale + machine.offset / 308, 9);
      // Hysteresis is largest, as a share, at the least load: down less up is twice the friction.
      expect(numberOf(states, 'h_top')).toBeCloseTo((2 * machine.friction) / 58, 9);
    }), { numRuns: 15, seed: 14 });
  });

  test.each([['quarter', 1], ['half', 2], ['full', 4]] as const)('a %s bridge reads %d gauges', async (bridge, active) => {
    expect(numberOf(await verify({ scale: 0.98, offset: 1, share: 0.5, friction: 0 }, { bridge }, active), 'c_v')).toBeCloseTo(0.98 + 1 / 308, 9);
  });

  test('an indicator set to another gauge factor: 2.00 for 2.10 shows 5 % too much', async () => {
    const rows = rowsOf({ scale: 1, offset: 0, share: 0.5, friction: 0 }, LOADS).map(([load = '', ...fields]) =>
      [load, ...fields.map((field, i) => `${((2 * (Number(field) - ZEROS[i % 2 === 0 ? 'L' : 'R'])) / 2.0) * 1000} um/m`)]);
    const zero = { z_L0: '0 mV/V', z_L1: '0 mV/V', z_R0: '0 mV/V', z_R1: '0 mV/V' };
    // The half bridge gives k ε/2; an indicator for one strain, set to 2.00, shows k ε/2.00.
    const states = await solved({ ...SETTINGS, ...zero, bridge: 'indicator', k_i: '2.00' }, withRows('loads', rows));
    expect(numberOf(states, 'c_B')).toBeCloseTo(2 / 2.1, 12);
    expect(numberOf(states, 'c_v')).toBeCloseTo(1, 9);
  });

  test('one station alone: the load right where it is shared equally, and the share said to be by assumption', async () => {
    const states = await verify({ scale: 1.01, offset: 0, share: 0.5, friction: 0 }, { stations: 'one' });
    expect(numberOf(states, 'c_v')).toBeCloseTo(1.01, 9);
    expect(numberOf(states, 'k_F')).toBeCloseTo(0.5, 12);
  });

  test('line and scatter of the example as by a fit about the means, worked apart', async () => {
    const states = await solved({}, text);
    const rows = /id: loads\n[\s\S]*?rows: \|\n[^\n]*\n((?: {2}\S.*\n)*)/u.exec(text)?.[1]?.trim().split('\n').map((row) => row.split(',').map(Number)) ?? [];
    const at = (symbol: string): number => numberOf(states, symbol);
    const points = rows.map(([load = 0, u_L = 0, u_R = 0, d_l = 0, d_r = 0]) => {
      const [m_L, m_R] = [at('K_L') * ((u_L + d_l) / 2000 - (0.0021 + 0.0023) / 2000), at('K_R') * ((u_R + d_r) / 2000 + (0.0013 + 0.0012) / 2000)];
      // The straight line of the moment drawn on to both supports: F₁ s₁ on the left, F₂ s₃ on the right.
      const slope = (m_R - m_L) / 0.12;
      const left = (m_L - slope * 0.14) / 0.1012;
      const right = (m_L + slope * (0.4016 - 0.14)) / 0.1004;
      return { x: load - 1.5, e: left + right - (load - 1.5), left, right };
    });
    const mean = (of: (point: (typeof points)[number]) => number): number => points.reduce((sum, point) => sum + of(point), 0) / points.length;
    const [x, e] = [mean((p) => p.x), mean((p) => p.e)];
    const S = mean((p) => (p.x - x) ** 2) * 5;
    const b = (mean((p) => (p.x - x) * (p.e - e)) * 5) / S;
    const scatter = Math.sqrt((mean((p) => (p.e - e - b * (p.x - x)) ** 2) * 5) / 3);
    expect(at('b_e') / b).toBeCloseTo(1, 9);
    expect(at('a_e')).toBeCloseTo(e - b * (x + 1.5), 9);
    expect(at('s_e') / scatter).toBeCloseTo(1, 9);
    expect(at('k_F')).toBeCloseTo(mean((p) => p.left) / mean((p) => p.left + p.right), 12);
  });

  test('its uncertainty by hand: E, gauge factor and scale one to one, and what both stations share does not average out', async () => {
    const exact = { ...SETTINGS, E: '200 ± 1 GPa', k_g: '2.1 ± 0.0063', c_r: '1 ± 0.002' };
    const states = await solved({ ...exact, F_v: '312 N', z_v: '0 ± 0' }, withRows('loads', rowsOf({ scale: 1, offset: 0, share: 0.5, friction: 0 }, [102, 202, 312])));
    expect(uncertaintyOf(states, 'c_v')).toBeCloseTo(Math.hypot(0.005, 0.003, 0.002), 4);
    expect(uncertaintyOf(states, 'k_F')).toBeLessThan(1e-4);
    const own = await solved({ ...SETTINGS, c_L: '1 ± 0.002', c_R: '1 ± 0.002', z_v: '0 ± 0' }, withRows('loads', rowsOf({ scale: 1, offset: 0, share: 0.5, friction: 0 }, [102, 202, 312])));
    // Each gauge's own error, by differences of the statics above: the load's slope on each station's moment.
    const [m_L, m_R] = (['L', 'R'] as const).map((station) => reading(1, 0.5, station, 2));
    const moment = { L: ((m_L ?? 0) / 1000) * ((2 / 2.1) * 200e9 * Math.PI * 0.0102 ** 3) / 32, R: ((m_R ?? 0) / 1000) * ((2 / 2.1) * 200e9 * Math.PI * 0.0099 ** 3) / 32 };
    const load = (a: number, b: number): number => {
      const slope = (b - a) / 0.12;
      return (a - slope * 0.15) / 0.11 + (a + slope * 0.25) / 0.09;
    };
    const parts = [load(moment.L * 1.002, moment.R) - load(moment.L, moment.R), load(moment.L, moment.R * 1.002) - load(moment.L, moment.R)];
    expect(uncertaintyOf(own, 'c_v')).toBeCloseTo(Math.hypot(...parts), 4);
  });
});

describe('what it says of the load', () => {
  const GOOD: Machine = { scale: 1, offset: 0, share: 0.5, friction: 0 };

  test.each([
    ['zero-came-back', GOOD, { z_L1: '0.012 mV/V' }, false], ['zero-came-back', GOOD, {}, true],
    ['hysteresis', { ...GOOD, friction: 0.5 }, {}, false], ['hysteresis', { ...GOOD, friction: 0.4 }, {}, true],
    ['indication', { ...GOOD, scale: 0.988 }, {}, false], ['indication', { ...GOOD, scale: 1.009 }, {}, true],
    ['shared-equally', { ...GOOD, share: 0.48 }, {}, false],
    ['within-loads', GOOD, { F_v: '330 N' }, false], ['between', GOOD, { x_L: '105 mm' }, false],
    ['sure-enough', GOOD, { E: '200 ± 4 GPa' }, false],
  ] as const)('%s of %o with %o: %s', async (check, machine, settings, held) => {
    expect(holds(await verify(machine, settings), check)).toBe(held);
  });

  test('two loads make no line', async () => {
    const states = await solved(SETTINGS, withRows('loads', rowsOf(GOOD, [100, 310])));
    expect(states.symbol('W_v')?.status).not.toBe('value');
    expect(states.cell('loads')?.problems[0]?.what).toContain('asks for 3 rows');
  });

  test('at speed: half the swing holds no zero; a table left empty is in nobody’s way', async () => {
    const half = (load: number, station: 'L' | 'R'): number => reading(load, 0.5, station, 2);
    const sheet = withRows('at-speed', [[600, 310, half(308, 'L'), half(308, 'R')], [2800, 310, half(302, 'L'), half(302, 'R')]], withRows('loads', rowsOf(GOOD, LOADS)));
    const states = await solved({ ...SETTINGS, 'in-use': 'speed' }, sheet);
    expect(numberOf(states, 'r_low')).toBeCloseTo(302 / 308 - 1, 9);
    expect(numberOf(states, 'r_high')).toBeCloseTo(0, 9);
    expect(numberOf(states, 'c_v')).toBeCloseTo((1 + 302 / 308) / 2, 9);
    expect(holds(states, 'same-at-speed')).toBe(false);
    const empty = await solved(SETTINGS, withRows('at-speed', [], sheet));
    expect(numberOf(empty, 'c_v')).toBeCloseTo(1, 9);
    expect(holds(empty, 'same-at-speed')).toBeUndefined();
    expect(empty.cell('same-at-speed')?.problems ?? []).toEqual([]);
  });
});

describe('bending by misalignment', () => {
  const deg = (angle: number): number => (angle * Math.PI) / 180;

  /** What four gauges read: axial, bending that turns with the bar, bending that stands still in the room. */
  function turned({ axial, bar, at, room, from }: Readonly<Record<'axial' | 'bar' | 'at' | 'room' | 'from', number>>, clocks = [0, 90, 180, 270]): number[][] {
    return clocks.map((clock) => [clock, ...[0, 90, 180, 270].map((phi) => axial + bar * Math.cos(deg(phi - at)) + room * Math.cos(deg(clock - from)))]);
  }

  test('is found again, axial, in the bar and in the room, with both directions', async () => {
    const strain = fc.double({ min: 1, max: 200, noNaN: true });
    const angle = fc.double({ min: -180, max: 180, noNaN: true });
    await fc.assert(fc.asyncProperty(fc.record({ axial: fc.double({ min: -50, max: 50, noNaN: true }), bar: strain, at: angle, room: strain, from: angle }), async (field) => {
      const states = await solved({}, withRows('turn', turned(field)));
      expect(numberOf(states, 'e_x') * 1e6).toBeCloseTo(field.axial, 7);
      expect(numberOf(states, 'e_b') * 1e6).toBeCloseTo(field.bar, 7);
      expect(numberOf(states, 'e_s') * 1e6).toBeCloseTo(field.room, 7);
      expect(Math.cos(numberOf(states, 'phi_b') - deg(field.at))).toBeCloseTo(1, 9);
      expect(Math.cos(numberOf(states, 'phi_s') - deg(field.from))).toBeCloseTo(1, 9);
      expect(numberOf(states, 'o_m') * 1e6).toBeCloseTo(0, 7);
    }), { numRuns: 15, seed: 14, examples: [0, 90, 180, -90].map((at) => [{ axial: 0, bar: 8, at, room: 4, from: -at }]) as [{ axial: number; bar: number; at: number; room: number; from: number }][] });
  });

  test('shares, mean stress and verdict by hand', async () => {
    const field = { axial: 10, bar: 30, at: 45, room: 8, from: -90 };
    const states = await solved({ E: '200 ± 0 GPa', e_z: '0 ± 2 um/m' }, withRows('turn', turned(field)));
    expect(numberOf(states, 'sigma_m') / 1e6).toBeCloseTo(0.2 * 40, 9); // 200 GPa · 40 µm/m
    expect(numberOf(states, 'p_m') * numberOf(states, 'e_t') * 1e6).toBeCloseTo(40, 9);
    expect(numberOf(states, 'p_s') * numberOf(states, 'e_t') * 1e6).toBeCloseTo(8, 9);
    // E I κ: the strain of the bar under the load's own moment.
    expect(numberOf(states, 'e_t')).toBeCloseTo((numberOf(states, 'M_v') * 0.005) / (200e9 * (Math.PI / 64) * 0.01 ** 4), 12);
    expect(holds(states, 'aligned')).toBe(false);
    expect(holds(await solved({}, withRows('turn', turned({ ...field, bar: 15 }))), 'aligned')).toBe(true);
  });

  test('positions that are not all four, and pairs that do not agree, are told', async () => {
    const field = { axial: 0, bar: 20, at: 0, room: 0.1, from: 0 };
    expect(holds(await solved({}, withRows('turn', turned(field, [0, 90, 180, 180]))), 'spaced')).toBe(false);
    expect(holds(await solved({}, withRows('turn', turned(field, [0, 90, 270]))), 'spaced')).toBe(false);
    const drifted = turned(field).map(([clock = 0, first = 0, ...others]) => [clock, first + 20, ...others]);
    expect(holds(await solved({}, withRows('turn', drifted)), 'adds-up')).toBe(false);
  });
});

test('the example: no cell in error, every check holds, and comes back byte for byte', async () => {
  const document = parseSheet(text);
  expect(serialiseSheet(document)).toBe(text);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  for (const { id } of document.blocks) {
    expect(states.cell(id)?.problems ?? [], id).toEqual([]);
    expect(states.cell(id)?.warnings ?? [], id).toEqual([]);
    expect(states.cell(id)?.check?.holds ?? true, id).toBe(true);
  }
});
