/** A sheet is written in the page, with keys alone: names are offered, a symbol is renamed everywhere, what is wrong is gone to. */
import { describe, expect, test } from 'vitest';
import type { Page } from 'playwright';
import { asItOpens, SHORT } from './harness.ts';
import { focus, tabTo } from './keyboard.ts';
import { line, resultNumber } from './sheet-page.ts';

/** Chooses by letter from the menu of the line with the focus. */
async function choose(page: Page, ...letters: string[]): Promise<void> {
  await page.keyboard.press('Control+.');
  await page.getByRole('menu').waitFor();
  for (const letter of letters) await page.keyboard.press(letter);
}

const ownText = (page: Page) => page.locator('.source-editor textarea');

describe('writing with the keyboard', () => {
  test('names that fit are offered as they are typed, and taken with arrow and Enter', async () => {
    await asItOpens({ sheet: SHORT }, async ({ page }) => {
      await tabTo(page, ({ symbol, tag }) => symbol === 'd' && tag === 'INPUT');
      await choose(page, 'w', 's');
      await expect.poll(async () => (await focus(page)).tag).toBe('TEXTAREA');
      await page.keyboard.press('Control+A');
      await page.keyboard.type('symbol: y\nfor');
      const list = page.getByRole('listbox', { name: 'Names that fit' });
      await list.waitFor();
      expect(await list.getByRole('option').allInnerTexts()).toEqual([expect.stringMatching(/^formula/)]);
      await page.keyboard.press('ArrowDown');
      await expect.poll(() => ownText(page).getAttribute('aria-activedescendant')).toBe(await list.getByRole('option').first().getAttribute('id'));
      await page.keyboard.press('Enter');
      await page.keyboard.type('2*sigma');
      await list.getByRole('option').first().waitFor();
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      expect(await ownText(page).inputValue()).toBe('symbol: y\nformula: 2*sigma_a');
      expect(await list.isVisible()).toBe(false);
      // Enter without a choice is a line, and Escape closes the list before the text.
      await page.keyboard.press('Enter');
      await page.keyboard.type('un');
      await list.waitFor();
      await page.keyboard.press('Escape');
      expect([await list.isVisible(), await ownText(page).count()]).toEqual([false, 1]);
      await page.keyboard.type('it: MPa');
      await expect.poll(async () => (await resultNumber(page, 'y')) / (await resultNumber(page, 'sigma_a'))).toBeCloseTo(2, 2);
    });
  });

  test('a name is taken by a finger, too, and the field keeps its focus', async () => {
    await asItOpens({ sheet: SHORT, size: 'phone' }, async ({ page }) => {
      await line(page, 'd').locator('input').first().focus();
      await choose(page, 't');
      await ownText(page).fill('symbol: d\nunit: mm\nvalue: 7 mm\nins');
      await ownText(page).press('End');
      await page.keyboard.type('t');
      const option = page.getByRole('option', { name: /^instrument/ });
      await option.waitFor();
      const box = await option.boundingBox();
      expect(box?.height).toBeGreaterThanOrEqual(24);
      expect((box?.x ?? 0) + (box?.width ?? 0)).toBeLessThanOrEqual(390);
      await option.dispatchEvent('pointerdown');
      expect(await ownText(page).inputValue()).toContain('instrument: ');
      expect((await focus(page)).tag).toBe('TEXTAREA');
    });
  });

  test('what is wrong is gone to by its line, and a misspelt key says its near name', async () => {
    await asItOpens({ sheet: SHORT }, async ({ page }) => {
      await tabTo(page, ({ symbol, tag }) => symbol === 'd' && tag === 'INPUT');
      await choose(page, 't');
      await expect.poll(async () => (await focus(page)).tag).toBe('TEXTAREA');
      await page.keyboard.press('Control+End');
      await page.keyboard.type('\nnotte: thin');
      await tabTo(page, ({ name }) => /^line \d+/.test(name));
      expect(await line(page, 'd').locator('.problem').allInnerTexts()).toEqual([expect.stringContaining('Did you mean note?')]);
      await page.keyboard.press('Enter');
      const chosen = await ownText(page).evaluate((field: HTMLTextAreaElement) => field.value.slice(field.selectionStart, field.selectionEnd));
      expect(chosen).toBe('notte: thin');
      await page.keyboard.type('note: thin');
      await expect.poll(() => line(page, 'd').locator('.problem').count()).toBe(0);
    });
  });

  test('a symbol gets another name everywhere, in one step to undo; one that is taken is refused beside what was typed', async () => {
    await asItOpens({ sheet: SHORT }, async ({ page }) => {
      const before = await resultNumber(page, 'sigma_a');
      await tabTo(page, ({ symbol, tag }) => symbol === 'd' && tag === 'INPUT');
      await choose(page, 'r');
      await expect.poll(async () => (await focus(page)).name).toMatch(/^New name of d/);
      await page.keyboard.type('F');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.rename').innerText()).toContain('F is a symbol of this sheet already.');
      await page.keyboard.press('Control+A');
      await page.keyboard.type('d_w');
      await page.keyboard.press('Enter');
      await line(page, 'd_w').waitFor();
      expect(await line(page, 'd').count()).toBe(0);
      expect(await resultNumber(page, 'sigma_a')).toBe(before);
      expect((await focus(page)).symbol).toBe('d_w');
      await page.keyboard.press('Control+Z');
      await line(page, 'd').waitFor();
      expect(await line(page, 'd_w').count()).toBe(0);
      expect(await resultNumber(page, 'sigma_a')).toBe(before);
    });
  });
});
