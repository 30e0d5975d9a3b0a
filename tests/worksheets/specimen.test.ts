/** The specimen sheet held against published fits and worked examples (tests/tables/stress-concentration.json). */
import { describe, expect, it } from 'vitest';
import { createSheetGraph } from '../../src/graph/index.ts';
import { parseSheet, serialiseSheet } from '../../src/sheet/index.ts';
import table from '../tables/stress-concentration.json';
import { shipped } from '../shipped.ts';
import { holds, numberOf, solved } from './solved.ts';

const text = shipped('specimen');

function shape([D, d, r]: readonly number[]): Record<string, string> {
  return { D: `${D} mm`, d: `${d} mm`, r: `${r} mm` };
}

const SHAPE_OF = { waist: 'hourglass', fillet: 'gauge', groove: 'groove' } as const;

describe('stress concentration by published fits', () => {
  it.each(['fillet', 'groove'] as const)('%s', async (notch) => {
    for (const [index, dimensions] of table[notch].D_d_r_mm.entries()) {
      const states = await solved({ ...shape(dimensions), notch, shape: SHAPE_OF[notch] }, text);
      expect(numberOf(states, 'K_t') / (table[notch].K_t[index] ?? Number.NaN), String(dimensions)).toBeCloseTo(1, 9);
    }
  });

  it('a waist as a shallow groove', async () => {
    for (const [index, d] of table.waist.d_mm.entries()) {
      const states = await solved({ notch: 'waist', shape: 'hourglass', d: `${d} mm`, D: '12 mm', rho: `${table.waist.R_mm[index]} mm` }, text);
      expect(numberOf(states, 'K_t') / (table.waist.K_t[index] ?? Number.NaN)).toBeCloseTo(1, 9);
    }
  });

  it('agrees with a chart as well as a chart can be read', async () => {
    const states = await solved({ ...shape(table.chart.D_d_r_mm), notch: 'fillet' }, text);
    expect(Math.abs(numberOf(states, 'K_t') - table.chart.K_t)).toBeLessThan(table.chart.tolerance);
  });

  it.each([
    ['fillet', 0.1, 20], ['groove', 0.25, 50],
  ] as const)('%s: outside the range of the fit a check says so and there is no number', async (notch, low, high) => {
    // d = 10 mm and D = 15 mm: the depth is 2.5 mm.
    const at = async (depthOverRadius: number) => solved({ ...shape([15, 10, 2.5 / depthOverRadius]), notch, shape: SHAPE_OF[notch] }, text);
    for (const outside of [low * 0.99, high * 1.01]) {
      const states = await at(outside);
      expect(holds(states, 'fit-range')).toBe(false);
      expect(states.symbol('K_t')).toMatchObject({ status: 'problem', problem: { code: 'not-valid' } });
    }
    for (const inside of [low * 1.01, high * 0.99]) expect(holds(await at(inside), 'fit-range')).toBe(true);
  });

  it('a factor that belongs to another shape is none: an hourglass with a fillet left on was 1.743', async () => {
    for (const [notch, own] of Object.entries(SHAPE_OF)) {
      for (const one of Object.values(SHAPE_OF)) {
        const states = await solved({ d: '10 mm', D: '15 mm', r: '1 mm', rho: '60 mm', notch, shape: one }, text);
        expect(holds(states, 'factor-of-shape'), `${notch}, ${one}`).toBe(one === own);
        expect(states.symbol('K_t')?.status, `${notch}, ${one}`).toBe(one === own ? 'value' : 'problem');
      }
    }
  });

  it('none is 1, and a stated one stands, whatever the shape', async () => {
    expect(numberOf(await solved({ notch: 'none', D: '100 mm', r: '0.2 mm' }, text), 'K_t')).toBe(1);
    expect(numberOf(await solved({ notch: 'stated', K_t0: '2.35' }, text), 'K_t')).toBe(2.35);
  });
});

describe('notch sensitivity', () => {
  it('Neuber as in Shigley, example 6-9', async () => {
    const { S_ut_ksi, r_mm, K_t } = table.neuber;
    const states = await solved({ S_ut: `${S_ut_ksi} ksi`, r: `${r_mm} mm`, notch: 'stated', K_t0: String(K_t), sensitivity: 'neuber' }, text);
    expect(Math.abs(Math.sqrt(numberOf(states, 'a_N') * 1e3) - table.neuber.sqrt_a_mm)).toBeLessThan(table.neuber.sqrt_a_tolerance);
    expect(Math.abs(numberOf(states, 'K_f') - table.neuber.K_f)).toBeLessThan(table.neuber.K_f_tolerance);
    expect(numberOf(states, 'q') / table.neuber.q).toBeCloseTo(1, 9);
  });

  it('Peterson', async () => {
    for (const [index, S_ut] of table.peterson.S_ut_MPa.entries()) {
      const states = await solved({ S_ut: `${S_ut} MPa`, r: `${table.peterson.r_mm[index]} mm`, sensitivity: 'peterson' }, text);
      expect(numberOf(states, 'q') / (table.peterson.q[index] ?? Number.NaN)).toBeCloseTo(1, 9);
    }
  });

  it('outside the strengths of a fit a check says so', async () => {
    expect(holds(await solved({ sensitivity: 'peterson', S_ut: '440 MPa' }, text), 'sensitivity-range')).toBe(false);
    expect(holds(await solved({ sensitivity: 'neuber', S_ut: '300 MPa' }, text), 'sensitivity-range')).toBe(false);
    expect(holds(await solved({ sensitivity: 'full', S_ut: '300 MPa' }, text), 'sensitivity-range')).toBe(true);
  });
});

describe('the sheet', () => {
  it('has no cell in error as delivered and keeps its bytes', async () => {
    const document = parseSheet(text);
    expect(serialiseSheet(document)).toBe(text);
    const graph = createSheetGraph(document);
    const states = await graph.settled();
    graph.dispose();
    for (const { id } of document.blocks) expect(states.cell(id)?.problems ?? [], id).toEqual([]);
  });

  it('a fracture in the fillet is told apart, with its own diameter', async () => {
    // 1 mm radius, cylindrical part 20 mm long: 0.6 mm into the fillet the diameter is 10 + 2(1 - 0.8) = 10.4 mm.
    const states = await solved({ d: '10 mm', D: '15 mm', r: '1 mm', l_g: '20 mm', x_f: '10.6 mm' }, text);
    expect(numberOf(states, 'd_f') * 1e3).toBeCloseTo(10.4, 9);
    // The fillet is what is tested there: a fracture in it is one of the test; one in the middle of the cylinder is not, at 1/K_t of the stress.
    expect(holds(states, 'fracture-counts')).toBe(true);
    const middle = await solved({ d: '10 mm', D: '15 mm', r: '1 mm', l_g: '20 mm', x_f: '0 mm' }, text);
    expect(numberOf(middle, 'p_f') * numberOf(middle, 'K_t')).toBeCloseTo(1, 9);
    expect(holds(middle, 'fracture-counts')).toBe(false);
    // Where a smooth section is tested it is the other way round: (10/10.4)³ = 88.9 %.
    const smooth = { d: '10 mm', D: '15 mm', r: '1 mm', l_g: '20 mm', notch: 'none' };
    expect(holds(await solved({ ...smooth, x_f: '10.6 mm' }, text), 'fracture-counts')).toBe(false);
    expect(holds(await solved({ ...smooth, x_f: '4 mm' }, text), 'fracture-counts')).toBe(true);
  });
});
