/**
 * What the oldest browsers lack in which all of the page is to work (README.md: Chrome 111, Firefox 121, Safari 16.4), taken away before it loads. When each came is
 * what compatibility tables of the web say, from memory: the popover with Chrome 114, Firefox 125 and Safari 17; `checkVisibility` with Safari 17.4;
 * `requestIdleCallback` never in Safari so far.
 */
import { expect, test } from 'vitest';
import { asItOpens, SHORT, withPage } from './harness.ts';
import { line } from './sheet-page.ts';

function asInTheOldest(): void {
  for (const name of ['popover', 'showPopover', 'hidePopover', 'togglePopover']) Reflect.deleteProperty(HTMLElement.prototype, name);
  Reflect.deleteProperty(Element.prototype, 'checkVisibility');
  Reflect.deleteProperty(window, 'requestIdleCallback');
}

test('the menu of a line opens, closes and gives the focus back without popovers', async () => {
  await asItOpens({ sheet: SHORT, before: asInTheOldest }, async ({ page }) => {
    const [cell, menu] = [line(page, 'sigma_a'), page.locator('.cell-menu')];
    await cell.locator('.result').first().waitFor();
    expect(await menu.isVisible()).toBe(false);
    const button = cell.getByRole('button', { name: /^What can be done with/ });
    await button.press('Enter');
    expect(await menu.isVisible()).toBe(true);
    await page.keyboard.press('Escape');
    expect(await menu.isVisible()).toBe(false);
    expect(await button.evaluate((element) => element === document.activeElement)).toBe(true);

    await button.press('Enter');
    await page.locator('h1, .title-block').first().dispatchEvent('pointerdown');
    expect(await menu.isVisible()).toBe(false);

    await button.press('Enter');
    await page.getByRole('menuitem', { name: /edit its own text/ }).press('Enter');
    expect(await cell.locator('.source-editor textarea').evaluate((element) => element === document.activeElement)).toBe(true);
    expect(await menu.isVisible()).toBe(false);
  });
});

test('the lecture and the way to the first blank do without checkVisibility', async () => {
  await asItOpens({ sheet: SHORT, before: asInTheOldest }, async ({ page }) => {
    await line(page, 'sigma_a').locator('.result').first().waitFor();
    await page.getByRole('button', { name: 'to the first blank' }).press('Enter');
    expect(await page.evaluate(() => document.activeElement?.matches('#sheet input, #sheet textarea'))).toBe(true);
    await page.locator('.head').getByRole('button', { name: 'Lecture', exact: true }).press('Enter');
    const wall = page.locator('.lecture-wall, .lecture-bar').first();
    await wall.waitFor();
    for (let i = 0; i < 6; i++) await page.keyboard.press('PageDown');
    expect(await page.evaluate(() => document.activeElement !== document.body)).toBe(true);
    await page.keyboard.press('Escape');
    await page.waitForFunction(() => !document.documentElement.classList.contains('in-lecture'));
  });
});

test('a script that stops before the page is alive says so at once, and the sheet can be read', async () => {
  await withPage({ before: () => void Reflect.deleteProperty(Array.prototype, 'at') }, async ({ page, complaints }) => {
    await page.getByRole('alert').filter({ hasText: /its script stopped \(.*at is not a function.*\)\. Load the page again/ }).waitFor({ timeout: 8000 });
    expect(await page.locator('main').innerText()).toContain('Predicted against observed');
    expect(complaints.some((complaint) => complaint.includes('at is not a function'))).toBe(true);
    complaints.length = 0;
  });
});

test('Escape folds up what is unfolded with the focus nowhere, as after a press in Safari', async () => {
  await asItOpens({ sheet: SHORT }, async ({ page }) => {
    const sheets = page.locator('.head').getByRole('button', { name: 'Sheets', exact: true });
    await sheets.click();
    await page.locator('#desk-sheets').waitFor();
    await page.evaluate(() => (document.activeElement as HTMLElement).blur());
    await page.keyboard.press('Escape');
    await page.locator('#desk-sheets').waitFor({ state: 'detached' });
    expect(await sheets.evaluate((element) => element === document.activeElement)).toBe(true);
  });
});
