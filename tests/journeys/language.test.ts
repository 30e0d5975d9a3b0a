/** The language of the sheet, looked up in the page: at its foot, and beside the open text of a line. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { checkAccess, colours, screenshot, withPage } from './harness.ts';
import { line } from './sheet-page.ts';

const narrow = { viewport: { width: 360, height: 640 }, hasTouch: true };

const isNoWider = async (page: Page): Promise<boolean> => page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth);

test.each(colours)('is found at the foot with the keyboard, on a narrow telephone, %s', async (colorScheme) => {
  await withPage({ size: 'phone', colorScheme, context: narrow }, async ({ page }) => {
    const help = page.locator('.sheet-foot .language');
    await help.waitFor({ state: 'attached' });
    await help.locator(':scope > summary').focus();
    await page.keyboard.press('Enter');
    for (const kind of ['given', 'fit']) {
      await help.getByText(kind, { exact: true }).first().focus();
      await page.keyboard.press('Enter');
    }
    await expect.poll(() => help.getByRole('row', { name: /^instrument What it was read with/ }).isVisible()).toBe(true);
    await expect.poll(() => help.getByRole('table', { name: /asks of a fit that finds limits/ }).isVisible()).toBe(true);
    expect(await isNoWider(page)).toBe(true);
    await checkAccess(page);
    await screenshot(page, `language-${colorScheme}`, { fullPage: false });
  });
});

test('stands beside the open text of a line, that of its kind', async () => {
  await withPage({}, async ({ page }) => {
    const cell = line(page, 'R_A');
    await cell.focus();
    await page.keyboard.press('Control+.');
    await page.getByRole('menuitem', { name: /own text/ }).click();
    await cell.getByRole('textbox', { name: /Own text of this step/ }).waitFor();
    await cell.getByText('What a step takes').focus();
    await page.keyboard.press('Enter');
    await expect.poll(() => cell.getByRole('row', { name: /^formula How it is worked out/ }).isVisible()).toBe(true);
    // The text that is typed meanwhile leaves it open.
    await cell.getByRole('textbox', { name: /Own text of this step/ }).press('End');
    await page.keyboard.type(' ');
    await expect.poll(() => cell.getByRole('row', { name: /^formula How it is worked out/ }).isVisible()).toBe(true);
    await checkAccess(page);
  });
});
