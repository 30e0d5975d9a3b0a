/** What is printed is the whole sheet, whether one has scrolled or not: every drawing, nothing cut off, no page nearly empty. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { download, goToFile, keepForLooking, withPage } from './harness.ts';
import { pdfPages } from './pdf-text.ts';
import { renamed } from './saved-file.ts';
import { chartsBrought, chooseTakeaway } from './sheet-page.ts';

/** Between the margins of 16 mm, at 96 px an inch. */
const PRINTED_WIDTH = { A4: 672, Letter: 694 } as const;

describe('the page printed as soon as it is open, without scrolling', () => {
  test.each(['A4', 'Letter'] as const)('%s: every drawing and chart, nothing cut, no page nearly empty', async (format) => {
    await withPage({}, async ({ page }) => {
      await page.locator('.sheet.at-work .cell-figure').first().waitFor();
      await chartsBrought(page, 2);
      const pdf = await page.pdf({ format, printBackground: false });
      keepForLooking(`print-${format}.pdf`, pdf);
      const pages = pdfPages(pdf);
      expect(pages.length).toBeGreaterThan(3);
      expect(pages.length).toBeLessThan(32);
      // The last one ends where the sheet does: with heads under which nothing is written yet, say.
      expect(Math.min(...pages.slice(0, -1).map(({ text }) => text.length)), `signs on each page: ${pages.map(({ text }) => text.length).join(', ')}`).toBeGreaterThan(150);
      expect(pages.at(-1)?.text.length).toBeGreaterThan('Rotatingbending,twoloadpoints·T4,solarboat·2026-11-2025/25'.length);
      pages.forEach(({ text }, i) => expect(text).toContain(`${i + 1}/${pages.length}`));
      expect(pages[0]?.text).toContain('Rotatingbending,twoloadpoints·T4,solarboat·2026-11-20');

      await asPrinted(page, PRINTED_WIDTH[format]);
      const figures = await figuresIn(page);
      expect(figures.map(({ id }) => id)).toEqual(['free-body', 'shear-moment', 'stress-budget', 's-n', 'stress-along-axis'].map((id) => expect.stringContaining(id)));
      for (const { id, labels, width } of figures) {
        expect(width, id).toBeGreaterThan(400);
        expect(labels.length, id).toBeGreaterThan(3);
        // A drawing is never split: all that is written in it stands on one page.
        expect(pages.some(({ text }) => labels.every((label) => text.includes(label))), `${id}: ${labels.join(' | ')}`).toBe(true);
      }
      expect(await cutOff(page)).toEqual([]);
      expect(await controlsIn(page)).toEqual([]);
    });
  });

  test.each([['alternating-bending.md', 2], ['sn-line.md', 3], ['staircase.md', 1], ['specimen.md', 0]] as const)('%s: nothing is cut off at the right edge', async (sheet, charts) => {
    await withPage({ sheet }, async ({ page }) => {
      await page.locator('.sheet.at-work .cell-figure').first().waitFor();
      await chartsBrought(page, charts);
      const pages = pdfPages(await page.pdf({ format: 'A4', printBackground: false }));
      await asPrinted(page, PRINTED_WIDTH.A4);
      const figures = await figuresIn(page);
      expect(figures.length).toBeGreaterThan(0);
      for (const { id, labels } of figures) expect(pages.some(({ text }) => labels.every((label) => text.includes(label))), `${id}: ${labels.join(' | ')}`).toBe(true);
      expect(await cutOff(page)).toEqual([]);
    });
  });

  test('in the first moment a chart that is not drawn yet says so on paper, and is drawn in the next print', async () => {
    const printAtOnce = (): void => {
      const observer = new MutationObserver(() => {
        if (document.querySelector('.sheet.at-work .chart-drawn[aria-busy]') === null) return;
        observer.disconnect();
        dispatchEvent(new Event('beforeprint'));
        Object.assign(window, { printedAtOnce: [...document.querySelectorAll('.chart-drawn .paper')].map(({ textContent }) => textContent) });
        dispatchEvent(new Event('afterprint'));
      });
      observer.observe(document, { childList: true, subtree: true, attributes: true, attributeFilter: ['aria-busy', 'class'] });
    };
    await withPage({ before: printAtOnce }, async ({ page }) => {
      const said = 'This chart is not drawn yet: print again in a moment.';
      await expect.poll(() => page.evaluate(() => (window as unknown as { printedAtOnce?: string[] }).printedAtOnce)).toEqual([said, said]);
      await chartsBrought(page, 2);
      expect(await page.locator('.chart-drawn .paper').allTextContents()).not.toContain(said);
      const paper = pdfPages(await page.pdf({ format: 'A4' })).map(({ text }) => text).join('');
      expect(paper).not.toContain('notdrawnyet');
      await asPrinted(page, PRINTED_WIDTH.A4);
      const figures = await figuresIn(page);
      expect(figures.length).toBe(5);
      for (const { id, labels } of figures) {
        expect(labels.length, id).toBeGreaterThan(3);
        expect(labels.filter((label) => !paper.includes(label)), id).toEqual([]);
      }
    });
  });

  test('words that are longer than their blank stand whole on paper', async () => {
    await withPage({ sheet: 'writing-a-sheet.md' }, async ({ page }) => {
      await page.locator('.sheet.at-work .cell-record input.blank').first().waitFor();
      const paper = pdfPages(await page.pdf({ format: 'A4', printBackground: false })).map(({ text }) => text).join('');
      expect(paper).toContain('polishedalongtheaxis,600paper');
      await asPrinted(page, PRINTED_WIDTH.A4);
      const fields = await page.evaluate(() => [...document.querySelectorAll<HTMLInputElement | HTMLTextAreaElement>('.sheet :is(input, textarea):is(.blank, .field)')]
        .filter((field) => field.value !== '' && field.checkVisibility({ visibilityProperty: true }))
        .map((field) => ({ value: field.value, isCut: field.scrollWidth > field.clientWidth + 1 || field.scrollHeight > field.clientHeight + 1 })));
      expect(fields.length).toBeGreaterThan(5);
      expect(fields.filter(({ isCut }) => isCut).map(({ value }) => value)).toEqual([]);
      for (const words of ['polished along the axis, 600 paper', 'Ra 0.2 µm along the axis', 'load and speed steady for 10 min']) {
        expect(await page.locator('.cell-record').getByText(words, { exact: true }).filter({ visible: true }).count(), words).toBeGreaterThan(0);
      }
      expect(await cutOff(page)).toEqual([]);
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
      expect(await page.locator('.whole-on-paper').count()).toBe(0);
    });
  });

  test('afterwards the page is as it was', async () => {
    await withPage({}, async ({ page }) => {
      const drawing = page.locator('.cell-figure svg').first();
      // Drawn for the width that it has.
      await expect.poll(() => drawing.evaluate((svg) => svg.closest('.drawn')?.clientWidth === (svg as SVGSVGElement).viewBox.baseVal.width)).toBe(true);
      const before = await drawing.getAttribute('viewBox');
      await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
      expect(await drawing.getAttribute('viewBox')).not.toBe(before);
      await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
      await expect.poll(() => drawing.getAttribute('viewBox')).toBe(before);
      expect(await page.evaluate(() => [...document.querySelectorAll('head style')].filter((style) => style.textContent.includes('@bottom-left { content')).length)).toBe(0);
    });
  });
});

