/**
 * A sheet whose every word holds signs of direction, and not a word, number or button of the page or the report is turned by them. By the rules
 * of Unicode Standard Annex 9, which the browser follows, what runs from left to right stands there in its order; so that is measured.
 */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { download, goToFile, SHORT, withPage } from './harness.ts';
import { bringIn, chooseTakeaway, head, notice, textOf } from './sheet-page.ts';
import { renamed } from './saved-file.ts';
import { OF_EVERYTHING } from '../sheet-of-everything.ts';

/**
 * What does not stand in its order: letters and digits of ours within a text (the sheet's words have none), and neighbours in one line. Within
 * a stretch of the sheet's own prose only the values put in count, the rest being one text.
 */
async function turned(page: Page): Promise<{ readonly looked: number; readonly faults: readonly string[] }> {
  return page.evaluate(() => {
    const faults: string[] = [];
    let looked = 0;
    const range = document.createRange();
    const boxOf = (text: Node, at: number): DOMRect | undefined => {
      range.setStart(text, at);
      range.setEnd(text, at + 1);
      return range.getClientRects()[0];
    };
    const isBehind = (one: DOMRect, other: DOMRect): boolean => Math.abs(one.bottom - other.bottom) < 3 && other.left < one.left - 0.5;
    const shown = (element: Element): boolean => element.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: false });
    const isOwn = (element: Element): boolean => element.closest('.prose, .cell-remark .text') !== null && element.closest('.live') === null;

    const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = texts.nextNode(); text !== null; text = texts.nextNode()) {
      const element = text.parentElement;
      const content = text.nodeValue ?? '';
      if (element === null || element.closest('script, style, template, option, .katex, math') !== null || isOwn(element) || !shown(element)) continue;
      let before: DOMRect | undefined;
      for (let i = 0; i < content.length; i += 1) {
        if (!/[A-Za-z0-9]/.test(content.charAt(i))) continue;
        const box = boxOf(text, i);
        if (box === undefined || box.width === 0) continue;
        looked += 1;
        if (before !== undefined && isBehind(before, box)) {
          faults.push(`letters: ${JSON.stringify(content.slice(0, 120))} in ${element.className || element.localName}`);
          break;
        }
        before = box;
      }
    }

    for (const parent of document.body.querySelectorAll('p, li, td, th, dt, dd, div, h1, h2, h3, h4, span, label, figcaption, legend, caption, section')) {
      if (parent.closest('.katex, math, svg') !== null || isOwn(parent) || !shown(parent) || !/^(block|inline|inline-block|table-cell|list-item|table-caption)$/.test(getComputedStyle(parent).display)) continue;
      let before: { readonly box: DOMRect; readonly words: string } | undefined;
      for (const child of parent.childNodes) {
        const words = (child.textContent ?? '').trim();
        if (words === '' && !(child instanceof HTMLInputElement)) continue;
        if (child instanceof Element) {
          const { display, position, float } = getComputedStyle(child);
          if (!display.startsWith('inline') || position === 'absolute' || position === 'fixed' || float !== 'none' || !shown(child)) continue;
        } else if (!(child instanceof Text)) continue;
        range.selectNodeContents(child);
        const boxes = [...(child instanceof Element ? child.getClientRects() : range.getClientRects())].filter(({ width }) => width > 0);
        const [first, last] = [boxes[0], boxes.at(-1)];
        if (first === undefined || last === undefined) continue;
        looked += 1;
        if (before !== undefined && isBehind(before.box, first)) {
          faults.push(`neighbours: ${JSON.stringify(words.slice(0, 60))} stands before ${JSON.stringify(before.words.slice(0, 60))} in ${parent.className || parent.localName}`);
        }
        before = { box: last, words };
      }
    }
    return { looked, faults };
  });
}

test('words with signs of direction turn nothing beside them, on the page and in the report', async () => {
  await withPage({ sheet: SHORT, size: 'desktop' }, async ({ page }) => {
    await bringIn(page, { name: 'ж\u202eю', mimeType: 'text/markdown', buffer: Buffer.from(OF_EVERYTHING) });
    await expect.poll(() => textOf(notice(page))).toMatch(/is brought in as a sheet of its own/);
    await page.addStyleTag({ content: '.sheet > .cell { content-visibility: visible !important }' });
    await page.locator('[data-cell="s-n"] svg').first().waitFor();
    const found = await turned(page);
    expect(found.faults).toEqual([]);
    expect(found.looked).toBeGreaterThan(3000);
    const stress = page.locator('[data-symbol="sigma_a"]');
    await stress.hover();
    for (const name of ['back to the inputs', 'uncertainty budget', 'draws', 'against an input', 'work back']) {
      await stress.locator('.line-actions').getByText(name, { exact: true }).click();
    }
    await stress.locator('.budget-table').waitFor();
    await stress.locator('.sweep svg').first().waitFor();
    await stress.locator('.work-back').waitFor();
    expect((await turned(page)).faults).toEqual([]);
    for (const name of ['Sheets', 'Take away', /^Hold/, /^Slips/]) {
      await head(page).getByRole('button', { name }).first().click();
      await head(page).locator('.panel').waitFor();
      expect((await turned(page)).faults).toEqual([]);
      await page.keyboard.press('Escape');
    }
    const report = await download(page, () => chooseTakeaway(page, 'Report'));
    await goToFile(page, renamed(report));
    await page.addStyleTag({ content: '.sheet > .cell { content-visibility: visible !important }' });
    const there = await turned(page);
    expect(there.faults).toEqual([]);
    expect(there.looked).toBeGreaterThan(2000);
  });
});
