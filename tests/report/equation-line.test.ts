/** Equations that can break: brackets that need not stretch, fractions in line. Looks and meaning by KaTeX's own MathML. */
import katex from 'katex';
import { describe, expect, test } from 'vitest';
import { breakable, inLineFractions } from '../../src/report/equation-line.ts';

const spoken = (tex: string): string => katex.renderToString(tex, { output: 'mathml' }).replace(/<annotation[\s\S]*?<\/annotation>/g, '').replace(/<[^>]*>/g, '').replace(/[\u200b\u2061\s]/g, '');
/** Pieces between which KaTeX lets a line end. */
const pieces = (tex: string): number => katex.renderToString(tex, { output: 'html' }).split('class="katex-base"').length - 1;

describe('brackets', () => {
  test.each([
    ['L - \\left(a + b + c\\right)', 'L - (a + b + c)'],
    ['F\\,\\left\\langle x - l_1\\right\\rangle', 'F\\,\\langle  x - l_1\\rangle '],
    ['a - \\left(b - \\left(c - d\\right)\\right)', 'a - (b - (c - d))'],
    ['\\left(\\frac{a}{b}\\right)^{2}', '\\left(\\frac{a}{b}\\right)^{2}'],
    ['\\frac{\\left(a + b\\right)}{c}', '\\frac{\\left(a + b\\right)}{c}'],
    ['x^{\\left(a + b\\right)}', 'x^{\\left(a + b\\right)}'],
  ])('%s', (tex, expected) => {
    expect(breakable(tex)).toBe(expected);
    expect(spoken(breakable(tex))).toBe(spoken(tex));
  });

  test('around a sum they no longer hold it together', () => {
    const tex = 'r = L - \\left(a + b + c\\right)';
    expect([pieces(tex), pieces(breakable(tex))]).toEqual([3, 5]);
  });
});

describe('fractions in line', () => {
  test.each([
    ['\\frac{a + b}{c}', '\\left(a + b\\right)/c'],
    ['\\frac{\\pi\\,d^{4}}{64}', '\\left(\\pi\\,d^{4}\\right)/64'],
    ['x + \\frac{a}{\\frac{b}{c}}', 'x + a/\\left(b/c\\right)'],
    ['a + b', 'a + b'],
    ['\\frac{F_1\\,s + F_2\\,r}{L}\\,x', '\\left(F_1\\,s + F_2\\,r\\right)/L\\,x'],
    ['\\frac{\\frac{F_1 + F_2}{L} - s_1}{M_{\\mathrm{s}}}', '\\left(\\left(F_1 + F_2\\right)/L - s_1\\right)/M_{\\mathrm{s}}'],
    ['\\frac{\\sigma_{\\mathrm{a}}}{x_1\\,y}', '\\sigma_{\\mathrm{a}}/\\left(x_1\\,y\\right)'],
  ])('%s', (tex, expected) => expect(inLineFractions(tex)).toBe(expected));
});
