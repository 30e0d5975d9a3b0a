/** What a sheet said before: kept beside it, gone back to with one press, undone, and what undo says after loading again. */
import { describe, expect, test } from 'vitest';
import { checkAccess, colours, screenshot, SHORT, withPage } from './harness.ts';
import { fill, head, notice, textOf, typed, untilKept } from './sheet-page.ts';

describe('earlier states', () => {
  test.each(colours)('are listed with what differs, gone back to, undone, and there after loading again (%s)', async (colorScheme) => {
    await withPage({ sheet: SHORT, size: 'phone', colorScheme }, async ({ page }) => {
      const openSheets = async (): Promise<void> => {
        await head(page).getByRole('button', { name: 'Sheets', exact: true }).click();
        await head(page).getByRole('button', { name: 'Earlier states of this sheet', exact: true }).click();
      };
      const states = head(page).getByRole('list', { name: 'Earlier states of this sheet' }).getByRole('listitem');
      const undo = page.locator('.side').getByRole('button', { name: 'undo', exact: true });
      await fill(page, 'F', '325 N');
      await untilKept(page);
      await fill(page, 'd', '6.31 mm');
      await untilKept(page);
      await openSheets();
      // As it was opened, before anything was typed, and with the new load.
      await expect.poll(async () => textOf(states.last())).toMatch(/^\d\d:\d\d:\d\d .*F was 310 N/);
      await expect.poll(async () => textOf(states.nth((await states.count()) - 2))).toMatch(/d was (?!6\.31 mm)/);
      await head(page).getByText('This browser may clear sheets after weeks without a visit').waitFor();
      await checkAccess(page);
      await screenshot(page, `earlier-states-phone-${colorScheme}`, { fullPage: false });

      await states.last().getByRole('button', { name: /^Go back to it/ }).click();
      await expect.poll(() => typed(page, 'F')).toEqual(['310 N']);
      expect(await textOf(notice(page))).toMatch(/^The sheet is as it stood at \d\d:\d\d:\d\d\. Undo takes that back\./);
      await undo.click();
      await expect.poll(() => typed(page, 'F')).toEqual(['325 N']);
      expect((await typed(page, 'd'))[0]).toBe('6.31 mm');
      await untilKept(page);

      await page.reload();
      await expect.poll(() => typed(page, 'F')).toEqual(['325 N']);
      expect(await undo.getAttribute('aria-disabled')).toBe('true');
      await undo.click({ force: true });
      await expect.poll(() => textOf(page.getByRole('region', { name: 'Undo and redo' }))).toMatch(/^Nothing to undo since the page was opened; earlier states are under Sheets\./);
      await screenshot(page, `earlier-states-undo-phone-${colorScheme}`, { fullPage: false });
      await openSheets();
      await expect.poll(async () => (await states.allTextContents()).join(' ')).toMatch(/F was 310 N/);
      await page.setViewportSize({ width: 1440, height: 900 });
      await screenshot(page, `earlier-states-desktop-${colorScheme}`, { fullPage: false });
    });
  });
});
