/** Equations of LaTeX fit on a line of an article, say the same as before, and are TeX that can be set. */
import katex from 'katex';
import { describe, expect, it, test } from 'vitest';
import { sheetTex } from '../../src/report/index.ts';
import { texLines } from '../../src/report/tex-breaks.ts';
import { texWidth } from '../../src/report/tex-width.ts';
import { SHIPPED, shipped } from '../shipped.ts';
import { contextOf } from './sheet-at.ts';

/** Without what only ends lines: what is left is the equation. */
function content(tex: string): string {
  return tex.replace(/\\(?:left|right|Bigl|Bigr)(?![a-zA-Z])/g, '').replace(/\\(?:begin|end)\{(?:gathered|cases)\}/g, '').replace(/\\quad|\\\\|\\,|\\cdot|&|\{\}|[\s{}]/g, '');
}

describe('lines of an equation', () => {
  it('are one where it fits', () => {
    expect(texLines('a + b', 30)).toEqual(['a + b']);
  });

  it('end before a sign, and not before that of a number', () => {
    const lines = texLines('-1.234\\,\\mathrm{mm} + 1.234\\,\\mathrm{mm} - 1.234\\,\\mathrm{mm} + 2.345\\,\\mathrm{mm}', 14);
    expect(lines.map((line) => line.trim())).toEqual(['-1.234\\,\\mathrm{mm} + 1.234\\,\\mathrm{mm}', '\\quad {}- 1.234\\,\\mathrm{mm} + 2.345\\,\\mathrm{mm}']);
  });

  it('go on inside brackets, fractions and cases', () => {
    const sum = Array.from({ length: 9 }, (_, i) => `x_${i + 1}`).join(' + ');
    for (const tex of [`a\\,\\left(${sum}\\right)^{2}`, `\\frac{${sum}}{b}`, `\\begin{cases} ${sum} & \\text{if}\\ a > b \\\\ 0 & \\text{otherwise} \\end{cases}`]) {
      const lines = texLines(tex, 12);
      expect(Math.max(...lines.map(texWidth)), tex).toBeLessThanOrEqual(12.5);
      expect(content(lines.join(' \\\\ '))).toBe(content(tex));
      // Fixed brackets are no pair, so that a line may end between them.
      expect(() => katex.renderToString(`\\begin{aligned}&${lines.join(' \\\\ &')}\\end{aligned}`, { throwOnError: true })).not.toThrow();
    }
  });

  it('stay one where nothing lets them end', () => {
    expect(texLines('\\mathrm{aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa}', 10)).toHaveLength(1);
  });
});

/** A line of an article on Letter: 345 pt at 10 pt an em. */
const LINE = 34.5;

test.each(SHIPPED)('%s', async (name) => {
  const tex = sheetTex(await contextOf(shipped(name)));
  const equations = [...tex.matchAll(/\\begin\{equation\}\\begin\{aligned\}\n([\s\S]*?)\n\\end\{aligned\}/g)].map(([, inner]) => inner ?? '');
  const wide = equations.flatMap((equation) => equation.split(/ \\\\\n/)).map((line) => [Math.round(texWidth(line)), line] as const).filter(([width]) => width > LINE);
  expect(wide).toEqual([]);
  for (const equation of equations) expect(() => katex.renderToString(`\\begin{aligned}${equation.replace(/\\text\{[^{}]*\$[\s\S]*?\}(?= *(?:\\\\|$|\n))/g, '')}\\end{aligned}`, { throwOnError: true, strict: false }), equation).not.toThrow();
});
