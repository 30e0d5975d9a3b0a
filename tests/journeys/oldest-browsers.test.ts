/**
 * What the oldest browsers lack in which all of the page is to work (README.md: Chrome 111, Firefox 121, Safari 16.4), taken away before it loads. When each came is
 * what compatibility tables of the web say, from memory: the popover with Chrome 114, Firefox 125 and Safari 17; `checkVisibility` with Safari 17.4;
 * `requestIdleCallback` never in Safari so far.
 */
import { expect, test } from 'vitest';
import { asItOpens, download, SHORT, withPage } from './harness.ts';
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
    // It is a part of the page by itself, which the first press brings.
    await expect.poll(() => menu.isVisible()).toBe(true);
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

/** On a busy machine what is put off by nothing comes much later. */
function putOff(): void {
  const inTime: (act: () => void, wait: number) => unknown = window.setTimeout.bind(window);
  Object.assign(window, { setTimeout: (act: () => void, wait = 0) => inTime(act, wait === 0 ? 700 : wait) });
}

test.each(['quick', 'busy'] as const)('a script that stops before the page is alive says so at once, and the sheet can be read: on a %s machine', async (machine) => {
  await withPage({ before: () => void Reflect.deleteProperty(Array.prototype, 'at') }, async ({ page, complaints }) => {
    if (machine === 'busy') {
      await page.addInitScript(putOff);
      await page.reload();
    }
    await page.getByRole('alert').filter({ hasText: /its script stopped \(.*at is not a function.*\)\. Load the page again/ }).waitFor({ timeout: 8000 });
    expect(await page.locator('main').innerText()).toContain('Predicted against observed');
    // Parts on demand, too, which a page that comes to life reads from the sheet.
    expect(await page.locator('#cell-m_W').isVisible()).toBe(true);
    expect(await page.locator('main noscript').count()).toBe(0);
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

test('an empty date shows nothing, not even where a browser fills it with a day of its own; in it and begun it can be seen', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    const date = page.locator('.cell-record input.field-load_verified').first();
    await date.waitFor({ state: 'attached' });
    const colour = (): Promise<string> => date.evaluate((field) => getComputedStyle(field).color);
    expect(await date.getAttribute('type')).toBe('date');
    expect(await colour()).toBe('rgba(0, 0, 0, 0)');
    await date.evaluate((field) => field.focus());
    expect(await colour()).not.toBe('rgba(0, 0, 0, 0)');
    await page.emulateMedia({ media: 'print' });
    expect(await colour()).toBe('rgba(0, 0, 0, 0)');
    await page.emulateMedia({ media: 'screen' });
    await date.fill('2031-05-06');
    await date.press('Tab');
    await expect.poll(() => colour()).not.toBe('rgba(0, 0, 0, 0)');
  });
});

test('where the browser promises nothing of what it keeps, the list of sheets offers a working file', async () => {
  // Firefox has no such promise at all for a page opened by double click.
  const before = (): void => void (typeof StorageManager !== 'undefined' && Object.defineProperties(StorageManager.prototype, { persist: { value: () => Promise.resolve(false) }, persisted: { value: () => Promise.resolve(false) } }));
  await asItOpens({ sheet: SHORT, before }, async ({ page }) => {
    const title = page.locator('.title-block textarea').first();
    await title.fill('Kept');
    await title.press('Tab');
    const head = page.locator('.head');
    await head.getByText('Kept in this browser at').waitFor();
    await head.getByRole('button', { name: 'Sheets', exact: true }).click();
    const { name } = await download(page, () => head.getByRole('button', { name: 'Working file of the open sheet' }).click());
    expect(name).toMatch(/\.html$/);
  });
});

test('to a finger every field has letters of 16 px, and no box or list to choose from is the browser’s own', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    await line(page, 'sigma_a').locator('.result').first().waitFor();
    for (const panel of ['Slips', 'Hold', 'Sheets', 'Take away']) {
      await page.locator('.head').getByRole('button', { name: panel, exact: true }).click();
      await page.locator('.head .panel').waitFor();
      const own = await page.evaluate(() => [...document.querySelectorAll<HTMLElement>('input:not([type=file], [type=range]), select, textarea')].flatMap((field) => {
        const { fontSize, appearance } = getComputedStyle(field);
        const isDrawn = !field.matches('select, [type=checkbox], [type=radio]') || appearance === 'none';
        const isLarge = field.matches('[type=checkbox], [type=radio]') || parseFloat(fontSize) >= 16;
        return isDrawn && isLarge ? [] : [`${field.tagName} ${field.className} ${field.getAttribute('aria-label') ?? field.id}: ${fontSize}, ${appearance}`];
      }));
      expect(own, panel).toEqual([]);
      await page.keyboard.press('Escape');
      await page.locator('.head .panel').waitFor({ state: 'detached' });
    }
  });
});
