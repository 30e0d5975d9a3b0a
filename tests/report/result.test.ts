import { describe, expect, it } from 'vitest';
import { presentBudget, presentResult, presentSymbol, type PresentedResult } from '../../src/report/index.ts';
import { parseUnit } from '../../src/core/units/index.ts';
import { contextOf, fenced, given, step } from './sheet-at.ts';

async function symbol(text: string, name: string, system: 'SI' | 'US customary' = 'SI'): Promise<PresentedResult> {
  const result = presentSymbol(name, await contextOf(text, system));
  if (result === undefined) throw new Error(`${name} is not defined`);
  return result;
}

function textOf(result: PresentedResult): string {
  return result.kind === 'problem' ? result.problem.code : result.text;
}

describe('presentSymbol', () => {
  it.each([
    ['312.43 ± 2.13 MPa', 'MPa', '312.4 ± 2.1 MPa'],
    ['6.31 mm', 'mm', '6.31 mm'],
    ['-6.31 ± 0.02 mm', 'mm', '\u22126.310 ± 0.020 mm'],
    ['0.5', '1', '0.5'],
    ['12345678 ± 213000', '1', '(1.235 ± 0.021)·10⁷'],
    ['21.5 ± 0.5 °C', '°C', '21.50 ± 0.50 °C'],
    ['12 ± 0.2 deg', 'deg', '12.00 ± 0.20°'],
    ['1.2 ± 0.1 %', '%', '1.20 ± 0.10 %'],
  ])('rounds %s by its uncertainty', async (typed, unit, text) => {
    expect(textOf(await symbol(given('x', typed, unit), 'x'))).toBe(text);
  });

  it('gives number, unit, uncertainty and the interval apart', async () => {
    // Normal distribution: k = 1.96 for 95 %, JCGM 100:2008, table G.1 and G.1.3.
    expect(await symbol(given('sigma', '312.43 ± 2.13 MPa', 'MPa'), 'sigma')).toEqual({
      kind: 'value', number: '312.4', unit: 'MPa', uncertainty: '2.1', text: '312.4 ± 2.1 MPa', tex: '312.4\\,\\mathrm{MPa}',
      interval: { factor: '1.96', low: '308.3', high: '316.6' },
    });
  });

  it('shows results in the reader\'s system and leaves what was typed in its unit', async () => {
    const text = given('F', '100 ± 1 N', 'N') + given('A', '1 mm^2', 'mm^2') + step('S', 'F/A', 'MPa');
    expect(textOf(await symbol(text, 'F', 'US customary'))).toBe('100.0 ± 1.0 N');
    // 100 MPa = 14.5038 ksi: NIST SP 811:2008, B.8 (1 ksi = 6.894757 MPa).
    expect(textOf(await symbol(text, 'S', 'US customary'))).toBe('14.50 ± 0.15 ksi');
    expect(textOf(await symbol(text, 'S'))).toBe('100.0 ± 1.0 MPa');
  });

  it('writes a life with its uncertainty as a factor, its interval too', async () => {
    // u(ln N) = ln 1.12, so that one standard uncertainty is a factor of 1.12; 95 %: 1.12^1.96 = 1.2487.
    const u = Math.log(1.12);
    const text = given('x', `1.2346 ± ${1.2346 * u}`, '1') + step('N_f', '1e5*x', 'cycles', 'spread: factor');
    expect(await symbol(text, 'N_f')).toMatchObject({
      number: '1.23·10⁵', spreadFactor: '1.12', text: '1.23·10⁵ cycles ×/÷ 1.12', unit: 'cycles',
      interval: { factor: '1.96', low: '9.89·10⁴', high: '1.54·10⁵' },
    });
  });

  it('keeps a life readable where the factor is enormous or tiny', async () => {
    const at = (u: string) => symbol(given('x', `1.2346 ± ${u}`, '1') + step('N_f', '1e5*x', 'cycles', 'spread: factor'), 'N_f');
    expect(textOf(await at('4'))).toBe('1.2·10⁵ cycles ×/÷ 26');
    expect(textOf(await at('0.004'))).toBe('1.235·10⁵ cycles ×/÷ 1.0032');
  });

  it.each([
    ['below limit', 'no fracture expected: the stress lies below the endurance limit'],
    ['low cycle', 'below 10³ cycles: outside this line'],
    ['beyond data', 'beyond the tested lives'],
  ] as const)('says why a life is %s in plain words', (word, text) => {
    const unit = parseUnit('cycles');
    if (!unit.ok) throw new Error('cycles');
    expect(presentResult({ status: 'range', word, unit: unit.value }, 'SI')).toEqual({ kind: 'range', word, text });
  });

  it('shows no number that is none', () => {
    const unit = parseUnit('mm');
    if (!unit.ok) throw new Error('mm');
    const state = (value: number) => ({ status: 'value' as const, unit: unit.value, estimate: { value, sensitivities: new Map() } });
    expect(presentResult(state(Number.NaN), 'SI').kind).toBe('problem');
    expect(presentResult(state(Infinity), 'SI').kind).toBe('problem');
  });

  it('is undefined for a symbol that nobody defines', async () => {
    expect(presentSymbol('x', await contextOf('no cells'))).toBeUndefined();
  });
});

