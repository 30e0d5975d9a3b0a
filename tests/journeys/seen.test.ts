/** What a sheet says is seen: a rule of another part of the page once hid whole sentences that were all there in its text. */
import { expect, test } from 'vitest';
import { withPage } from './harness.ts';
import { chartsBrought } from './sheet-page.ts';

/** Controls that come with the pointer or the focus, and what the side says already. */
const AT_NEED = '.blank-actions, .line-actions, button.light, .instrument.unstated > button, .reads-words, .said-beside';
/** What is there for the ear or for paper, or stands in a part that is closed. */
const NOT_FOR_THE_EYE = '.whole-on-paper, .katex-mathml, .katex-html, .visually-hidden, legend, svg, math, option, details:not([open]), [hidden]';

test.each([['rotating-bending.md', 2], ['sn-line.md', 3], ['staircase.md', 1]] as const)('%s: every word of it, all parts open', async (sheet, charts) => {
  await withPage({ sheet }, async ({ page }) => {
    await page.locator('.sheet.at-work .cell-figure').first().waitFor();
    await chartsBrought(page, charts);
    // As for printing: everything is drawn, wherever it stands.
    await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
    const { seen, unseen } = await page.evaluate(([atNeed, notForTheEye]) => {
      const all: { seen: number; unseen: string[] } = { seen: 0, unseen: [] };
      const texts = document.createTreeWalker(document.querySelector('.sheet') ?? document.body, NodeFilter.SHOW_TEXT);
      for (let node = texts.nextNode(); node !== null; node = texts.nextNode()) {
        const [element, text] = [node.parentElement, node.textContent?.trim() ?? ''];
        if (element === null || text === '' || element.closest(`${atNeed}, ${notForTheEye}`) !== null) continue;
        const { width, height } = element.getBoundingClientRect();
        if (element.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && width > 0 && height > 0) all.seen += 1;
        else all.unseen.push(`${element.closest('.cell')?.id ?? ''} ${element.className}: ${text.slice(0, 60)}`);
      }
      return all;
    }, [AT_NEED, NOT_FOR_THE_EYE] as const);
    expect(unseen).toEqual([]);
    expect(seen).toBeGreaterThan(50);
  });
});
