/** An open editor belongs to its cell: whatever symbol is typed there, no other cell is written to, and the focus stays. */
import { expect, test } from 'vitest';
import type { Page } from 'playwright';
import { shipped } from '../shipped.ts';
import { download, SHORT, withPage } from './harness.ts';
import { blanks, chooseTakeaway, line, textOf } from './sheet-page.ts';
import { size } from '../sizes.ts';

const sheet = shipped('rotating-bending');
const editor = (page: Page) => page.locator('.source-editor textarea');
const documentOf = async (page: Page): Promise<string> => (await download(page, () => chooseTakeaway(page, 'Document'))).text;

/** A new step below the speed, with its text open. */
async function newStep(page: Page): Promise<void> {
  await blanks(page, 'n').first().waitFor({ state: 'attached' });
  await line(page, 'n').focus();
  await page.keyboard.press('Control+.');
  await page.getByRole('menu').waitFor();
  for (const letter of ['w', 's']) await page.keyboard.press(letter);
  await editor(page).waitFor();
}

test('a step is named letter by letter past a symbol that is there, and Escape gives only its own text back', async () => {
  await withPage({ sheet: SHORT }, async ({ page }) => {
    await newStep(page);
    const added = await editor(page).inputValue();
    await editor(page).focus();
    await expect.poll(async () => {
      await page.keyboard.press('Control+A');
      return editor(page).evaluate((field: HTMLTextAreaElement) => field === document.activeElement && field.selectionEnd - field.selectionStart === field.value.length);
    }).toBe(true);
    await page.keyboard.type('symbol: W');
    // Both cells live, each with its own text, and each says that there is another.
    const twice = page.locator('.cell-step').filter({ hasText: 'The symbol W is defined twice' });
    await expect.poll(() => twice.count()).toBe(2);
    expect(await editor(page).inputValue()).toBe('symbol: W');
    await page.keyboard.type('_h');
    await expect.poll(() => twice.count()).toBe(0);
    expect(await editor(page).inputValue()).toBe('symbol: W_h');
    expect(await editor(page).evaluate((field) => field === document.activeElement)).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => editor(page).count()).toBe(0);
    expect((await documentOf(page)).replace(added, '')).not.toContain('W_h');
    expect(await textOf(line(page, 'W'))).toContain('Load on the specimen');
  });
});

test('beginnings of all symbols are typed in one editor, and no other cell changes by a byte', async () => {
  await withPage({}, async ({ page }) => {
    await newStep(page);
    const symbols = [...sheet.matchAll(/^symbol: (\w+)$/gm)].map(([, symbol = '']) => symbol);
    expect(symbols.length).toBeGreaterThan(60);
    const beginnings = [...new Set(symbols.flatMap((symbol) => Array.from(symbol, (_, i) => symbol.slice(0, i + 1))))];
    for (const beginning of beginnings.filter((_, i) => i % size(6, 1) === 0)) {
      await editor(page).fill(`symbol: ${beginning}`);
      expect(await editor(page).evaluate((field: HTMLTextAreaElement) => [document.activeElement === field, field.value])).toEqual([true, `symbol: ${beginning}`]);
    }
    await editor(page).fill('symbol: zz_new');
    // Only the new cell is more than there was.
    expect((await documentOf(page)).replace(/\n*```step\nsymbol: zz_new\n```\n*/, '\n\n')).toBe(sheet);
  });
});
