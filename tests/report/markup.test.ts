/** What a place looks like is said once: the report writes it out, the page takes the same templates and puts its hands in. */
import { nothing, type TemplateResult } from 'lit-html';
import { describe, expect, test } from 'vitest';
import { html, htmlText, math, trusted } from '../../src/report/markup.ts';
import { INTERVAL_HOLDS, quantity, raised, uncertaintyLines } from '../../src/report/parts.ts';
import type { PresentedResult } from '../../src/report/index.ts';
import { shown } from '../../src/view/template.ts';

const life: PresentedResult & { readonly kind: 'value' } = {
  kind: 'value', number: '1.23·10⁵', unit: 'cycles', uncertainty: '0.02·10⁵', text: '', tex: '', interval: { factor: '1.98', low: '1.19·10⁵', high: '1.27·10⁵', degreesOfFreedom: '2.1·10⁹' },
};
const said = (one: unknown): TemplateResult => one as TemplateResult;

describe('markup written out', () => {
  test('text is escaped and isolated, markup and equations are not, false and undefined vanish, a hand is left out', () => {
    const one = html`<p title="${'a"b'}">${'<b>&'}${false}${undefined}${7}${[html`<i>${'x'}</i>`, 'y']}${trusted('<u>z</u>')}${{ hand: 'button' }}</p>`;
    expect(htmlText(one)).toBe('<p title="a&quot;b">&lt;b&gt;&amp;7<i>x</i>y<u>z</u></p>');
    expect(htmlText(html`${'\u202e7'} mm`)).toBe('\u2068\u202e7\u2069 mm');
    expect(htmlText(html`${math('\\sigma')}`)).toMatch(/^<span class="katex">.*σ/s);
  });

  test('an attribute goes with the whole of its value, and with nothing less', () => {
    expect(htmlText(html`<div role="${false}" class="a${''}" tabindex="${'0'}" title="${undefined}" lang="${''}">x</div>`)).toBe('<div class="a" tabindex="0" lang="">x</div>');
  });

  test('HTML of our own has an element of its own where it is given one', () => {
    expect(htmlText(html`${trusted('<p>x</p>', 'text')}`)).toBe('<div class="text"><p>x</p></div>');
    expect(said(shown(trusted('<p>x</p>', 'text'))).strings.join('?')).toBe('<div class=? ?></div>');
  });

  test('powers are raised, and an interval has its unit and its degrees of freedom', () => {
    expect(htmlText(html`${raised('1.2·10⁻⁵ mm²')}`)).toBe('1.2·10<sup>−5</sup> mm<sup>2</sup>');
    expect(htmlText(quantity(life))).toBe('<span class="quantity">1.23·10<sup>5</sup><span class="unit">\u2009cycles</span></span>');
    expect(uncertaintyLines(life).map(htmlText)).toEqual([
      '<p class="uncertainty">± 0.02·10<sup>5</sup>\u00a0cycles</p>',
      '<p class="interval" title="'.concat(INTERVAL_HOLDS, '">95 %: 1.19·10<sup>5</sup> … 1.27·10<sup>5</sup>\u00a0cycles <span class="coverage">(k = 1.98, ν = 2.1·10<sup>9</sup>)</span></p>'),
    ]);
  });
});

describe('markup on the page', () => {
  test('is the same templates, in parts and lists too, with hands where they belong', () => {
    const inner = html`<i>${'x'}</i>`;
    const outer = html`<p>${[inner, false]}${undefined}${{ hand: 'button' }}${'\u202e7'}</p>`;
    const page = said(shown(outer));
    expect(page.strings).toBe(outer.strings);
    const [list, none, hand, text] = page.values as [unknown[], unknown, unknown, unknown];
    expect(said(list[0]).strings).toBe(inner.strings);
    expect([list[1], none, hand, text]).toEqual([nothing, nothing, 'button', '\u2068\u202e7\u2069']);
  });

  test('an attribute without a value is taken away', () => {
    expect(said(shown(html`<div role="${false}"></div>`)).values).toEqual([nothing]);
  });

  test('an equation gets a place of its own, which is set when it comes near', () => {
    const page = said(shown(html`<p>${math('\\sigma')}</p>`));
    expect(said(page.values[0]).strings.join('')).toBe('<span ></span>');
  });
});