describe('the report printed', () => {
  test('of the rotating example it has at most eight A4 pages before its appendices, nothing cut and no figure split', async () => {
    await withPage({}, async ({ page }) => {
      await page.locator('.sheet.at-work .cell-figure').first().waitFor();
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      await goToFile(page, renamed(report));
      const pdf = await page.pdf({ format: 'A4', printBackground: false });
      keepForLooking('report-A4.pdf', pdf);
      const pages = pdfPages(pdf);
      // The place for signatures ends what is marked; the appendices begin on a page of their own behind it.
      const signed = pages.findIndex(({ text }) => text.includes('SignedMarked'));
      expect(signed).toBeGreaterThan(0);
      expect(signed + 1).toBeLessThanOrEqual(8);
      expect(pages[signed + 1]?.text).toContain('Partsondemand');
      expect(pages[signed]?.text).not.toContain('Partsondemand');
      expect(pages.length).toBeGreaterThan(signed + 2);

      await page.setViewportSize({ width: PRINTED_WIDTH.A4, height: 1000 });
      await page.emulateMedia({ media: 'print' });
      const figures = await figuresIn(page);
      expect(figures.length).toBeGreaterThanOrEqual(5);
      for (const { id, labels } of figures) expect(pages.some(({ text }) => labels.every((label) => text.includes(label))), `${id}: ${labels.join(' | ')}`).toBe(true);
      expect(await cutOff(page)).toEqual([]);
      // A formula among the notes stays in its column, of two with 7 mm between them, or takes both; none is set in letters too small to read.
      const formulas = await page.evaluate(() => [...document.querySelectorAll('.noted .whole')].map((whole) => {
        const parts = [...whole.querySelectorAll('.katex-html .katex-base')].map((part) => part.getBoundingClientRect().width);
        return { width: Math.max(0, ...parts), room: whole.closest('.noted')?.clientWidth ?? 0, letters: Number.parseFloat(getComputedStyle(whole).fontSize) / 4 * 3 };
      }));
      expect(formulas.length).toBeGreaterThan(3);
      for (const { width, room, letters } of formulas) {
        expect(width).toBeLessThan(room);
        expect(letters, 'pt').toBeGreaterThan(6.5);
      }
      expect(new Set(formulas.map(({ room }) => room)).size).toBe(2);
    });
  });

  test('wherever the page ends, the place for signatures stands with what is left open', async () => {
    await withPage({ sheet: 'staircase.md' }, async ({ page }) => {
      await page.locator('.sheet.at-work .cell-figure').first().waitFor();
      await goToFile(page, renamed(await download(page, () => chooseTakeaway(page, 'Report'))));
      await page.evaluate(() => document.querySelector('.left-open')?.before(Object.assign(document.createElement('div'), { id: 'room' })));
      const apart: number[] = [];
      // Down over one page in steps less than what is left open is high.
      for (let height = 0; height < 1000; height += 40) {
        await page.evaluate((px) => document.getElementById('room')?.style.setProperty('height', `${px}px`), height);
        const pages = pdfPages(await page.pdf({ format: 'A4', printBackground: false }));
        if (!pages.some(({ text }) => text.includes('SignedMarked') && text.includes('Leftopen'))) apart.push(height);
      }
      expect(apart).toEqual([]);
    });
  });
});

