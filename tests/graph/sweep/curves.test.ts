/** Each place of a sweep against the sheet evaluated anew with that value entered: another document, plan and graph. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inputUncertainty, standardUncertainty } from '../../../src/core/estimate/index.ts';
import { fromSI } from '../../../src/core/units/index.ts';
import { sweepCurves, sweepMap, unitOfGiven, type SweptCurve, type SymbolState } from '../../../src/graph/index.ts';
import { parseSheet } from '../../../src/sheet/index.ts';
import { fenced, given, step } from '../../report/sheet-at.ts';
import { evaluated, givenNamed, valueOf, worksheet } from './sheets.ts';

const BENDING = worksheet('rotating-bending');

/** The value with its present uncertainty stated, since formulas may read it. */
async function statedText(symbol: string, value: number): Promise<string> {
  const { document, states } = await evaluated(BENDING);
  const unit = unitOfGiven(givenNamed(document, symbol), states);
  const state = states.symbol(symbol);
  const input = state?.status === 'value' ? state.estimate.sensitivities.get(symbol)?.input : undefined;
  if (unit === undefined || input === undefined) throw new Error(`${symbol} has no value`);
  const name = unit.name === '1' ? '' : ` ${unit.name}`;
  return `${fromSI(value, unit)} ± ${inputUncertainty(input) / unit.factor}${name}`;
}

/** In words, where a place of a curve is not what the sheet says; both are exact but for the last digits of the text typed. */
function difference(curve: SweptCurve, place: number, x: number, state: SymbolState | undefined): string[] {
  const [value = Number.NaN, u = Number.NaN] = [curve.values[place], curve.uncertainties[place]];
  if (state?.status === 'value') {
    const now = standardUncertainty(state.estimate);
    const isSame = Math.abs(value / state.estimate.value - 1) < 1e-9 && Math.abs(u - now) <= 1e-9 * now;
    return isSame ? [] : [`${curve.symbol}: ${value} ± ${u}, not ${state.estimate.value} ± ${now}`];
  }
  const why = curve.gaps.find((gap) => gap.from <= x && x <= gap.to)?.why;
  const isSame = Number.isNaN(value) && why?.status === state?.status && (why?.status !== 'range' || state?.status !== 'range' || why.word === state.word);
  return isSame ? [] : [`${curve.symbol}: ${value}, ${why?.status}, not ${state?.status}`];
}

