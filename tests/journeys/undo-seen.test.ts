/** What undo changes is named wherever the page is scrolled to, with the way there and back; what is taken away offers its undo in place. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens as withPage, checkAccess, intoView, type Opening, screenshot, SHORT } from './harness.ts';
import { blank, blanks, fill, line, textOf, typed } from './sheet-page.ts';

const strip = (page: Page) => page.locator('.step-strip');
const openings: readonly (readonly [string, Opening])[] = [['phone', { size: 'phone' }], ['desktop', {}]];

test.each(openings)('%s: an undo far from its place says what came back, redo stands beside it', async (name, opening) => {
  await withPage(opening, async ({ page }) => {
    await fill(page, 'F', '325 N');
    const conclusion = page.locator('.cell-remark textarea').last();
    await conclusion.focus();
    // The text's own typing comes first, and is nobody else's business.
    await page.keyboard.type('So.');
    await page.keyboard.press('Control+Z');
    await expect.poll(() => conclusion.inputValue()).not.toContain('So.');
    expect(await typed(page, 'F')).toEqual(['325 N']);
    await page.keyboard.press('Escape');
    await page.locator('.cell-remark').last().focus();
    await page.keyboard.press('Control+Z');
    await expect.poll(async () => ((await strip(page).count()) === 0 ? '' : textOf(strip(page)))).toMatch(/^Undone: /);
    for (let i = 0; i < 3 && !(await textOf(strip(page))).includes('310 N'); i += 1) await page.keyboard.press('Control+Z');
    expect(await textOf(strip(page).locator('p'))).toBe('Undone: “Load, indicated or marked on the weights” is 310 N.');
    expect(await strip(page).evaluate((element) => element.getBoundingClientRect().bottom <= innerHeight)).toBe(true);
    await screenshot(page, `undo-strip-${name}`, { fullPage: false });
    await checkAccess(page);
    await strip(page).getByRole('button', { name: 'redo' }).click();
    await expect.poll(() => textOf(strip(page).locator('p'))).toBe('Done again: “Load, indicated or marked on the weights” is 325 N.');
    expect(await typed(page, 'F')).toEqual(['325 N']);
    await strip(page).getByRole('button', { name: 'undo' }).click();
    await strip(page).getByRole('button', { name: 'go there' }).click();
    await expect.poll(() => line(page, 'F').evaluate((element) => element === document.activeElement)).toBe(true);
    // The next edit makes it old.
    await fill(page, 'n', '2900 rev/min');
    await expect.poll(() => strip(page).count()).toBe(0);
  });
});

test('a line that is deleted offers its undo where it stood', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await blanks(page, 'n').first().waitFor({ state: 'attached' });
    await line(page, 'n').focus();
    await page.keyboard.press('Control+.');
    await page.getByRole('menu').waitFor();
    await page.keyboard.press('e');
    await expect.poll(() => line(page, 'n').count()).toBe(0);
    const offer = page.locator('.undo-offer');
    await expect.poll(() => textOf(offer)).toBe('“Speed” is deleted. undo');
    await screenshot(page, 'undo-offer', { fullPage: false });
    await offer.getByRole('button', { name: 'undo' }).click();
    await blank(page, 'n').waitFor({ state: 'attached' });
    await expect.poll(() => offer.count()).toBe(0);
    expect(await textOf(strip(page).locator('p'))).toBe('Undone: “Speed” is back.');
  });
});

test('what must not be missed is seen from anywhere: a symbol that stands twice, rows left out, a test that runs, keeping that failed', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => { throw new DOMException('refused', 'SecurityError'); };
    });
    await page.reload();
    await blanks(page, 'd').first().waitFor({ state: 'attached' });
    const record = page.locator('[data-cell="test"]');
    await intoView(record);
    await record.getByLabel('Counter at the start', { exact: true }).last().fill('0');
    await record.getByLabel('Counter at the start', { exact: true }).last().blur();
    await record.getByRole('button', { name: 'Start the test', exact: true }).click();
    const watch = page.locator('.watch-strip');
    await expect.poll(() => textOf(watch)).toContain('A test is running');
    await page.evaluate(() => scrollTo(0, 0));
    const seen = (selector: string) => page.locator(selector).evaluate((element) => {
      const { top, bottom } = element.getBoundingClientRect();
      return top >= 0 && bottom <= innerHeight;
    });
    expect(await seen('.watch-strip')).toBe(true);
    await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight / 2));
    expect([await seen('.watch-strip'), await seen('.keeping')]).toEqual([true, true]);
    expect(await textOf(page.locator('.keeping'))).toContain('Not kept');
    await screenshot(page, 'watch-strip-phone', { fullPage: false });
    await checkAccess(page);
    await watch.getByRole('button', { name: 'A test is running' }).click();
    await expect.poll(() => record.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});