/** The page as it is laid out between a printed page's margins. */
async function asPrinted(page: Page, width: number): Promise<void> {
  await page.setViewportSize({ width, height: 1000 });
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
}

/** Every figure of the sheet with what is written in it, piece by piece and without white space. A report has each drawing in several widths, and shows one. */
async function figuresIn(page: Page): Promise<{ readonly id: string; readonly labels: string[]; readonly width: number }[]> {
  return page.evaluate(() => [...document.querySelectorAll('.cell-figure')].map((figure) => ({
    id: figure.id,
    width: [...figure.querySelectorAll('.drawn svg')].find((svg) => svg.checkVisibility())?.getBoundingClientRect().width ?? 0,
    labels: [...figure.querySelectorAll('.drawn svg :is(text, tspan)')].filter((text) => text.childElementCount === 0 && text.closest('.drawn')?.checkVisibility() === true)
      .map((text) => text.textContent.replace(/[\s\u2066-\u2069]/gu, '')).filter((label) => label.length > 1),
  })));
}

/** What reaches beyond the printed page's right edge. */
async function cutOff(page: Page): Promise<string[]> {
  return page.evaluate(() => [...document.querySelectorAll('.sheet *')]
    .filter((element) => element.closest('.katex-mathml, .visually-hidden, svg *') === null && element.getBoundingClientRect().right > window.innerWidth + 1 && element.checkVisibility())
    .map((element) => `${element.closest('.cell')?.id ?? ''} ${element.tagName} ${element.getAttribute('class') ?? ''}: ${Math.round(element.getBoundingClientRect().right)} px`).slice(0, 12));
}

/**
 * Boxes to tick, options and instruments are part of what is read on paper, and so are presses that are the words of a heading or of a sentence:
 * whose values these are, what is still to be done, what a part on demand is called. Other controls are not.
 */
async function controlsIn(page: Page): Promise<string[]> {
  return page.evaluate(() => [...document.querySelectorAll('button, summary, input[name="unit-system"], input[type="file"], nav, [role="slider"]')]
    .filter((element) => !element.matches('.origins > summary, .attention > li > button, .aside-heading > .aside-opener') && element.checkVisibility({ visibilityProperty: true, opacityProperty: true }))
    .map((element) => element.getAttribute('aria-label') ?? element.textContent ?? '')
    .filter((name) => !name.includes('how it was measured')));
}
