import { describe, expect, it } from 'vitest';
import { budget, correlation, coverageInterval, standardUncertainty, type Estimate } from '../../src/core/estimate/index.ts';
import { presentBudget, type PresentContext } from '../../src/report/index.ts';
import { example } from '../core/estimate/table.ts';
import { contextOf, fenced, given, step } from './sheet-at.ts';

// Worked examples of JCGM 100:2008 typed into a sheet; their sources stand in tests/tables/uncertainty.json.

function estimateOf(symbol: string, { states }: PresentContext): Estimate {
  const state = states.symbol(symbol);
  if (state?.status !== 'value') throw new Error(`${symbol} has no value`);
  return state.estimate;
}

/** So many readings with a mean, whose standard uncertainty s/√n is u: half of them above, half below. */
function readings(symbol: string, mean: number, u: number, count: number, unit: string): string {
  const off = u * Math.sqrt(count % 2 === 0 ? count - 1 : count);
  const signs = Array.from({ length: count }, (_, i) => (count % 2 === 1 && i === 0 ? 0 : i % 2 === 0 ? 1 : -1));
  const texts = signs.map((sign) => (mean + sign * off).toPrecision(15)).join(', ');
  return fenced('given', `symbol: ${symbol}`, `readings: "${texts} ${unit === '1' ? '' : unit}"`, `unit: "${unit}"`, 'possible: any');
}

describe('end gauge (JCGM 100:2008, H.1)', () => {
  const of = example('unc-gum-h1');
  const [u1 = 0, u2 = 0, u3 = 0] = of.numbers('u_d_parts').map((u) => u / 1000);
  const [n1 = 0, n2 = 0, n3 = 0] = of.numbers('dof_d_parts').map((dof) => dof + 1);
  // Lengths in µm. The guide states degrees of freedom; here each u is that of one reading more.
  const text = readings('l_s', of.number('ls') / 1000, of.number('u_ls') / 1000, of.number('dof_ls') + 1, 'um')
    + readings('d_m', of.number('d') / 1000, u1, n1, 'um') + readings('d_1', 0, u2, n2, 'um') + readings('d_2', 0, u3, n3, 'um')
    + readings('delta_alpha', 0, of.number('da_halfwidth') / Math.sqrt(3), of.number('dof_da') + 1, 'K^-1')
    + readings('delta_theta', 0, of.number('dtheta_halfwidth') / Math.sqrt(3), of.number('dof_dtheta') + 1, 'K')
    + given('alpha_s', `${of.number('as')} ± ${of.number('as_halfwidth')} K^-1 limit`, 'K^-1')
    + given('theta', `${of.number('theta')} ± ${of.number('u_theta')} K`, 'K')
    + step('l', 'l_s + d_m + d_1 + d_2 - l_s*(delta_alpha*theta + alpha_s*delta_theta)', 'um');

  it('has the published contributions, effective degrees of freedom and expanded uncertainty', async () => {
    const context = await contextOf(text);
    const length = estimateOf('l', context);
    const nanometres = (id: string): number =>
      1e9 * Math.abs(budget(length).find(({ input }) => input.id === id)?.contribution ?? 0);
    const { factor, degreesOfFreedom } = coverageInterval(length, 0.99);
    expect(of.missed('l', Math.round(length.value * 1e9))).toEqual([]);
    expect(of.missed('u_difference', Math.hypot(nanometres('d_m'), nanometres('d_1'), nanometres('d_2')))).toEqual([]);
    expect(of.missed('u_expansion_difference', nanometres('delta_alpha'))).toEqual([]);
    expect(of.missed('u_temperature_difference', nanometres('delta_theta'))).toEqual([]);
    // By components the difference's degrees of freedom need no rounding in between: 16.75, and 16.7 in print.
    expect(Math.abs((degreesOfFreedom ?? 0) - 16.7)).toBeLessThan(0.1);
    expect(of.missed('t99', factor)).toEqual([]);
    const shown = presentBudget('l', context, 0.99);
    expect(shown?.total).toMatchObject({ uncertainty: '0.032 µm', factor: '2.92', level: '99 %', expanded: '0.092 µm', degreesOfFreedom: '16.8' });
    expect(shown?.rows.slice(0, 6).map(({ input, contribution }) => [input, contribution])).toEqual([
      ['l_s', '0.025 µm'], ['delta_theta', '0.017 µm'], ['d_2', '0.0067 µm'], ['d_m', '0.0058 µm'], ['d_1', '0.0039 µm'], ['delta_alpha', '0.0029 µm'],
    ]);
    // Without part in it, as c = 0 in the guide's table H.1; the readings' mean is 0 but for rounding.
    expect(Math.max(...(shown?.rows.slice(6).map(({ parts }) => parts.own) ?? []))).toBeLessThan(1e-30);
    expect(shown?.rows.find(({ input }) => input === 'alpha_s')).toMatchObject({ type: 'B', distribution: 'rectangular', uncertainty: '1.2·10⁻⁶ K⁻¹' });
  });
});

