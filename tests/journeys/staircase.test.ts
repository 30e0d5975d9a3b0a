/** A staircase at the bench: the next level is said, its row is added, and strength, advice and chart follow. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, intoView, screenshot, withPage, type Opening } from './harness.ts';
import { expectNoLeaks, textOf } from './sheet-page.ts';

const found = (page: Page): Locator => page.locator('[data-cell="staircase"]');
const advice = async (page: Page): Promise<string> => textOf(found(page).locator('.advice'));
const chart = (page: Page): Locator => page.locator('[data-cell="stairs"]');
const field = (page: Page, label: string): Locator => page.getByRole('textbox', { name: label, exact: true });
/** By its words and not by its role: what lies out of view is not laid out, and has no role until it is. */
const goOn = (page: Page): Locator => found(page).locator('button', { hasText: 'add the next test at' });

const STAIRCASE = { sheet: 'staircase.md' };

const openings: readonly (readonly [string, Opening])[] = [
  ['phone', { size: 'phone' }],
  ['desktop', { size: 'desktop' }],
];

describe('a staircase in the page', () => {
  test.each(openings)('%s: by keyboard, the next test is added, broken, and all follows', async (name, opening) => {
    await withPage({ ...opening, ...STAIRCASE }, async ({ page }) => {
      await intoView(found(page));
      expect(await advice(page)).toBe('Next test: 280 MPa, one step of 10 MPa below 290 MPa, because Q18 broke there.');
      expect(await textOf(found(page))).toContain('Counting runouts');
      const before = await textOf(chart(page));
      await screenshot(page, `staircase-${name}`);
      await intoView(found(page));

      await goOn(page).focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => field(page, 'Specimen, row 19').evaluate((one) => one === document.activeElement)).toBe(true);
      await page.keyboard.type('Q19');
      await page.keyboard.press('Enter');
      expect(await field(page, 'Level (stress amplitude), row 19').inputValue()).toBe('280');
      await expect.poll(() => advice(page)).toContain('Test now: Q19 at 280 MPa');
      expect(await goOn(page).count()).toBe(0);

      await field(page, 'Outcome, row 19').focus();
      await page.keyboard.type('unbroken');
      await page.keyboard.press('Enter');
      await expect.poll(() => advice(page)).toBe('Next test: 290 MPa, one step of 10 MPa above 280 MPa, because Q19 did not break there.');
      await expect.poll(() => textOf(found(page))).toContain('19 that count: 10 fractures, 9 runouts');
      await expect.poll(() => textOf(chart(page))).not.toBe(before);
      await expectNoLeaks(page);
      await checkAccess(page);
      await screenshot(page, `staircase-${name}-after`);
    });
  });

  test('the row added is one step to undo', async () => {
    await withPage(STAIRCASE, async ({ page }) => {
      await intoView(found(page));
      await goOn(page).focus();
      await page.keyboard.press('Enter');
      await expect.poll(() => field(page, 'Level (stress amplitude), row 19').inputValue()).toBe('280');
      await found(page).focus();
      await page.keyboard.press('Control+z');
      await expect.poll(() => advice(page)).toContain('Next test: 280 MPa');
      expect(await field(page, 'Level (stress amplitude), row 19').count()).toBe(0);
    });
  });
});
