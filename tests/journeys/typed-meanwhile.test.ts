/** Somebody types on while the line is drawn anew for what was entered just before: on a slow phone results come later than the next key. */
import { expect, test } from 'vitest';
import type { Locator, Page } from 'playwright';
import { intoView, SHORT, withPage } from './harness.ts';
import { line, untilKept } from './sheet-page.ts';

/** Enters a text in one field and, before the page can follow, begins another. Gives what stands in that one once all has followed. */
async function enterAndGoOn(page: Page, [first, second]: readonly [Locator, Locator], [entered, begun]: readonly [string, string]): Promise<string> {
  const next = await second.elementHandle();
  await first.evaluate((field: HTMLInputElement, [there, texts]) => {
    if (!(there instanceof HTMLInputElement)) throw new Error('no field to go on to');
    field.focus();
    field.select();
    document.execCommand('insertText', false, texts[0]);
    // Leaving it by the keyboard says that it has changed.
    field.dispatchEvent(new Event('change', { bubbles: true }));
    there.focus();
    document.execCommand('insertText', false, texts[1]);
  }, [next, [entered, begun]] as const);
  await expect.poll(() => page.evaluate(() => new Promise((resolve) => requestAnimationFrame(() => setTimeout(() => resolve(true)))))).toBe(true);
  await untilKept(page);
  return second.inputValue();
}

test('the record: a counter reading stays as it is being typed, and is entered when it is left', async () => {
  await withPage({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
    const record = page.locator('[data-cell="test"]');
    await intoView(record);
    const [start, digits] = ['Counter at the start', 'Digits of the counter'].map((name) => record.getByLabel(name, { exact: true }).last()) as [Locator, Locator];
    expect(await enterAndGoOn(page, [digits, start], ['7', '0081'])).toBe('0081');
    expect(await digits.inputValue()).toBe('7');
    await start.blur();
    await untilKept(page);
    expect(await start.inputValue()).toBe('0081');
    // What the sheet says instead is shown: an undo takes it away, also from the field that one stands in.
    await start.focus();
    await page.keyboard.press('Escape');
    await record.focus();
    await page.keyboard.press('Control+z');
    await expect.poll(() => start.inputValue()).toBe('');
  });
});

test('what is said of a reading: the next field of the form stays as it is being typed', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await intoView(line(page, 'd'));
    await line(page, 'd').getByRole('button', { name: /how it was measured/ }).first().click();
    const [instrument, resolution] = ['Instrument', 'Resolution'].map((name) => line(page, 'd').locator('.field').filter({ hasText: name }).locator('input').first()) as [Locator, Locator];
    await resolution.fill('');
    await resolution.blur();
    expect(await enterAndGoOn(page, [instrument, resolution], ['outside micrometer', '0.0'])).toBe('0.0');
    await page.keyboard.type('1 mm');
    await resolution.blur();
    await untilKept(page);
    expect(await resolution.inputValue()).toBe('0.01 mm');
  });
});