describe('a result against an input', () => {
  test.each<[string, readonly string[], number, number]>([
    ['d', ['sigma_a', 'S_e', 'N_f', 'N_lo', 't_hi'], 0.004, 0.012],
    ['F', ['R_A', 'N_f', 'U_1'], 200, 500],
    ['x_s', ['M_s', 'V_s', 'N_f'], 0, 0.45],
    ['S_ut', ['A', 'B', 'k_a', 't_f'], 300e6, 1500e6],
    ['s_1', ['r', 's_2c', 'sigma_a'], 0.08, 0.12],
  ])('against %s: value, uncertainty and reason at random places', { timeout: 120_000 }, async (symbol, of, from, to) => {
    // Stated at the start as well: what is typed comes from no instrument that other givens were measured with.
    const present = (await evaluated(BENDING)).states.symbol(symbol);
    const { document, states } = await evaluated(BENDING, { [symbol]: await statedText(symbol, present?.status === 'value' ? present.estimate.value : Number.NaN) });
    const against = givenNamed(document, symbol);
    await fc.assert(fc.asyncProperty(fc.double({ min: 0.001, max: 0.999, noNaN: true }), async (share) => {
      const x = from + share * (to - from);
      const found = sweepCurves(document, states, { of, against, places: [from, x, to] });
      const place = found.xs.indexOf(x);
      const anew = await evaluated(BENDING, { [symbol]: await statedText(symbol, x) });
      expect(found.curves.flatMap((curve) => difference(curve, place, x, anew.states.symbol(curve.symbol)))).toEqual([]);
    }), { numRuns: 8 });
  });

  test('the life begins and ends where the line does, and the check of yield turns where the stress is S_y', async () => {
    const { document, states } = await evaluated(BENDING);
    const places = Array.from({ length: 31 }, (_, i) => 0.006 + i * 1e-4);
    const { curves, turns } = sweepCurves(document, states, { of: ['N_f'], against: givenNamed(document, 'd'), places });
    // σ = 32 M/(π d³): the end at f_u·S_ut and the turn at S_y, from the moment and the strengths that the sheet states.
    const [moment, strength, yielding, fraction] = ['M_s', 'S_ut', 'S_y', 'f_u'].map((symbol) => valueOf(states, symbol));
    const diameterFor = (stress: number): number => Math.cbrt((32 * (moment ?? 0)) / (Math.PI * stress));
    const [lower, upper] = curves[0]?.gaps ?? [];
    expect(lower?.why).toMatchObject({ word: 'low cycle' });
    expect((lower?.to ?? 0) / diameterFor((fraction ?? 0) * (strength ?? 0))).toBeCloseTo(1, 10);
    expect(upper?.why).toMatchObject({ word: 'below limit' });
    expect(turns).toEqual([{ cellId: 'elastic', at: expect.closeTo(diameterFor(yielding ?? 0), 12), holdsAbove: true }]);
  });

  test('a kink is drawn where it is, and what a given cannot be is a gap', async () => {
    const document = parseSheet(fenced('given', 'symbol: x', 'value: 0.5', 'unit: "1"', 'possible: ">= 0"') + step('y', 'abs(x - 1/3)', '1'));
    const { states } = await evaluated(document);
    const { xs, curves } = sweepCurves(document, states, { of: ['y'], against: givenNamed(document, 'x'), places: [-1, -0.5, 0.1, 0.3, 0.5, 0.7, 1] });
    const least = Math.min(...[...(curves[0]?.values ?? [])].filter((value) => !Number.isNaN(value)));
    expect(least).toBeLessThan(0.01);
    expect(curves[0]?.gaps).toEqual([{ from: -1, to: expect.closeTo(0, 9), why: expect.objectContaining({ status: 'problem' }) }]);
    expect([...xs]).toEqual([...xs].toSorted((a, b) => a - b));
  });
});

describe('a result against two inputs', () => {
  test('along the chain and by the nodes of the sheet: the closed form, and a gap with its reason', async () => {
    const base = given('a', '2 mm', 'mm', 'instrument: steel rule, 0.5 mm') + given('b', '3 mm', 'mm');
    const ranged = (formula: string): string => base + step('y', formula, 'mm^2', 'ranges:', '  beyond data: a > 3*unit(mm)');
    for (const [formula, columns] of [['a^2 + b^2', 121], ['a^2 + b^2 + 0*u(a)*b', 25]] as const) {
      const document = parseSheet(ranged(formula));
      const { states } = await evaluated(document);
      const map = sweepMap(document, states, { of: 'y', against: [givenNamed(document, 'a'), givenNamed(document, 'b')], from: [1e-3, -2e-3], to: [4e-3, 5e-3] });
      expect(map.columns).toBe(columns);
      const wrong = [...map.values].filter((value, i) => {
        const a = 1e-3 + ((i % map.columns) / (map.columns - 1)) * 3e-3;
        const b = -2e-3 + (Math.floor(i / map.columns) / (map.rows - 1)) * 7e-3;
        if (Math.abs(a / 3e-3 - 1) < 1e-12) return false;
        return a > 3e-3 ? !Number.isNaN(value) : !(Math.abs(value - a * a - b * b) < 1e-15);
      });
      expect(wrong).toEqual([]);
      expect(map.reasons).toMatchObject([{ status: 'range', word: 'beyond data' }]);
    }
  });
});
