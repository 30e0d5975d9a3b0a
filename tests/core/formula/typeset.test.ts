import fc from 'fast-check';
import katex from 'katex';
import { describe, expect, it } from 'vitest';
import { symbolTex, typeset, typesetSubstituted } from '../../../src/core/formula/index.ts';
import { ANY_TREE, numberTree, read, truthTree } from './expressions.ts';

/** KaTeX itself judges: anything it does not know throws. */
function accepted(tex: string): void {
  const html = katex.renderToString(tex, { throwOnError: true, strict: 'error', trust: false });
  expect(html).not.toContain('katex-error');
}

describe('symbolTex', () => {
  it.each([
    ['d', 'd'], ['s_1', 's_1'], ['R_A', 'R_A'], ['k_F', 'k_F'], ['l_L', 'l_L'], ['A_0', 'A_0'],
    ['sigma_a', '\\sigma_{\\mathrm{a}}'], ['S_ut', 'S_{\\mathrm{ut}}'], ['N_lo', 'N_{\\mathrm{lo}}'], ['K_t', 'K_{\\mathrm{t}}'],
    ['s_1c', 's_{1\\mathrm{c}}'], ['S_e0', 'S_{\\mathrm{e}0}'], ['L_b', 'L_{\\mathrm{b}}'], ['Delta', '\\Delta'], ['Delta_set', '\\Delta_{\\mathrm{set}}'],
    ['delta_a', '\\delta_{\\mathrm{a}}'], ['epsilon_a', '\\varepsilon_{\\mathrm{a}}'], ['rho', '\\rho'], ['u_sigma', 'u_{\\sigma}'],
    ['load', '\\mathrm{load}'], ['x1', '\\mathrm{x1}'], ['sigma_a_1', '\\sigma_{\\mathrm{a},1}'], ['Rho', '\\mathrm{P}'],
  ])('%s is %s', (name, tex) => {
    expect(symbolTex(name)).toBe(tex);
    accepted(tex);
  });

  it('knows the whole Greek alphabet, small and capital', () => {
    const names = 'alpha beta gamma delta epsilon zeta eta theta iota kappa lambda mu nu xi omicron pi rho sigma tau upsilon phi chi psi omega'.split(' ');
    for (const name of [...names, ...names.map((small) => small.charAt(0).toUpperCase() + small.slice(1))]) {
      const tex = symbolTex(name);
      expect(tex).not.toBe(`\\mathrm{${name}}`);
      accepted(tex);
    }
  });

  it('takes nothing but checked names', () => {
    expect(() => symbolTex('x}\\href{javascript:1}{y}')).toThrow('checked symbol name');
  });
});

