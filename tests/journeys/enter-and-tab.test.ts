/** Where Enter and Tab lead: from measured blank to measured blank, along the rows of a table, and out of it without harm. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { SHORT, withPage } from './harness.ts';
import { focus, tabTo } from './keyboard.ts';
import { blanks, line, textOf } from './sheet-page.ts';

/** What would be replaced by the next key, and whether a long text has the focus. */
const selected = (page: Page): Promise<{ text: string; of: string; isLong: boolean }> => page.evaluate(() => {
  const field = document.activeElement;
  if (!(field instanceof HTMLInputElement) && !(field instanceof HTMLTextAreaElement)) return { text: '', of: '', isLong: false };
  return { text: field.value.slice(field.selectionStart ?? 0, field.selectionEnd ?? 0), of: field.value, isLong: field instanceof HTMLTextAreaElement };
});
const tableRows = (page: Page, id: string): Promise<number> => page.locator(`[data-cell="${id}"] tbody tr:not(.told)`).count();

describe('Enter on a machine’s sheet', () => {
  test.each([['rotating-bending.md', 40], ['alternating-bending.md', 20], ['loading-lever.md', 10]] as const)('%s: from each measured blank to the next, never into a text or a choice', async (name, fewest) => {
    await withPage({ sheet: name }, async ({ page }) => {
      const measured = page.locator('.sheet.at-work input[data-measured]:not(details:not([open]) *)');
      await measured.first().waitFor({ state: 'attached' });
      await page.waitForFunction(() => document.querySelector('.sheet.at-work > .cell:empty') === null);
      const before = await page.locator('textarea').evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value));
      await measured.first().focus();
      const count = await measured.count();
      expect(count).toBeGreaterThanOrEqual(fewest);
      const at = (): Promise<number> => measured.evaluateAll((all) => all.indexOf(document.activeElement as HTMLElement));
      for (let i = 0; i < count; i += 1) {
        expect(await at()).toBe(i);
        await page.keyboard.press('Enter');
        const { text, of, isLong } = await selected(page);
        expect(isLong).toBe(false);
        // Only one quantity is there to be replaced by the next key.
        expect(text === '' || (text === of && /^[^,;]*$/.test(of)), of).toBe(true);
      }
      expect(await page.locator('textarea').evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value))).toEqual(before);
    });
  });

  test('from the speed a number typed next goes into a blank that is measured, and leaves every text as it was', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await blanks(page, 'n').first().focus();
      await page.keyboard.press('Enter');
      const { tag, symbol, cell } = await focus(page);
      expect(tag).toBe('INPUT');
      expect(symbol === '' ? cell : symbol).not.toBe('n');
    });
  });

  test('pressed while the page is still being drawn, it waits for no one: the next blank is drawn and taken to', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await page.addInitScript(() => {
        const watch = new MutationObserver(() => {
          const blank = document.querySelector<HTMLInputElement>('.sheet.at-work [data-symbol="n"] input[data-measured]');
          if (blank === null) return;
          watch.disconnect();
          document.documentElement.dataset['undrawn'] = String(document.querySelectorAll('.sheet.at-work > .cell:empty').length);
          blank.focus();
          blank.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true, cancelable: true }));
          document.documentElement.dataset['reached'] = document.activeElement?.closest<HTMLElement>('[data-symbol]')?.dataset['symbol'] ?? document.activeElement?.tagName;
        });
        watch.observe(document, { childList: true, subtree: true });
      });
      await page.reload();
      await expect.poll(() => page.evaluate(() => Number(document.documentElement.dataset['undrawn'] ?? 0))).toBeGreaterThan(0);
      const reached = await page.evaluate(() => document.documentElement.dataset['reached']);
      expect(['BODY', 'n']).not.toContain(reached);
    });
  });

  test('the short entries of the head follow one another and lead to the first measured blank', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      const head = page.locator('.title-block textarea');
      await head.first().focus();
      for (let i = 1; i < (await head.count()); i += 1) {
        await page.keyboard.press('Enter');
        expect(await head.nth(i).evaluate((one) => one === document.activeElement)).toBe(true);
        expect((await selected(page)).text).toBe('');
      }
      await page.keyboard.press('Enter');
      expect((await focus(page)).tag).toBe('INPUT');
    });
  });
});

describe('a table', () => {
  for (const size of ['desktop', 'phone'] as const) {
    test(`Enter, which is “next” on a phone, fills a row from left to right and begins another only from a filled one: ${size}`, async () => {
      await withPage({ sheet: 'sn-line.md', size }, async ({ page }) => {
        const table = page.locator('[data-cell="specimens"]');
        await table.getByRole('textbox', { name: 'Specimen, new row', exact: true }).focus();
        // An empty new row is passed through and left, and nothing comes of it.
        for (let i = 0; i < 9; i += 1) await page.keyboard.press('Enter');
        expect(await tableRows(page, 'specimens')).toBe(25);
        expect((await focus(page)).cell).not.toBe('specimens');

        await table.getByRole('textbox', { name: 'Specimen, new row', exact: true }).focus();
        for (const text of ['Z1', 'steel K', '350', '250000', 'fracture', '', '', '', '']) {
          await page.keyboard.type(text);
          await page.keyboard.press('Enter');
        }
        await expect.poll(() => tableRows(page, 'specimens')).toBe(26);
        await expect.poll(async () => (await focus(page)).name).toBe('Specimen, new row');
        const row = table.locator('tbody tr').nth(24).locator('input');
        expect(await row.evaluateAll((all) => all.map((one) => (one as HTMLInputElement).value)).then((texts) => texts.slice(0, 5))).toEqual(['Z1', 'steel K', '350', '250000', 'fracture']);
        // What is one quantity is there to be replaced; words are not.
        await row.nth(1).focus();
        await page.keyboard.press('Enter');
        expect(await selected(page)).toMatchObject({ text: '350' });
        await page.keyboard.press('Shift+Enter');
        expect(await selected(page)).toMatchObject({ text: '', of: 'steel K' });
      });
    });
  }

  test('Tab leaves it, and what is typed next adds no row and deletes none', async () => {
    await withPage({ sheet: 'sn-line.md' }, async ({ page }) => {
      await page.locator('[data-cell="specimens"]').getByRole('textbox', { name: 'Life, row 3', exact: true }).focus();
      await page.keyboard.press('Tab');
      for (const key of ['4', '1', 'Enter', 'Space', '7', 'Enter']) await page.keyboard.press(key);
      expect(await tableRows(page, 'specimens')).toBe(25);
      expect(await textOf(page.locator('[data-cell="specimens"] .count'))).toBe('24 rows');
      await tabTo(page, ({ name }) => name.startsWith('add a row below row'));
      await page.keyboard.press('Enter');
      await expect.poll(() => tableRows(page, 'specimens')).toBe(26);
    });
  });

  test('words that Tab comes to are not there to be replaced; one quantity is', async () => {
    await withPage({ sheet: SHORT }, async ({ page }) => {
      await line(page, 'L').getByRole('button', { name: /how it was measured/ }).click();
      await blanks(page, 'L').first().focus();
      await tabTo(page, ({ name, symbol }) => symbol === 'L' && name === 'Instrument');
      expect(await selected(page)).toMatchObject({ text: '', of: 'steel rule, 0.5 mm' });
      await tabTo(page, ({ symbol, tag }) => symbol === 's_1' && tag === 'INPUT');
      expect(await selected(page)).toMatchObject({ text: '101.0 mm', of: '101.0 mm' });
    });
  });
});
