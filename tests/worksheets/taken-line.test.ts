/**
 * The class's line in the prediction sheet: from the invented tests of the S-N sheet to the life, its three factors and
 * the interval for one specimen.
 */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/core/numeric/index.ts';
import { createSheetGraph, sampleSheet, linesOfSheet, type SheetStates } from '../../src/graph/index.ts';
import { applyEdit, enterText, parseSheet, type SheetDocument } from '../../src/sheet/index.ts';
import { shipped } from '../shipped.ts';
import { holds, numberOf, sheetText, uncertaintyOf } from './solved.ts';

const alternatingText = shipped('alternating-bending');

function entered(document: SheetDocument, settings: Readonly<Record<string, string>>): SheetDocument {
  return Object.entries(settings).reduce((sheet, [target, text]) => {
    const result = enterText(sheet, target, text);
    if (!result.ok) throw new Error(result.problem.what);
    return result.value;
  }, document);
}

/** The prediction sheet with the class's line, found by this method, and these settings. */
async function predicting(method: string, settings: Readonly<Record<string, string>>, text = sheetText): Promise<SheetDocument> {
  const classSheet = entered(parseSheet(shipped('sn-line')), { method });
  const [line] = await linesOfSheet(classSheet, 'The S-N line of the class', '2026-11-20');
  if (line?.snapshot === undefined) throw new Error(line?.trouble ?? 'no line');
  const taken = applyEdit(parseSheet(text), { do: 'set entries', cellId: 'class-line', key: 'snapshot', entries: line.snapshot });
  if (!taken.ok) throw new Error(taken.problem.what);
  return entered(taken.value, { line: 'fitted', ...settings });
}

async function settled(document: SheetDocument): Promise<SheetStates> {
  const graph = createSheetGraph(document);
  const states = await graph.settled();
  graph.dispose();
  return states;
}

/** 150 N at each of two load points, 100 mm from the supports, on 7.5 mm: M = 15 N·m, σ = 32 M/(π d³) = 362.17 MPa. */
const EXACT = {
  L: '400 ± 0 mm', s_1: '100 ± 0 mm', s_2: '200 ± 0 mm', s_3: '100 ± 0 mm', x_s: '200 ± 0 mm', d: '7.5 ± 0 mm', F: '300 ± 0 N', F_0: '0 ± 0 N', inertia: 'left-out',
};

/** How far from a value, as a part of it. */
const away = (got: number, wanted: number): number => Math.abs(got / wanted - 1);

