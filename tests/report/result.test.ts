import { describe, expect, it } from 'vitest';
import { presentResult, presentSymbol, type PresentedResult } from '../../src/report/index.ts';
import { parseUnit } from '../../src/core/units/index.ts';
import { contextOf, given, step } from './sheet-at.ts';

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
    ['below limit', 'below the endurance limit: the line gives no life here, fracture is still possible'],
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