describe('resistance, reactance and impedance (JCGM 100:2008, H.2)', () => {
  const of = example('unc-gum-h2');
  const typed = (symbol: string, unit: string): string =>
    fenced('given', `symbol: ${symbol}`, `readings: "${of.numbers(symbol === 'I_A' ? 'I' : symbol).join(', ')} ${unit}"`, `unit: "${unit}"`, 'together: bench');
  const text = typed('V', 'V') + typed('I_A', 'mA') + typed('phi', 'rad')
    + step('R', 'V/I_A*cos(phi)', 'ohm') + step('X', 'V/I_A*sin(phi)', 'ohm') + step('Z', 'V/I_A', 'ohm');

  it('has the published uncertainties and correlations; shares and covariances make the whole', async () => {
    const context = await contextOf(text);
    for (const name of ['R', 'X', 'Z'] as const) {
      const estimate = estimateOf(name, context);
      expect(of.missed(name, estimate.value)).toEqual([]);
      const shown = presentBudget(name, context);
      expect(shown?.isCorrelated).toBe(true);
      // Five sets of readings evaluated set by set (H.2.4): 4, and t = 2.78 (table G.2).
      expect(shown?.total.degreesOfFreedom).toBe('4');
      expect(shown?.total.factor).toBe('2.78');
      expect(shown?.rows.reduce((sum, { parts }) => sum + parts.own + parts.shared, 0)).toBeCloseTo(1, 10);
      expect(of.missed(`u_${name}`, standardUncertainty(estimate))).toEqual([]);
    }
    const r = (a: string, b: string): number => correlation(estimateOf(a, context), estimateOf(b, context)) ?? Number.NaN;
    expect(of.missed('r_RX', r('R', 'X'))).toEqual([]);
    expect(of.missed('r_RZ', r('R', 'Z'))).toEqual([]);
    expect(of.missed('r_XZ', r('X', 'Z'))).toEqual([]);
  });
});

it('product of three quantities (JCGM 100:2008, G.4.2) in percent of the value', async () => {
  const of = example('unc-gum-g4-welch');
  const counts = of.numbers('n');
  const text = of.numbers('u_rel').map((u, i) => readings(`x_${i + 1}`, 1, u / 100, counts[i] ?? 0, '1')).join('') + step('y', 'x_1*x_2*x_3', '1');
  const shown = presentBudget('y', await contextOf(text));
  expect(Number(shown?.total.relative?.replace(' %', ''))).toBeCloseTo(1.03, 1);
  expect(shown?.total.degreesOfFreedom).toBe('19');
  expect(shown?.total.factor).toBe('2.09');
  expect(shown?.rows.map(({ input, degreesOfFreedom }) => [input, degreesOfFreedom])).toEqual([['x_3', '14'], ['x_2', '4'], ['x_1', '9']]);
});
