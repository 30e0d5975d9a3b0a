/** Where the uncertainty of a result comes from, and what would make it surer: by keyboard alone, at the bench and at the desk. */
import { describe, expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { checkAccess, screenshot, withPage } from './harness.ts';
import { expectNoLeaks, line, textOf } from './sheet-page.ts';

/** Goes on with Tab until a control of that name has the focus. */
async function tabTo(page: Page, control: Locator): Promise<void> {
  for (let i = 0; i < 60; i += 1) {
    if (await control.evaluate((element) => element === document.activeElement)) return;
    await page.keyboard.press('Tab');
  }
  throw new Error('Tab never came there');
}

describe.each(['phone', 'desktop'] as const)('on a %s', (size) => {
  test('a budget is opened, an input unfolded, and a wanted uncertainty typed', async () => {
    await withPage({ size }, async ({ page }) => {
      const stress = line(page, 'sigma_a');
      await stress.scrollIntoViewIfNeeded();
      await stress.focus();
      await tabTo(page, stress.getByRole('button', { name: 'uncertainty budget' }));
      await page.keyboard.press('Enter');
      const table = stress.getByRole('region', { name: 'Uncertainty budget of sigma_a' });
      await table.waitFor();
      const share = await textOf(table.locator('tbody tr').first());
      expect(share).toMatch(/Normal|A and B|B,/);
      await tabTo(page, table.getByRole('button', { name: /parts of Minimum diameter/ }));
      await page.keyboard.press('Enter');
      await expect.poll(() => textOf(table)).toContain('4 readings');
      expect(await textOf(table)).toMatch(/resolution 0\.01 mm/);
      await tabTo(page, stress.getByRole('textbox', { name: /What would it take/ }));
      await page.keyboard.type('0.4 %');
      await expect.poll(() => textOf(stress.locator('.what-it-takes'))).toMatch(/Wanted: a standard uncertainty of .* MPa, 0\.40 % of the value/);
      await screenshot(page, `budget-${size}`, { fullPage: false });
      await stress.locator('.what-it-takes').scrollIntoViewIfNeeded();
      await screenshot(page, `budget-takes-${size}`, { fullPage: false });
      await checkAccess(page);
      await expectNoLeaks(page);
    });
  });
});