describe('typeset', () => {
  // Forms: ISO 80000-1 (quotient of quantity and unit), ISO 80000-2 (log to base 10, thin space or dot for products); read from the rules, not pictures.
  it.each([
    ['(F_1*(l_2 + l_3) + F_2*l_3)/l_L', '\\frac{F_1\\,\\left(l_2 + l_3\\right) + F_2\\,l_3}{l_L}'],
    ['k_F*W', 'k_F\\,W'],
    ['R_A*x_s - F_1*macaulay(x_s - l_1)', 'R_A\\,x_{\\mathrm{s}} - F_1\\,\\left\\langle x_{\\mathrm{s}} - l_1\\right\\rangle'],
    ['pi*d^4/64', '\\frac{\\pi\\,d^{4}}{64}'],
    ['b*t^3/12', '\\frac{b\\,t^{3}}{12}'],
    ['M_s*c/I', '\\frac{M_{\\mathrm{s}}\\,c}{I}'],
    ['1 + q*(K_t - 1)', '1 + q\\,\\left(K_{\\mathrm{t}} - 1\\right)'],
    ['4.51*(S_ut/unit(MPa))^(-0.265)', '4.51\\,\\left(S_{\\mathrm{ut}}/\\mathrm{MPa}\\right)^{-0.265}'],
    ['1.24*(d/unit(mm))^(-0.107)', '1.24\\,\\left(d/\\mathrm{mm}\\right)^{-0.107}'],
    ['min(0.5*S_ut, 700*unit(MPa))', '\\min\\left(0.5\\,S_{\\mathrm{ut}},\\, 700\\,\\mathrm{MPa}\\right)'],
    ['k_a*k_b*k_c*S_e0', 'k_{\\mathrm{a}}\\,k_{\\mathrm{b}}\\,k_{\\mathrm{c}}\\,S_{\\mathrm{e}0}'],
    [
      '(3 - log10(N_e))/(log10(f*S_ut/unit(MPa)) - log10(S_e/unit(MPa)))',
      '\\frac{3 - \\log_{10}\\left(N_{\\mathrm{e}}\\right)}{\\log_{10}\\left(\\frac{f\\,S_{\\mathrm{ut}}}{\\mathrm{MPa}}\\right) - \\log_{10}\\left(S_{\\mathrm{e}}/\\mathrm{MPa}\\right)}',
    ],
    ['10^(A + B*log10(K_f*sigma_a/unit(MPa)))', '10^{A + B\\,\\log_{10}\\left(K_{\\mathrm{f}}\\,\\sigma_{\\mathrm{a}}/\\mathrm{MPa}\\right)}'],
    ['(sigma_a/a)^(1/b)', '\\left(\\frac{\\sigma_{\\mathrm{a}}}{a}\\right)^{1/b}'],
    ['x^(-1/b)', 'x^{-1/b}'],
    ['abs(z_2 - z_1)/2', '\\frac{\\left\\lvert z_2 - z_1\\right\\rvert}{2}'],
    ['abs(best(B))*u(x_f)', '\\left\\lvert \\widehat{B}\\right\\rvert\\,u\\left(x_{\\mathrm{f}}\\right)'],
    ['sqrt(u(s_1)^2 + u(s_3)^2)', '\\sqrt{u^{2}\\left(s_1\\right) + u^{2}\\left(s_3\\right)}'],
    ['abs(r) <= 2*u(r) + 1e-9*L', '\\left\\lvert r\\right\\rvert \\le 2\\,u\\left(r\\right) + 10^{-9}\\,L'],
    ['if(S_ut <= 1400*unit(MPa), S_ut/2, 0)', '\\begin{cases} \\frac{S_{\\mathrm{ut}}}{2} & \\text{if}\\ S_{\\mathrm{ut}} \\le 1400\\,\\mathrm{MPa} \\\\ 0 & \\text{otherwise} \\end{cases}'],
    ['2*if(a < b, a, b)', '2\\,\\left(\\begin{cases} a & \\text{if}\\ a < b \\\\ b & \\text{otherwise} \\end{cases}\\right)'],
    ['5e8/n', '\\frac{5 \\cdot 10^{8}}{n}'],
    ['2*3*x*2', '2 \\cdot 3\\,x \\cdot 2'],
    ['a - (b - c)', 'a - \\left(b - c\\right)'],
    ['a + (b - c)', 'a + b - c'],
    ['a*(b*c)', 'a\\,b\\,c'],
    ['-(a + b)*-c', '-\\left(a + b\\right)\\,\\left(-c\\right)'],
    ['-x^2', '-x^{2}'],
    ['(-x)^2', '\\left(-x\\right)^{2}'],
    ['(a^b)^2', '\\left(a^{b}\\right)^{2}'],
    ['sqrt(d)^3', '\\left(\\sqrt{d}\\right)^{3}'],
    ['cbrt(x)', '\\sqrt[3]{x}'],
    ['atan(d/L) + asin(x)', '\\arctan\\left(\\frac{d}{L}\\right) + \\arcsin\\left(x\\right)'],
    ['mean(d, .5)', '\\operatorname{mean}\\left(d,\\, 0.5\\right)'],
    ['M/unit(N*m)', 'M/\\left(\\mathrm{N\\,m}\\right)'],
    ['(a + b)/unit(mm)', '\\frac{a + b}{\\mathrm{mm}}'],
    ['not (a < b) and (c >= 2 or d > 1e3)', '\\text{not}\\ \\left(a < b\\right)\\ \\text{and}\\ \\left(c \\ge 2\\ \\text{or}\\ d > 10^{3}\\right)'],
  ])('%s', (text, tex) => {
    expect(typeset(read(text))).toBe(tex);
    accepted(tex);
  });

  it('gives TeX that KaTeX takes for any formula', () => {
    fc.assert(fc.property(fc.oneof(numberTree(ANY_TREE, 4), truthTree(ANY_TREE, 3)), (e) => {
      accepted(typeset(e));
      accepted(typesetSubstituted(e, () => '-1.2 \\cdot 10^{3}\\,\\mathrm{mm}', () => '0.5\\,\\mathrm{mm}'));
    }), { numRuns: 300 });
  });
});

