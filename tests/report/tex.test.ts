import katex from 'katex';
import { describe, expect, it } from 'vitest';
import { equation, sheetTex, stepTex } from '../../src/report/index.ts';
import { shipped } from '../shipped.ts';
import { contextOf, given, step } from './sheet-at.ts';

/** KaTeX as the judge: a general TeX reader that throws at what it does not know. */
function expectReadable(tex: string): number {
  const equations = [...tex.matchAll(/\\begin\{equation\}([\s\S]*?)\\end\{equation\}/g)].map(([, body = '']) => body);
  for (const body of equations) {
    katex.renderToString(`\\begin{equation}${body}\\end{equation}`, { displayMode: true, throwOnError: true, strict: 'error' });
  }
  return equations.length;
}

describe('sheetTex', () => {
  it('writes each step as symbols, numbers and result', async () => {
    const tex = sheetTex(await contextOf('---\ntitle: "5 % & more_or_less {sheet}"\n---\n' + given('F', '100.0 ± 1.0 N', 'N') + step('R_A', 'F/3', 'N', 'label: "Left reaction #1"')));
    expect(tex).toContain('\\section*{5 \\% \\& more\\_or\\_less \\{sheet\\}}');
    expect(tex).toContain([
      '\\paragraph{Left reaction \\#1}',
      '\\begin{equation}\\begin{aligned}',
      'R_A &= \\frac{F}{3} \\\\',
      '&= \\frac{100.0\\,\\mathrm{N}}{3} \\\\',
      '&= 33.33\\,\\mathrm{N} \\quad u = \\text{0.33 N}',
      '\\end{aligned}\\tag{1}\\end{equation}',
    ].join('\n'));
    expect(tex.startsWith('\\documentclass{article}\n')).toBe(true);
    expect(tex.endsWith('\\end{document}\n')).toBe(true);
    expect(expectReadable(tex)).toBe(1);
  });

  it('writes one step alone as it stands in the whole, under its number', async () => {
    const context = await contextOf(given('F', '100.0 ± 1.0 N', 'N') + step('R_A', 'F/3', 'N') + step('R_B', 'F-R_A', 'N'));
    const block = context.document.blocks.find(({ id }) => id === 'R_B');
    if (block?.kind !== 'cell' || block.cell.kind !== 'step') throw new Error('no step R_B');
    const tex = stepTex(block.cell, context);
    expect(tex).toContain('R_B &= F - R_A');
    expect(tex).toContain('\\tag{2}');
    expect(sheetTex(context)).toContain(tex);
    expect(expectReadable(tex)).toBe(1);
  });

  it('keeps what is still asked out', async () => {
    const tex = sheetTex(await contextOf(given('x', '7 N', 'N') + step('y', '13*x', 'N', 'asked: true')));
    expect(tex).not.toContain('91');
    expect(expectReadable(tex)).toBe(1);
  });

  it('lets no text become a command', async () => {
    const tex = sheetTex(await contextOf(step('y', '2', '1', 'label: "\\\\input{/etc/passwd} $x$ ^^41 ~ % αµ⟨…⟩ 漢"')));
    expect(tex).toContain('\\textbackslash{}input\\{/etc/passwd\\} \\$x\\$ \\textasciicircum{}\\textasciicircum{}41');
    expect(tex).toContain('$\\alpha$$\\mu$$\\langle$\\dots{}$\\rangle$ ?');
  });

  it('writes a fit as its line, its tables and what is said of them, whatever groups are called', async () => {
    const sheet = shipped('sn-line').replaceAll('steel K', '[2cm] \\\\x_$%&');
    const tex = sheetTex(await contextOf(sheet.replace('chosen: least-squares', 'chosen: maximum-likelihood')));
    expect(tex).toContain('\\begin{equation*}\\begin{aligned}\n\\log_{10} N &= A + B\\,\\log_{10}(S/\\mathrm{MPa})');
    expect(tex).toContain('{Limits of} & {Lower limit} & {Estimate} & {Upper limit} \\\\');
    expect(tex).toContain('{[2cm] \\textbackslash{}\\textbackslash{}x\\_\\$\\%\\&} & 9 & 3 &');
    // Every table is closed, and each of its rows has as many fields as it has columns.
    const tables = [...tex.matchAll(/\\begin\{tabular\}\{(l?r*)\}([\s\S]*?)\\end\{tabular\}/g)];
    expect(tables.length).toBeGreaterThan(6);
    const fields = tables.flatMap(([, columns = '', body = '']) => body.split('\\\\\n').slice(0, -1).map((row) => row.split(/(?<!\\)&/).length - columns.length));
    expect(new Set(fields)).toEqual(new Set([0]));
    expect(tex).not.toMatch(/NaN|undefined|\?\$/);
    expectReadable(tex);
  });

  it('can be read for the whole standard sheet', async () => {
    const text = shipped('rotating-bending');
    const tex = sheetTex(await contextOf(text));
    expect(expectReadable(tex)).toBeGreaterThan(40);
    expect(tex).not.toMatch(/NaN|undefined/);
  });
});

describe('equation', () => {
  it('gives HTML with MathML, the same for the same TeX', () => {
    const markup = equation('\\frac{a}{b}');
    expect(markup).toContain('<math');
    expect(markup).toContain('katex-html');
    expect(equation('\\frac{a}{b}')).toBe(markup);
  });

  it('shows what it cannot read and lets nothing act', () => {
    expect(equation('\\frac{')).toContain('katex-error');
    expect(equation('\\href{javascript:alert(1)}{x}')).not.toMatch(/<a\b/);
    expect(equation('\\text{<script>}')).not.toMatch(/<script/i);
  });

  it('forgets the oldest rather than growing for ever', () => {
    for (let i = 0; i < 2100; i += 1) equation(`x_{${i}}`);
    expect(equation('x_{0}')).toContain('<math');
  });
});
