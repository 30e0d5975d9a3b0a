/** The slips of the standard worksheets: what each does to the stress, worked by hand. */
import { describe, expect, it } from 'vitest';
import { createSheetGraph, slipsOn, statesWithSlips, type SheetStates } from '../../src/graph/index.ts';
import { serialiseSheet, slipsOffered, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { numberOf, uncertaintyOf, withTexts } from './solved.ts';

interface Settled {
  readonly document: SheetDocument;
  readonly states: SheetStates;
}

async function settled(sheet: string, settings: Readonly<Record<string, string>> = {}): Promise<Settled> {
  const document = withTexts(shipped(sheet), settings);
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return { document, states };
}

function ratio({ document, states }: Settled, slip: string, symbol: string): number {
  return numberOf(statesWithSlips(document, states, [slip]), symbol) / numberOf(states, symbol);
}

/** Spans that close and are alike on both sides, so that the ratios of the moments are those of whole spans. */
const SYMMETRIC = { L: '400 mm', s_1: '100 mm', s_2: '200 mm', s_3: '100 mm', x_s: '200 mm', d: '7.5 mm', K_t: '2', D: '12 mm', F: '310 N', F_0: '10 N' };

describe('slips in rotating bending', () => {
  // Statics and section formulas of any handbook: I = πd⁴/64, c = d/2, σ = M c/I, M = F a/2; the ratios are worked by hand.
  it.each([
    ['I.radius', 'sigma_a', 16], // (d/2)⁴ under πd⁴/64
    ['I.diameter', 'sigma_a', 1 / 16], // d for r in πr⁴/4
    ['I.polar', 'sigma_a', 1 / 2], // J = 2 I
    ['I.square', 'sigma_a', (12 * Math.PI) / 64], // d⁴/12 for πd⁴/64
    ['I.grip', 'sigma_a', (7.5 / 12) ** 4],
    ['c.diameter', 'sigma_a', 2],
    ['d.radius', 'sigma_a', 8], // 32 M/(π d³)
    ['d.grip', 'sigma_a', (7.5 / 12) ** 3],
    ['d.inches', 'sigma_a', 25.4 ** 3],
    ['M_s.total', 'sigma_a', 2], // W a for W a/2
    ['M_s.whole-span', 'sigma_a', 4], // L/a
    ['M_s.half-span', 'sigma_a', 2], // L/(2a)
    ['M_s.between', 'sigma_a', 2], // s_2/a
    ['M_s.inner-load', 'sigma_a', 2], // R_A L/2 for R_A a
    // R_A = F (s_2 + 2 s_3)/L does not read s_1; M = R_A x − F (x − s_1) = 200 F − 110 F for 100 F.
    ['s_1.edge', 'M_s', 0.9],
    ['sigma_a.range', 'sigma_a', 2],
    ['sigma_a.K_t', 'sigma_a', 2],
    ['F_0.forgotten', 'W', 310 / 300],
    ['F.pounds', 'W', (310 / 4.4482216152605 - 10) / 300],
    ['F.kilograms', 'W', (310 / 9.80665 - 10) / 300],
    ['n.per-second', 't_f', 1 / 60],
    ['t_f.hours', 't_f', 60],
    ['N_f.reversals', 'N_f', 2],
    ['S_ut.ksi', 'S_ut', 1 / 6.894757293168361],
  ])('%s makes %s %d times', async (slip, symbol, expected) => {
    // A long line, so that no slip leaves its range.
    const sheet = await settled('rotating-bending', { ...SYMMETRIC, line: 'supplied' });
    expect(ratio(sheet, slip, symbol) / expected).toBeCloseTo(1, 12);
  });

  it('leaves out the hanger where the load comes from the weights, and only there', async () => {
    const weights = await settled('rotating-bending', { ...SYMMETRIC, load: 'weights', F_h: '14 N' });
    expect(ratio(weights, 'F_h.left-out', 'sigma_a')).toBeCloseTo(310 / 324, 12);
    expect(ratio(weights, 'F_h.twice', 'sigma_a')).toBeCloseTo(338 / 324, 12);
    const masses = await settled('rotating-bending', { ...SYMMETRIC, load: 'masses', m_W: '30 kg', g: '9.81 m/s^2', F_h: '14 N' });
    expect(ratio(masses, 'F_h.left-out', 'sigma_a')).toBeCloseTo(294.3 / 308.3, 12);
    expect(ratio(masses, 'm_W.no-gravity', 'sigma_a')).toBeCloseTo(44 / 308.3, 12);
    expect(ratio(masses, 'm_W.pounds', 'sigma_a')).toBeCloseTo((294.3 * 0.45359237 + 14) / 308.3, 12);
    const indicated = await settled('rotating-bending', SYMMETRIC);
    expect(ratio(indicated, 'F_h.left-out', 'sigma_a')).toBe(1);
  });

  it('carries the uncertainty with it: a slip that only multiplies keeps the relative uncertainty', async () => {
    const sheet = await settled('rotating-bending', { inertia: 'left-out' });
    const wrong = statesWithSlips(sheet.document, sheet.states, ['d.radius']);
    expect(uncertaintyOf(wrong, 'd') / numberOf(wrong, 'd')).toBeCloseTo(uncertaintyOf(sheet.states, 'd') / numberOf(sheet.states, 'd'), 14);
    expect(uncertaintyOf(wrong, 'sigma_a') / uncertaintyOf(sheet.states, 'sigma_a')).toBeCloseTo(8, 10);
  });

  it('brings the life down by the power of the line', async () => {
    const sheet = await settled('rotating-bending', { ...SYMMETRIC, line: 'supplied', B_0: '-10' });
    expect(ratio(sheet, 'c.diameter', 'N_f') * 2 ** 10).toBeCloseTo(1, 10);
    // K_f twice: with K_t = 2 and q = 1 it is 2, so 2⁻¹⁰ once more.
    expect(ratio(sheet, 'K_f.left-out', 'N_f') / 2 ** 10).toBeCloseTo(1, 10);
  });
});

describe('slips in alternating bending', () => {
  it.each([
    ['delta_a.stroke', 'sigma_a', 2],
    ['delta_a.halved', 'sigma_a', 1 / 2],
    ['c.height', 'sigma_a', 2],
    ['sigma_a.tapered', 'sigma_a', 2 / 3],
    ['sigma_a.guided', 'sigma_a', 2],
    ['sigma_a.centre', 'sigma_a', 4],
    ['sigma_a.fixed', 'sigma_a', 8],
    ['I.edge', 'M_a', 4], // bt³/3 for bt³/12
    ['I.edge', 'sigma_a', 1], // driven by displacement, I drops out of M c/I
    ['L_b.bolt', 'sigma_a', (80 / 84) ** 2],
    ['t.width', 'sigma_a', 20 / 3],
    ['E.aluminium', 'sigma_a', 70 / 205],
  ])('%s makes %s %d times', async (slip, symbol, expected) => {
    // σ_a = 3 E t δ/(2 L²) of a uniform cantilever driven at its end (beam theory, any handbook); ratios by hand.
    const sheet = await settled('alternating-bending', { L_b: '80 mm', b: '20 mm', t: '3 mm', k_m: '0 N/mm' });
    expect(ratio(sheet, slip, symbol) / expected).toBeCloseTo(1, 12);
  });
});

describe('slips of the lever and the specimen', () => {
  it('forgets the lever, the beam, the hanger', async () => {
    const sheet = await settled('loading-lever', { weighed: 'newtons', P_1: '40 N', x_1: '300 mm', P_2: '0 N', P_3: '0 N', h: '60 mm', P_b: '6 N', g_b: '100 mm', P_c: '0 N', P_h: '14 N' });
    // Moments about the fulcrum: F = (40·300 + 6·100)/60 = 210 N, W = 224 N.
    expect(numberOf(sheet.states, 'W')).toBeCloseTo(224, 9);
    expect(ratio(sheet, 'F.no-lever', 'W') * 224).toBeCloseTo(54, 9);
    expect(ratio(sheet, 'M_b.left-out', 'W') * 224).toBeCloseTo(214, 9);
    expect(ratio(sheet, 'W.left-out', 'W') * 224).toBeCloseTo(210, 9);
    expect(ratio(sheet, 'x_1.from-hanger', 'W') * 224).toBeCloseTo(184, 9); // 40·240/60 + 10 + 14
    expect(ratio(sheet, 'W.twice', 'W') * 224).toBeCloseTo(238, 9);
    expect(ratio(sheet, 'P_1.kilograms', 'W') * 224).toBeCloseTo(200 / 9.80665 + 24, 9);
    expect(ratio(sheet, 'sigma_a.radius', 'sigma_a')).toBeCloseTo(8, 12);
    expect(ratio(sheet, 'sigma_a.diameter', 'sigma_a')).toBeCloseTo(1 / 8, 12);
  });

  it('masses: g left out, put in twice, pounds for kilograms', async () => {
    const none = '0 kg';
    const sheet = await settled('loading-lever', { m_1: '4 kg', x_1: '300 mm', m_2: none, m_3: none, h: '60 mm', m_b: none, m_c: none, m_h: none, g: '9.81 m/s^2' });
    expect(numberOf(sheet.states, 'W')).toBeCloseTo(4 * 9.81 * 5, 9);
    expect(ratio(sheet, 'm_1.no-gravity', 'W')).toBeCloseTo(1 / 9.81, 12);
    expect(ratio(sheet, 'm_1.twice-g', 'W')).toBeCloseTo(9.81, 12);
    expect(ratio(sheet, 'm_1.pounds', 'W')).toBeCloseTo(0.45359237, 12);
  });

  it('takes K_t for K_f, and both', async () => {
    const sheet = await settled('specimen');
    const [K_t, K_f] = [numberOf(sheet.states, 'K_t'), numberOf(sheet.states, 'K_f')];
    expect(ratio(sheet, 'K_f.K_t', 'sigma_n')).toBeCloseTo(K_t / K_f, 12);
    expect(ratio(sheet, 'K_f.left-out', 'sigma_n')).toBeCloseTo(1 / K_f, 12);
    expect(ratio(sheet, 'sigma_n.K_t-too', 'sigma_n')).toBeCloseTo(K_t, 12);
  });
});

describe('slips in the sheet for the lecture', () => {
  it.each([
    ['d.radius', 'sigma_a', 8],
    ['W.no-hanger', 'sigma_a', 286 / 300],
    ['n.per-second', 't_f', 1 / 60],
    ['M_s.total', 'sigma_a', 2],
    ['M_s.whole-span', 'sigma_a', 4],
    ['M_s.between', 'sigma_a', 2],
    ['I.radius', 'sigma_a', 16],
    ['c.diameter', 'N_f', 2 ** -10], // B = −10
    ['sigma_a.range', 'N_f', 2 ** -10],
  ])('%s moves %s by %d', async (slip, symbol, expected) => {
    expect(ratio(await settled('span-errors'), slip, symbol) / expected).toBeCloseTo(1, 12);
  });
});

describe.each(['rotating-bending', 'alternating-bending', 'loading-lever', 'specimen', 'span-errors'])('%s', (name) => {
  it('is delivered with every slip off, each sound, with its words and its source, and comes back byte for byte', async () => {
    const { document, states } = await settled(name);
    expect(slipsOn(document)).toEqual({ on: [], problems: [] });
    const offered = slipsOffered(document);
    expect(offered.length).toBeGreaterThan(5);
    for (const { id, cell, slip } of offered) {
      expect(slip.label, id).not.toBe(slip.key);
      expect(slip.source, id).toMatch(/./);
      expect(states.cell(cell.id)?.warnings.filter(({ key }) => key === 'slips'), id).toEqual([]);
      const there = statesWithSlips(document, states, [id]);
      expect(there.cell(cell.id)?.problems, id).toEqual(states.cell(cell.id)?.problems);
    }
    expect(serialiseSheet(document)).toBe(shipped(name));
  });
});