describe('typesetSubstituted', () => {
  const NUMBERS: Readonly<Record<string, string>> = {
    F: '200.0\\,\\mathrm{N}', a: '101.3\\,\\mathrm{mm}', b: '-5.0\\,\\mathrm{mm}', d: '6.31\\,\\mathrm{mm}', S_ut: '520\\,\\mathrm{MPa}', k: '0.5', m: '-2', N: '1.2 \\cdot 10^{5}', big: '12\\,000',
  };
  const numberTex = (name: string): string => NUMBERS[name] ?? '?';

  it.each([
    ['F*a/2', '\\frac{200.0\\,\\mathrm{N} \\cdot 101.3\\,\\mathrm{mm}}{2}'],
    ['pi*d^4/64', '\\frac{\\pi\\,\\left(6.31\\,\\mathrm{mm}\\right)^{4}}{64}'],
    ['a + b', '101.3\\,\\mathrm{mm} + \\left(-5.0\\,\\mathrm{mm}\\right)'],
    ['b - b', '-5.0\\,\\mathrm{mm} - \\left(-5.0\\,\\mathrm{mm}\\right)'],
    ['-b', '-\\left(-5.0\\,\\mathrm{mm}\\right)'],
    ['b*a', '-5.0\\,\\mathrm{mm} \\cdot 101.3\\,\\mathrm{mm}'],
    ['a*b', '101.3\\,\\mathrm{mm} \\cdot \\left(-5.0\\,\\mathrm{mm}\\right)'],
    ['-a*b', '-101.3\\,\\mathrm{mm} \\cdot \\left(-5.0\\,\\mathrm{mm}\\right)'],
    ['k^2 + m^2', '0.5^{2} + \\left(-2\\right)^{2}'],
    ['N^k', '\\left(1.2 \\cdot 10^{5}\\right)^{0.5}'],
    ['big^2', '12\\,000^{2}'],
    ['2*k', '2 \\cdot 0.5'],
    ['(S_ut/unit(MPa))^m', '\\left(\\frac{520\\,\\mathrm{MPa}}{\\mathrm{MPa}}\\right)^{-2}'],
    ['k*(a - b)', '0.5\\,\\left(101.3\\,\\mathrm{mm} - \\left(-5.0\\,\\mathrm{mm}\\right)\\right)'],
    ['macaulay(a - d)', '\\left\\langle 101.3\\,\\mathrm{mm} - 6.31\\,\\mathrm{mm}\\right\\rangle'],
    ['k*best(a)', '0.5 \\cdot 101.3\\,\\mathrm{mm}'],
    ['2*u(a)^2', '2\\,u^{2}\\left(a\\right)'],
  ])('%s', (text, tex) => {
    expect(typesetSubstituted(read(text), numberTex)).toBe(tex);
    accepted(tex);
  });

  it('puts in the uncertainty where it is given', () => {
    expect(typesetSubstituted(read('2*u(a)^2 + u(a)'), numberTex, () => '0.2\\,\\mathrm{mm}'))
      .toBe('2\\,\\left(0.2\\,\\mathrm{mm}\\right)^{2} + 0.2\\,\\mathrm{mm}');
  });
});
