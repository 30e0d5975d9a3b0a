/** Signs that prose calls by a name: the page has them from the browser, Node from the package that knows all names (HTML, 13.5 Named character references). */
import { expect, test } from 'vitest';
import { renderProse } from '../../src/report/index.ts';
import { contextOf, given } from '../report/sheet-at.ts';
import { asItOpens } from './harness.ts';
import { bringIn } from './sheet-page.ts';

const NAMES = ['&deg;', '&sigma;', '&amp;', '&lt;b&gt;', '&ampfoo;', '&gtx;', '&lt1;', '&copy', '&unknown;', '&Tab;', '&nbsp;', '&NotEqualTilde;', '&fjlig;', '&Aopf;', '&semi;', '&Sigma;', '&SIGMA;', '&#176;', '&#xB0;', '&#12abc;', '&constructor;'];

test('the browser reads them as the package does', async () => {
  const source = `${NAMES.map((name) => `[${name}]`).join(' ')}\n\n[a link](https://example.org/?a=1&amp;b=&deg;&copy;)\n`;
  await asItOpens({}, async ({ page }) => {
    await bringIn(page, { name: 'signs.md', mimeType: 'text/markdown', buffer: Buffer.from(`# Signs\n\n${source}\n${given('F', '1 N', 'N')}`) });
    const prose = page.locator('.sheet.at-work .prose, .sheet.at-work .cell-prose').filter({ hasText: '[°]' }).first();
    const shown = await prose.evaluate((element, html) => {
      const expected = new DOMParser().parseFromString(html, 'text/html').body;
      const said = (part: Element): readonly (string | null)[] => [...part.querySelectorAll('p')].map(({ textContent }) => textContent);
      const links = (part: Element): readonly (string | null)[] => [...part.querySelectorAll('p a')].map((link) => link.getAttribute('href'));
      return { page: [said(element), links(element)], node: [said(expected), links(expected)] };
    }, renderProse(source, await contextOf('# Signs\n')));
    expect(shown.page).toEqual(shown.node);
    expect(String(shown.node)).toContain('[°] [σ]');
  });
});