describe('a predicted life with the class’s line', () => {
  it('has the parameters’ share √(gᵀ V g), and the interval of regression for exact inputs (least squares)', async () => {
    // Computed with numpy 2.4 (lstsq, inverse of XᵀX) and scipy 1.17 (t.ppf) from the table of worksheets/sn-line.md, 19 fractures, at
    // σ = 362.1659149468908 MPa: half-width t·√(s² + gᵀVg), the limits of one more observation (Montgomery and Runger, Applied Statistics
    // and Probability for Engineers, 11-6: from memory; ASTM E739 has the same normal theory).
    const states = await settled(await predicting('least-squares', EXACT));
    expect(away(numberOf(states, 'lg_N'), 5.8196047167702645)).toBeLessThan(1e-11);
    expect(away(numberOf(states, 'u_l'), 0.043839424446392994)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 's'), 0.18582542531455049)).toBeLessThan(1e-11);
    expect(away(numberOf(states, 'k_95'), 2.1098155778333156)).toBeLessThan(1e-11);
    expect(numberOf(states, 'u_m')).toBe(0);
    expect(away(numberOf(states, 'U_1'), 0.4028200101658442)).toBeLessThan(1e-10);
    expect(away(numberOf(states, 'N_lo'), 261086.6745005629)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'N_hi'), 1668878.5277188215)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'k_s'), 10 ** (2.1098155778333156 * 0.18582542531455049))).toBeLessThan(1e-10);
    expect(away(numberOf(states, 'k_l'), 10 ** (2.1098155778333156 * 0.043839424446392994))).toBeLessThan(1e-9);
  });

  it('has the parameters’ share √(gᵀ V g) with runouts (maximum likelihood)', async () => {
    // Computed with mpmath (30 digits: Newton on the censored log likelihood, inverse of its Hessian) from the same table.
    const states = await settled(await predicting('maximum-likelihood', EXACT));
    expect(away(numberOf(states, 'lg_N'), 5.883857255680122)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'u_l'), 0.04458584288384748)).toBeLessThan(1e-6);
    expect(away(numberOf(states, 's'), 0.2071259672112516)).toBeLessThan(1e-8);
    // 17 = 19 − 2 degrees of freedom: 2.1098 in any printed table; the enlargement √(19/17).
    expect(away(numberOf(states, 'k_95'), 2.1098155778333156 * Math.sqrt(19 / 17))).toBeLessThan(1e-10);
  });

  it('tells the measurements from the line: u² = (B u(σ)/(σ ln 10))² + gᵀVg', async () => {
    const document = await predicting('least-squares', { ...EXACT, d: '7.5 ± 0.02 mm', F: '300 ± 3 N' });
    const states = await settled(document);
    const relative = Math.hypot(3 * (0.02 / 7.5), 3 / 300);
    expect(away(numberOf(states, 'u_m'), (10.771884751 * relative) / Math.LN10)).toBeLessThan(1e-8);
    expect(away(numberOf(states, 'u_l'), 0.043839424446392994)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'u_i'), Math.hypot(numberOf(states, 'u_m'), numberOf(states, 'u_l')))).toBeLessThan(1e-12);
    expect(away(uncertaintyOf(states, 'N_f') / numberOf(states, 'N_f'), Math.LN10 * numberOf(states, 'u_i'))).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'k_m'), 10 ** (1.96 * numberOf(states, 'u_m')))).toBeLessThan(1e-12);
    expect(away(numberOf(states, 'U_1'), Math.hypot(1.96 * numberOf(states, 'u_m'), 2.1098155778333156 * Math.hypot(0.043839424446392994, 0.18582542531455049)))).toBeLessThan(1e-9);
  });

  it('is drawn with A and B going together: the draws scatter as the first order says', async () => {
    const graph = createSheetGraph(await predicting('maximum-likelihood', EXACT));
    const states = await graph.settled();
    const samples = sampleSheet(graph.compiled(), states, createRandom(20261120), 20_000).get('lg_N');
    graph.dispose();
    if (samples === undefined || typeof samples === 'number') throw new Error('no draws');
    const mean = samples.reduce((sum, value) => sum + value, 0) / samples.length;
    const deviation = Math.sqrt(samples.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (samples.length - 1));
    // Four standard errors of a standard deviation from 20 000 normal samples; A alone scatters forty times as much.
    expect(away(deviation, 0.04458584288384748)).toBeLessThan(4 / Math.sqrt(2 * 20_000));
  });

  it('has no life beyond the tested lives, on either side, nor without stress', async () => {
    const lives = async (settings: Readonly<Record<string, string>>) => (await settled(await predicting('least-squares', { ...EXACT, ...settings }))).symbol('N_f');
    expect(await lives({ F: '200 ± 0 N' })).toMatchObject({ status: 'range', word: 'beyond data' });
    expect(await lives({ F: '450 ± 0 N' })).toMatchObject({ status: 'range', word: 'beyond data' });
    expect(await lives({ F: '320 ± 0 N' })).toMatchObject({ status: 'value' });
    const unloaded = await settled(await predicting('least-squares', { ...EXACT, x_s: '0 ± 0 mm' }));
    expect(unloaded.symbol('N_f')).toMatchObject({ status: 'range', word: 'beyond data' });
    for (const block of parseSheet(sheetText).blocks) expect(unloaded.cell(block.id)?.problems ?? [], block.id).toEqual([]);
  });

  it('leaves the estimated and the supplied line as they were', async () => {
    const estimated = await settled(await predicting('least-squares', { line: 'estimated' }));
    expect(away(numberOf(estimated, 'U_1'), 1.96 * Math.hypot(numberOf(estimated, 'u_i'), numberOf(estimated, 's')))).toBeLessThan(1e-12);
    // A and B each with an uncertainty of its own: u_l² = u²(A) + (x u(B))², x = log10 362.17.
    const supplied = await settled(await predicting('least-squares', { ...EXACT, d: '7.5 ± 0.02 mm', line: 'supplied', A_0: '31.2 ± 0.05', B_0: '-10 ± 0.02' }));
    expect(away(numberOf(supplied, 'u_l'), Math.hypot(0.05, 0.02 * Math.log10(362.1659149468908)))).toBeLessThan(1e-9);
    expect(away(numberOf(supplied, 'u_m'), (10 * 3 * (0.02 / 7.5)) / Math.LN10)).toBeLessThan(1e-9);
    expect(away(numberOf(supplied, 'k_s'), 10 ** (1.96 * 0.2))).toBeLessThan(1e-12);
  });
});

