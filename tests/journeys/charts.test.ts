/** Charts: seen, read with pointer and keys, following the sheet, taken along in every form. */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, colours, download, goToFile, intoView, screenshot, withPage } from './harness.ts';
import { renamed } from './saved-file.ts';
import { chooseTakeaway, expectNoLeaks, fill, textOf } from './sheet-page.ts';

const CLASS = { sheet: 'sn-line.md' };

/** A chart in view: one that is not is not drawn yet. */
async function chart(page: Page, id: string): Promise<Locator> {
  const cell = page.locator(`[data-cell="${id}"]`);
  await cell.waitFor();
  // What is drawn above meanwhile may push it out of view again.
  await expect.poll(async () => {
    await cell.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    return cell.locator('svg.chart').count();
  }).toBe(1);
  // What stands above takes its full height once it is in view.
  await cell.evaluate((element) => element.scrollIntoView({ block: 'center' }));
  return cell;
}

const reading = (cell: Locator): Promise<string> => textOf(cell.locator('.chart-reading'));
const centre = async (mark: Locator): Promise<{ x: number; y: number }> => {
  const box = await mark.boundingBox();
  if (box === null) throw new Error('the mark is not on the page');
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

describe('charts', () => {
  test('the start sheet has the line with the specimen on it, before the script and after', async () => {
    await withPage({ withoutScripts: true }, async ({ page }) => {
      expect(await page.locator('[data-cell="s-n"] svg.chart, #cell-s-n svg.chart').first().locator('.current-mark').count()).toBe(1);
    });
    await withPage({}, async ({ page }) => {
      const cell = await chart(page, 's-n');
      await screenshot(page, 'chart-life-desktop', { fullPage: false });
      expect(await cell.locator('.current-mark').count()).toBe(1);
      expect(await textOf(cell.locator('figcaption'))).toMatch(/This specimen: 371\.8 MPa, median life 121 000 cycles/);
      const before = await cell.locator('.current-mark').getAttribute('cx');
      await fill(page, 'F', '290 N');
      await chart(page, 's-n');
      await expect.poll(() => textOf(cell.locator('figcaption'))).toMatch(/This specimen: 347\.\d MPa/);
      expect(Number(await cell.locator('.current-mark').getAttribute('cx'))).toBeGreaterThan(Number(before));
      await expectNoLeaks(page);
      // On paper its name stands beside it, and what is for pointing at does not.
      await page.emulateMedia({ media: 'print' });
      await cell.locator('text.look').waitFor({ state: 'visible' });
      expect(await cell.locator('.chart-reading').isVisible()).toBe(false);
    });
  });

  test('values are read with the keyboard, announced, and let go with Escape', async () => {
    await withPage(CLASS, async ({ page }) => {
      const cell = await chart(page, 's-n');
      expect(await reading(cell)).toMatch(/arrow keys/);
      await cell.getByRole('slider', { name: 'Values of S-N chart' }).focus();
      await page.keyboard.press('Home');
      expect(await reading(cell)).toMatch(/^K02 \(steel K\): 460 MPa, broke at 52 073 cycles\. At 460 MPa the line gives a median of /);
      await page.keyboard.press('ArrowRight');
      expect(await reading(cell)).toMatch(/^M01 \(steel M\): 440 MPa, broke at 64 915 cycles\./);
      expect(await cell.getByRole('slider').getAttribute('aria-valuetext')).toBe('mark 2 of 24');
      await page.keyboard.press('End');
      expect(await reading(cell)).toMatch(/280 MPa, runout, unbroken at 10 000 000 cycles\./);
      await page.keyboard.press('ArrowRight');
      expect(await cell.getByRole('slider').getAttribute('aria-valuenow')).toBe('24');
      expect(await cell.locator('[aria-live="polite"]').textContent()).toContain('runout');
      await screenshot(page, 'chart-keys-desktop', { fullPage: false });
      await checkAccess(page);
      await page.keyboard.press('Escape');
      expect(await reading(cell)).toMatch(/arrow keys/);
      await page.keyboard.press('Tab');
      expect(await cell.getByRole('slider').evaluate((element) => element === document.activeElement)).toBe(false);
    });
  });

  test('the pointer reads the nearest mark', async () => {
    await withPage(CLASS, async ({ page }) => {
      const cell = await chart(page, 's-n');
      const { x, y } = await centre(cell.locator('.specimen.group-2 path').first());
      await page.mouse.move(x + 5, y - 4, { steps: 3 });
      expect(await reading(cell)).toMatch(/^M01 \(steel M\): 440 MPa/);
      const ring = await centre(cell.locator('.reading-ring'));
      expect(Math.hypot(ring.x - x, ring.y - y)).toBeLessThan(3);
      await page.mouse.move(10, 10);
      expect(await reading(cell)).toMatch(/arrow keys/);
    });
  });

  test('an edit of a row moves its mark, the line and the residuals', async () => {
    await withPage(CLASS, async ({ page }) => {
      const cell = await chart(page, 's-n');
      const places = (): Promise<string[]> => cell.locator('.specimen.broken.group-1 > path').evaluateAll((marks) => marks.map((mark) => mark.getAttribute('transform') ?? ''));
      const line = (): Promise<string | null> => cell.locator('g.median-line path').first().getAttribute('d');
      const [before, lineBefore] = [await places(), await line()];
      const field = page.locator('[data-cell="specimens"] input');
      await intoView(page.locator('[data-cell="specimens"]'));
      const values = await field.evaluateAll((inputs) => inputs.map((input) => (input as HTMLInputElement).value));
      const at = values.indexOf('81493');
      expect(at).toBeGreaterThanOrEqual(0);
      await field.nth(at).fill('281493');
      await page.keyboard.press('Enter');
      await chart(page, 's-n');
      await expect.poll(line).not.toBe(lineBefore);
      const after = await places();
      expect(after.length).toBe(before.length);
      expect(after[0]).not.toBe(before[0]);
      expect((await textOf(cell.locator('figcaption')))).toMatch(/At least 90 % of specimens outlast the design curve/);
      await chart(page, 'residuals');
      await screenshot(page, 'chart-residuals-desktop', { fullPage: false });
      await chart(page, 'normal-scores');
      await screenshot(page, 'chart-normal-scores-desktop', { fullPage: false });
    });
  });

  test.each(colours)('on a phone everything is there, large enough to read, and nothing is wider than the page (%s)', async (colorScheme) => {
    await withPage({ ...CLASS, size: 'phone', colorScheme }, async ({ page }) => {
      const cell = await chart(page, 's-n');
      const svg = cell.locator('svg.chart');
      const sizes = await svg.locator('text').evaluateAll((texts) => texts.map((text) => Number.parseFloat(getComputedStyle(text).fontSize)));
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(11);
      const box = await svg.boundingBox();
      expect(box?.width ?? 0).toBeGreaterThan(300);
      // One unit of the drawing is one px of the page: letters have the size that they were given.
      expect(Math.abs((box?.width ?? 0) - Number(await svg.getAttribute('width')))).toBeLessThan(2);
      expect(await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)).toBe(0);
      const mark = await centre(cell.locator('.specimen.group-1 path').first());
      await page.touchscreen.tap(mark.x, mark.y);
      await expect.poll(() => reading(cell)).toMatch(/^K\d\d \(steel K\)/);
      await screenshot(page, `chart-phone-${colorScheme}`, { fullPage: false });
      await chart(page, 'residuals');
      await screenshot(page, `chart-residuals-phone-${colorScheme}`, { fullPage: false });
      await checkAccess(page);
    });
  });

  test('the report and the picture have the chart', async () => {
    await withPage(CLASS, async ({ page }) => {
      await chart(page, 's-n');
      const png = await download(page, () => chooseTakeaway(page, 'S-N chart as PNG'));
      const bytes = readFileSync(png.path);
      // PNG (second edition), W3C Recommendation, 5.2: the signature; 11.2.2: the width in the first chunk.
      expect([...bytes.subarray(0, 8)]).toEqual([137, 80, 78, 71, 13, 10, 26, 10]);
      expect(bytes.readUInt32BE(16)).toBe(2100);
      expect(bytes.length).toBeGreaterThan(30_000);
      const svg = await download(page, () => chooseTakeaway(page, 'S-N chart as SVG'));
      const report = await download(page, () => chooseTakeaway(page, 'Report'));
      // Three charts, each laid out for a wide page, a narrow one and paper.
      expect(report.text.match(/class="drawing chart"/g)?.length).toBe(9);

      await goToFile(page, renamed(svg));
      // On white, with looks of its own.
      expect(await page.locator('g.median-line > *').first().evaluate((element) => getComputedStyle(element).stroke)).toBe('rgb(29, 42, 58)');
      expect(await page.locator('.specimen.broken.group-2 > *').first().evaluate((element) => getComputedStyle(element).fill)).toBe('rgb(58, 110, 168)');
      await screenshot(page, 'chart-file', { fullPage: false });

      await goToFile(page, renamed(report));
      const figure = page.locator('svg.chart').filter({ visible: true }).first();
      await intoView(figure);
      await screenshot(page, 'chart-report', { fullPage: false });
      expect(await textOf(page.locator('figcaption').first())).toMatch(/^S-N chart\. 19 specimens broke between 52 073 and 6 892 692 cycles/);
      await checkAccess(page);
    });
  });
});
