/** States held, compared and gone back to, with the keyboard only. */
import { describe, expect, test } from 'vitest';
import { readFile } from 'node:fs/promises';
import type { Page } from 'playwright';
import { checkAccess, screenshot, withPage } from './harness.ts';
import { blanks, chooseTakeaway, expectNoLeaks, line, plain, textOf, typed } from './sheet-page.ts';

/** Focuses by name, as a reader who tabs there; what is pressed then is pressed by key. */
async function press(page: Page, name: string | RegExp): Promise<void> {
  await page.getByRole('button', { name, exact: typeof name === 'string' }).first().focus();
  await page.keyboard.press('Enter');
}

async function typeOver(page: Page, symbol: string, text: string): Promise<void> {
  const all = blanks(page, symbol);
  await all.first().waitFor({ state: 'attached' });
  for (let i = (await all.count()) - 1; i >= 0; i -= 1) {
    await all.nth(i).focus();
    await page.keyboard.press('Control+A');
    if (i > 0) await page.keyboard.press('Delete');
    else await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
}

const shift = (page: Page, symbol: string) => line(page, symbol).locator('.margin .shift');

async function holdAs(page: Page, name: string): Promise<void> {
  await page.getByLabel('Hold what the sheet says now under the name').focus();
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
  await page.getByRole('textbox', { name: `Name of the held state ${name}` }).waitFor();
}

describe('hold and compare', () => {
  test.each(['desktop', 'phone'] as const)('with the keyboard, %s', async (size) => {
    await withPage({ size }, async ({ page }) => {
      await typeOver(page, 'd', '7.00 mm');
      await press(page, 'Hold');
      expect(await page.locator('.panel').textContent()).toContain('keeps what stands in the blanks');
      await holdAs(page, 'as built');
      await press(page, 'Compare with this: as built');
      await page.getByRole('button', { name: 'Compare with this: as built', pressed: true }).waitFor();
      await page.keyboard.press('Escape');
      await page.locator('.reference-band').waitFor();

      // sigma = 32 M/(pi d^3): from 7.00 mm to 7.35 mm it falls by 1 − (7/7.35)^3 = 13.6 % (any textbook of strength of materials).
      await typeOver(page, 'd', '7.35 mm');
      await shift(page, 'sigma_a').waitFor();
      expect(plain(await textOf(shift(page, 'd')))).toContain('+0.350 mm, +5.00 % from “as built”');
      expect(plain(await textOf(shift(page, 'sigma_a')))).toMatch(/lower: -[\d.]+ MPa, -13\.6 % from “as built”/);
      expect(plain(await textOf(shift(page, 'N_f')))).toMatch(/higher: × [\d.]+ from “as built”/);
      expect(await shift(page, 'R_A').count()).toBe(0);
      await line(page, 'sigma_a').scrollIntoViewIfNeeded();
      await screenshot(page, `hold-margin-${size}`, { fullPage: false });

      await press(page, /^Hold \(1 held\)/);
      await holdAs(page, 'thicker');
      const table = page.locator('.panel .held-table');
      await expect.poll(async () => plain(await textOf(table))).toContain('-13.6 %');
      expect(await table.getByRole('columnheader').allTextContents()).toEqual([expect.stringMatching(/^Now/), expect.stringMatching(/^as built \(reference\)/), expect.stringMatching(/^thicker/)]);
      expect(plain(await textOf(table))).toContain('Minimum diameter');
      const wide = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      expect(wide).toBeLessThanOrEqual(0);
      await page.evaluate(() => scrollTo(0, 0));
      await screenshot(page, `hold-panel-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);

      await press(page, 'Go back to it: as built');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.00 mm']);
      expect(await shift(page, 'sigma_a').count()).toBe(0);
      await press(page, 'undo');
      await expect.poll(() => typed(page, 'd')).toEqual(['7.35 mm']);

      await page.getByRole('textbox', { name: 'Name of the held state thicker' }).focus();
      await page.keyboard.press('Control+A');
      await page.keyboard.type('as built');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.panel .refused').textContent()).toContain('held under the name “as built” already');
      await press(page, 'Drop thicker');
      await page.getByRole('button', { name: /^Hold \(1 held\)/ }).waitFor();
    });
  }, 300_000);

  test('held states are in the document, the report and the table taken away', async () => {
    await withPage({ size: 'desktop' }, async ({ page }) => {
      await press(page, 'Hold');
      await holdAs(page, 'T4');
      await press(page, 'Compare with this: T4');
      await typeOver(page, 'd', '7.00 mm');
      const [csv] = await Promise.all([page.waitForEvent('download'), press(page, 'Take the table away (CSV)')]);
      expect(await readFile(await csv.path(), 'utf8')).toMatch(/^Quantity,Symbol,Now,Now from T4,T4\r\n"Minimum diameter/);
      const [document] = await Promise.all([page.waitForEvent('download'), chooseTakeaway(page, 'Document')]);
      expect(await readFile(await document.path(), 'utf8')).toMatch(/held:\n {2}- name: T4\n {4}at: 20\d\d-[^\n]+\n {4}inputs:\n/);
      const [report] = await Promise.all([page.waitForEvent('download'), chooseTakeaway(page, 'Report')]);
      const text = await readFile(await report.path(), 'utf8');
      expect(text).toContain('Compared with the held state “T4”');
      expect(text).toContain('class="held-table"');
    });
  });
});
