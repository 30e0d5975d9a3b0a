import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseFormula } from '../../../src/core/formula/index.ts';

/** The formula with what the advice says in the place of what it underlines. */
function obeyed(text: string): string {
  const read = parseFormula(text);
  if (read.ok) throw new Error(`${text} is read as it stands`);
  const { code, span, mend } = read.problem;
  expect(code).toBe('bare-unit');
  const advice = /^Write (?:.*, or (.*) for the unit|(.*?))\.(?: If |$)/.exec(mend)?.slice(1).find((part) => part !== undefined) ?? '';
  return text.slice(0, span?.start) + advice + text.slice(span?.end);
}

describe('a number with its unit, as on paper', () => {
  it.each([
    ['m_h*9.81 m/s^2', 'm_h*9.81*unit(m/s^2)'],
    ['m_h*9.81m/s^2 + F_0', 'm_h*9.81*unit(m/s^2) + F_0'],
    ['S_ut > 530 MPa', 'S_ut > 530*unit(MPa)'],
    ['S_ut > 530 MPa and d < 6 mm', 'S_ut > 530*unit(MPa) and d < 6 mm'],
    ['F/5 mm^2', 'F/(5*unit(mm^2))'],
    ['S + 5 N/mm²', 'S + 5*unit(N/mm²)'],
    ['30 °', '30*unit(°)'],
    ['2 µm', '2*unit(µm)'],
    ['5 %', '5*unit(%)'],
    ['max(x, 5 N*m)', 'max(x, 5*unit(N*m))'],
    ['10 N*d', '10*unit(N)*d'],
    ['10 N*l_1', '10*unit(N)*l_1'],
    ['2*pi*50 Hz', '2*pi*50*unit(Hz)'],
  ])('%s: the advice is %s', (text, expected) => {
    expect(obeyed(text)).toBe(expected);
  });

  it('names the symbol too, where the unit may be one', () => {
    expect(parseFormula('2 d')).toMatchObject({ problem: { code: 'bare-unit', mend: 'Write 2*d, or 2*unit(d) for the unit.' } });
  });

  it('works when it is obeyed, everywhere in a formula', () => {
    const unit = fc.constantFrom('mm', 'MPa', 'm/s^2', 'N*m', 'N/mm', 'rev/min', 'lbf', 'h', 'kg/m^3', '1/s', '°');
    const frame = fc.constantFrom('x + #', '# + x', 'x*#', 'x/#', '#*x', '#/x', 'x^2 < #', 'max(#, x)', '-#', '(#)^2', 'if(x > #, #, y)', 'not x < # and y > #');
    fc.assert(fc.property(frame, unit, fc.integer({ min: 1, max: 9999 }), (around, name, n) => {
      let text = around.replaceAll('#', `${n / 10} ${name}`);
      if (name.startsWith('1')) return;
      for (let turn = 0; turn < 2 && !parseFormula(text).ok; turn++) text = obeyed(text);
      const read = parseFormula(text);
      expect(read.ok ? '' : `${text}: ${read.problem.mend}`).toBe('');
    }));
  });
});