describe('a predicted life with the class’s line, by a set stroke', () => {
  /** 3 E t δ/(2 L²) = 362.1659149468908 MPa, the stress of the checks above: δ = 362.16… · 2 · 80²/(3 · 200 000 · 3) mm. */
  const stroke = (362.1659149468908 * 2 * 80 ** 2) / (3 * 200_000 * 3);
  const exact = {
    datum: 'zeroed', z_1: `${-stroke} ± 0 mm`, z_2: `${stroke} ± 0 mm`, L_b: '80 ± 0 mm', t: '3 ± 0 mm', E: '200 ± 0 GPa', mean_stress: 'none',
  };

  it('has the same life, parameters’ share and interval at the same stress', async () => {
    const states = await settled(await predicting('least-squares', exact, alternatingText));
    expect(away(numberOf(states, 'lg_N'), 5.8196047167702645)).toBeLessThan(1e-11);
    expect(away(numberOf(states, 'u_l'), 0.043839424446392994)).toBeLessThan(1e-9);
    expect(numberOf(states, 'u_m')).toBeLessThan(1e-12);
    expect(away(numberOf(states, 'N_lo'), 261086.6745005629)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'N_hi'), 1668878.5277188215)).toBeLessThan(1e-9);
    expect(away(numberOf(states, 'k_s'), 10 ** (2.1098155778333156 * 0.18582542531455049))).toBeLessThan(1e-10);
    // The shortest life tested, 52 073 cycles, by the same fit: 5.8196 + 10.7719·log10(362.17/S) = log10 52 073.
    expect(away(numberOf(states, 'S_top'), 362.1659149468908e6 * 10 ** ((5.8196047167702645 - Math.log10(52_073)) / 10.771884751))).toBeLessThan(1e-8);
    for (const block of parseSheet(alternatingText).blocks) expect(states.cell(block.id)?.problems ?? [], block.id).toEqual([]);
  });

  it('tells the measurements from the line: the length counts twice', async () => {
    const states = await settled(await predicting('least-squares', { ...exact, L_b: '80 ± 0.4 mm', t: '3 ± 0.03 mm' }, alternatingText));
    expect(away(numberOf(states, 'u_m'), (10.771884751 * Math.hypot(2 * (0.4 / 80), 0.03 / 3)) / Math.LN10)).toBeLessThan(1e-8);
    expect(away(numberOf(states, 'u_l'), 0.043839424446392994)).toBeLessThan(1e-9);
    const byStrain = await settled(await predicting('least-squares', { ...exact, L_b: '80 ± 0.4 mm', life_by: 'strain' }, alternatingText));
    expect(numberOf(byStrain, 'u_l')).toBe(0);
    expect(numberOf(byStrain, 'u_m')).toBe(numberOf(byStrain, 'u_i'));
  });

  it('has no life beyond the tested lives, and says that a block lies there', async () => {
    const gentle = await settled(await predicting('least-squares', { ...exact, z_1: '-1.5 ± 0 mm', z_2: '1.5 ± 0 mm' }, alternatingText));
    expect(gentle.symbol('N_f')).toMatchObject({ status: 'range', word: 'beyond data' });
    const usual = await settled(await predicting('least-squares', exact, alternatingText));
    expect(holds(usual, 'blocks-on-line')).toBe(true);
    const short = alternatingText.replace('1,5.20,8000', '1,8.20,8000');
    expect(holds(await settled(await predicting('least-squares', exact, short)), 'blocks-on-line')).toBe(false);
  });
});