describe('presentBudget', () => {
  it('tells each input\'s part, the largest first', async () => {
    // y = a b: u(y)² = (b u(a))² + (a u(b))² = (3 · 0.02)² + (2 · 0.04)² = 0.06² + 0.08² = 0.1² (JCGM 100:2008, eq. 10).
    const context = await contextOf(given('a', '2 ± 0.02 mm', 'mm') + given('b', '3 ± 0.04 N', 'N') + step('y', 'a*b', 'N*mm'));
    const state = context.states.symbol('y');
    if (state === undefined) throw new Error('y');
    expect(presentBudget(state, context)).toEqual([
      {
        input: 'b', inputTex: 'b', value: '3.000 N', uncertainty: '0.040 N', sensitivity: '2.00 N·mm/N',
        contribution: '0.080 N·mm', share: '64 %', parts: { own: expect.closeTo(0.64, 12), shared: 0 },
      },
      {
        input: 'a', inputTex: 'a', value: '2.000 mm', uncertainty: '0.020 mm', sensitivity: '3.00 N·mm/mm',
        contribution: '0.060 N·mm', share: '36 %', parts: { own: expect.closeTo(0.36, 12), shared: 0 },
      },
    ]);
  });

  it('tells what correlation adds or takes; with the shares it makes the whole', async () => {
    // y = a + b, u(a) = 3, u(b) = 4, r = −0.5: u(y)² = 9 + 16 − 2 · 0.5 · 3 · 4 = 13 (JCGM 100:2008, eq. 16).
    const context = await contextOf(
      given('a', '20 ± 3 N', 'N', 'correlated:', '  b: -0.5') + given('b', '30 ± 4 N', 'N') + step('y', 'a+b', 'N'));
    const state = context.states.symbol('y');
    if (state === undefined) throw new Error('y');
    const rows = presentBudget(state, context);
    expect(rows.map(({ input, share, covarianceShare }) => [input, share, covarianceShare])).toEqual([
      ['b', '123 %', '−46 %'], // 16/13 and −6/13
      ['a', '69 %', '−46 %'], // 9/13
    ]);
    expect(rows.reduce((sum, { parts }) => sum + parts.own + parts.shared, 0)).toBeCloseTo(1, 12);
  });

  it('is empty where there is no value', async () => {
    const context = await contextOf(fenced('given', 'symbol: x', 'unit: mm'));
    const state = context.states.symbol('x');
    if (state === undefined) throw new Error('x');
    expect(presentBudget(state, context)).toEqual([]);
  });
});
