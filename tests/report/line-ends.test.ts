/** Where a line of an equation may end, by what KaTeX makes of it. */
import katex from 'katex';
import { describe, expect, test } from 'vitest';
import { equation, plainEquation } from '../../src/report/equation.ts';
import { breaksBeforeSigns } from '../../src/report/line-ends.ts';

/** What stands between two places at which a line may end. */
const pieces = (tex: string): readonly string[] => katex.renderToString(breaksBeforeSigns(tex), { output: 'html' }).split('class="katex-base"').slice(1)
  .map((piece) => `<${piece}>`.replace(/<[^>]*>/gu, '').replace(/[\s\u200b>]/gu, '').replaceAll('−', '-'));

describe('a line goes on before its sign', () => {
  test.each([
    ['W = F - F_0 = 310', ['W', '=F', '-F0', '=310']],
    ['a \\cdot b \\le c', ['a', '⋅b', '≤c']],
    ['r = -3 + (-2)', ['r', '=-3', '+(-2)']],
    ['x = \\left(\\frac{a = b}{c}\\right) + 1', ['x', '=(ca=b)', '+1']],
    ['= F - F_0', ['=F', '-F0']],
  ])('%s', (tex, expected) => expect(pieces(tex)).toEqual(expected));

  test('behind the room of a symbol above it stays', () => expect(pieces('\\phantom{W} = a + b')[0]).toContain('=a'));

  test('source and spoken form are those of the equation itself', () => {
    const markup = equation('W = F - F_0');
    expect(markup).toContain('\\displaystyle W = F - F_0</annotation>');
    expect(markup.replace(/<annotation[\s\S]*?<\/annotation>/u, '')).not.toContain('break ');
    const spoken = (text: string): string => text.replace(/<annotation[\s\S]*?<\/annotation>/gu, '').replace(/<[^>]*>/gu, '').replace(/\s/gu, '');
    expect(spoken(/<math[\s\S]*<\/math>/u.exec(markup)?.[0] ?? '')).toBe(spoken(plainEquation('W = F - F_0')));
  });
});
