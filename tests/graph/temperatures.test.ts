import { describe, expect, it } from 'vitest';
import { contextOf, fenced, given, step } from '../report/sheet-at.ts';

async function asked(formula: string, unit: string, T = '20 °C'): Promise<readonly string[]> {
  const { states } = await contextOf(given('T', T, '°C') + given('T_0', '15 °C', '°C') + given('alpha', '11.5e-6 1/K', '1/K') + step('y', formula, unit, 'id: y'));
  return (states.cell('y')?.warnings ?? []).map(({ code }) => code);
}

describe('temperatures on a scale with a zero of its own', () => {
  it.each([
    ['alpha*T', '1'], ['alpha*-T', '1'], ['1 + T*alpha', '1'], ['alpha*abs(T)', '1'], ['T/T_0', '1'], ['T^2', 'K^2'], ['alpha*mean(T, T_0)', '1'],
  ])('%s is asked about', async (formula, unit) => {
    expect(await asked(formula, unit)).toContain('temperature-in-product');
  });

  it.each([
    ['alpha*(T - T_0)', '1'], ['alpha*(T - 293.15*unit(K))', '1'], ['T/unit(K)', '1'], ['(T - 273.15*unit(K))/unit(K)', '1'], ['T - T_0', 'K'], ['T - 5*unit(K)', '°C'], ['mean(T, T_0)', '°C'],
  ])('%s is not', async (formula, unit) => {
    expect(await asked(formula, unit)).toEqual([]);
  });

  it('is answered by typing it in K', async () => {
    expect(await asked('alpha*T', '1', '20 K')).toEqual([]);
  });

  it('a difference shown in °C is asked about', async () => {
    expect(await asked('T - T_0', '°C')).toEqual(['temperature-difference']);
  });

  it('in the condition of a check as well, with the number that the product would take', async () => {
    const { states } = await contextOf(given('T', '20 °C', '°C') + given('alpha', '11.5e-6 1/K', '1/K') + fenced('check', 'id: c', 'condition: "alpha*T < 1"', 'holds: yes', 'otherwise: no'));
    expect(states.cell('c')?.warnings.map(({ what }) => what)).toEqual(['T is read in °C, and a product or quotient takes it from absolute zero: 20 °C as 293.15 K. Is that meant?']);
  });
});
